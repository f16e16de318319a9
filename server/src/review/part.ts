import { RUN, type RunField } from '../rs274/steps.ts';

/**
 * What happens while one run holds, summed over its steps: small, so that rules look at runs and not at
 * steps. Parts of neighbouring stretches with equal runs are joined by `joinParts`.
 * Lines are 0-based, of the program once joined and of the stretch before; none is NO_LINE, far below zero.
 */
export interface Part {
  readonly run: Float64Array;
  /** First step's line, last step's line. */
  first_line: number;
  last_line: number;
  /** First and last line that cuts (feed, arc, thread, tap). */
  first_cut_line: number;
  last_cut_line: number;
  cut_steps: number;
  rapid_steps: number;
  /** Bit set of 1 << kind. */
  kinds: number;
  flags: number;
  cut_length_mm: number;
  rapid_length_mm: number;
  /** Minutes at the programmed feed; moves whose feed or length is not known are in `untimed`. */
  cut_min: number;
  dwell_min: number;
  untimed: number;
  /** Working diameter of cuts on a lathe (2 |X|): least and most. */
  least_x_mm: number;
  most_x_mm: number;
  /** Feed moves straight along the tool axis into the work: first line, longest length. */
  plunge_line: number;
  plunge_mm: number;
  low: [number, number, number];
  high: [number, number, number];
}

export function runValue(part: Part, field: RunField): number {
  return part.run[RUN[field]];
}

/** Stands for no line: lines of a stretch can be a little under zero. */
export const NO_LINE = -0x40000000;

/** A part in which nothing has happened yet. */
export function emptyPart(run: Float64Array, line: number): Part {
  return {
    run,
    first_line: line,
    last_line: line,
    first_cut_line: NO_LINE,
    last_cut_line: NO_LINE,
    cut_steps: 0,
    rapid_steps: 0,
    kinds: 0,
    flags: 0,
    cut_length_mm: 0,
    rapid_length_mm: 0,
    cut_min: 0,
    dwell_min: 0,
    untimed: 0,
    least_x_mm: Number.NaN,
    most_x_mm: Number.NaN,
    plunge_line: NO_LINE,
    plunge_mm: 0,
    low: [Number.NaN, Number.NaN, Number.NaN],
    high: [Number.NaN, Number.NaN, Number.NaN],
  };
}

/** Widens one axis of a part's box; what is not known changes nothing. */
export function widenBox(part: Part, axis: 0 | 1 | 2, value: number): void {
  if (!(part.low[axis] <= value) && !Number.isNaN(value)) part.low[axis] = value;
  if (!(part.high[axis] >= value) && !Number.isNaN(value)) part.high[axis] = value;
}

/** First and last line of parts or uses, 0-based; first after last when there are none. */
export function linesOf(stretches: readonly { readonly first_line: number; readonly last_line: number }[]): {
  first: number;
  last: number;
} {
  let [first, last] = [Number.POSITIVE_INFINITY, -1];
  for (const { first_line, last_line } of stretches) {
    first = Math.min(first, first_line);
    last = Math.max(last, last_line);
  }
  return { first, last };
}
