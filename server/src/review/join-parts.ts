import { RUN, RUN_WIDTH } from '../rs274/steps.ts';
import { type Part, widenBox } from './part.ts';

/** The parts of one stretch, their lines counted from its first line. */
export interface StretchParts {
  firstLine: number;
  parts: readonly Part[];
}

/** So many parts stand in order of the program; after them a part may join an earlier one of its tool. */
const MOST_IN_ORDER = 2000;
/** How far back it looks for one. */
const PARTS_BACK = 8;

/**
 * Parts of the whole program, lines of the program: neighbours with equal runs are one. In a program where feeds change
 * back and forth all the time, those with equal runs close by are one too. The parts given are not changed.
 */
export function joinParts(stretches: Iterable<StretchParts>): Part[] {
  const joined: Part[] = [];
  for (const { parts, firstLine } of stretches) {
    for (const part of parts) {
      const same = equalPart(joined, part);
      if (same) addPart(same, part, firstLine);
      else joined.push(placed(part, firstLine));
    }
  }
  return joined;
}

function equalPart(joined: readonly Part[], part: Part): Part | undefined {
  const oldest = joined.length < MOST_IN_ORDER ? joined.length - 1 : joined.length - PARTS_BACK;
  for (let at = joined.length - 1; at >= 0 && at >= oldest; at--) {
    const { run } = joined[at];
    if (sameRun(run, part.run)) return joined[at];
    if (run[RUN.tool] !== part.run[RUN.tool]) return undefined;
  }
  return undefined;
}

function placed(part: Part, by: number): Part {
  const moved = (line: number) => (line < 0 ? line : line + by);
  return {
    ...part,
    first_line: moved(part.first_line),
    last_line: moved(part.last_line),
    first_cut_line: moved(part.first_cut_line),
    last_cut_line: moved(part.last_cut_line),
    plunge_line: moved(part.plunge_line),
    low: [...part.low],
    high: [...part.high],
  };
}

/** Whether two runs belong in one part: equal but for G0 to G3, which change all the time and which `kinds` tells. */
export function sameRun(a: Float64Array, b: Float64Array, a_from = 0, b_from = 0): boolean {
  for (let i = 0; i < RUN_WIDTH; i++) {
    const left = a[a_from + i];
    const right = b[b_from + i];
    if (left === right || (Number.isNaN(left) && Number.isNaN(right))) continue;
    if (i !== RUN.motion || !(left <= PLAIN_MOTION && right <= PLAIN_MOTION)) return false;
  }
  return true;
}

/** G3 times ten: the largest motion code of a plain move. */
const PLAIN_MOTION = 30;

function addPart(a: Part, b: Part, by: number): void {
  a.last_line = Math.max(a.last_line, b.last_line + by);
  a.first_line = Math.min(a.first_line, b.first_line + by);
  if (b.first_cut_line >= 0) {
    if (a.first_cut_line < 0) a.first_cut_line = b.first_cut_line + by;
    a.last_cut_line = Math.max(a.last_cut_line, b.last_cut_line + by);
  }
  a.cut_steps += b.cut_steps;
  a.rapid_steps += b.rapid_steps;
  a.kinds |= b.kinds;
  a.flags |= b.flags;
  a.cut_length_mm += b.cut_length_mm;
  a.rapid_length_mm += b.rapid_length_mm;
  a.cut_min += b.cut_min;
  a.dwell_min += b.dwell_min;
  a.untimed += b.untimed;
  if (!(a.least_x_mm <= b.least_x_mm) && b.least_x_mm >= 0) a.least_x_mm = b.least_x_mm;
  if (!(a.most_x_mm >= b.most_x_mm) && b.most_x_mm >= 0) a.most_x_mm = b.most_x_mm;
  if (a.plunge_line < 0 && b.plunge_line >= 0) a.plunge_line = b.plunge_line + by;
  a.plunge_mm = Math.max(a.plunge_mm, b.plunge_mm);
  for (const axis of [0, 1, 2] as const) {
    widenBox(a, axis, b.low[axis]);
    widenBox(a, axis, b.high[axis]);
  }
}
