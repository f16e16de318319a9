import { RUN, type RunField } from '../rs274/steps.ts';
import { runHash } from './same-run.ts';

/** Stands for no line: lines of a stretch can be a little under zero. */
export const NO_LINE = -0x40000000;

/**
 * What happens while one run holds, summed over its steps: small, so that rules look at runs and not at
 * steps. Parts of neighbouring stretches with equal runs are joined by `joinParts`.
 * Lines are 0-based, of the program once joined and of the stretch before; none is NO_LINE, far below zero.
 */
export class Part {
  /** First step's line, last step's line. */
  first_line: number;
  last_line: number;
  /** Tool in use, -1 none: asked of every part, and not to be fetched from far each time. */
  readonly tool: number;
  /** First and last line that cuts (feed, arc, thread, tap). */
  first_cut_line: number = NO_LINE;
  last_cut_line: number = NO_LINE;
  cut_steps = 0;
  rapid_steps = 0;
  /** Bit set of 1 << kind. */
  kinds = 0;
  flags = 0;
  /** Cuts of which no time is known. */
  untimed = 0;
  /** First feed move straight along the tool axis into the work. */
  plunge_line: number = NO_LINE;

  /** One object for parts that were found to have runs that belong in one part: they are told at a glance. */
  kin: object | undefined;
  /** Equal for runs that belong in one part; 0 while nobody asked. */
  private run_hash = 0;

  constructor(
    readonly run: Float64Array,
    line: number,
    /** All that is no whole number, in one place: thousands of parts are kept of a long program. */
    private readonly lengths = emptyLengths(),
  ) {
    this.first_line = line;
    this.last_line = line;
    this.tool = run[RUN.tool] >= 0 ? run[RUN.tool] : -1;
  }

  copy(): Part {
    const made = new Part(this.run, this.first_line, this.lengths.slice());
    made.last_line = this.last_line;
    made.first_cut_line = this.first_cut_line;
    made.last_cut_line = this.last_cut_line;
    made.cut_steps = this.cut_steps;
    made.rapid_steps = this.rapid_steps;
    made.kinds = this.kinds;
    made.flags = this.flags;
    made.untimed = this.untimed;
    made.plunge_line = this.plunge_line;
    made.kin = this.kin;
    made.run_hash = this.run_hash;
    return made;
  }

  /** Counts the lines from another first line, `by` lines further up. */
  moved(by: number): this {
    this.first_line += by;
    this.last_line += by;
    if (this.first_cut_line !== NO_LINE) this.first_cut_line += by;
    if (this.last_cut_line !== NO_LINE) this.last_cut_line += by;
    if (this.plunge_line !== NO_LINE) this.plunge_line += by;
    return this;
  }

  /** Adds what happens later in the same run, its lines counted from a line `by` further down. */
  take(later: Part, by: number): void {
    this.last_line = Math.max(this.last_line, later.last_line + by);
    this.first_line = Math.min(this.first_line, later.first_line + by);
    if (later.first_cut_line !== NO_LINE) {
      if (this.first_cut_line === NO_LINE) this.first_cut_line = later.first_cut_line + by;
      this.last_cut_line = Math.max(this.last_cut_line, later.last_cut_line + by);
    }
    if (this.plunge_line === NO_LINE && later.plunge_line !== NO_LINE)
      this.plunge_line = later.plunge_line + by;
    this.cut_steps += later.cut_steps;
    this.rapid_steps += later.rapid_steps;
    this.kinds |= later.kinds;
    this.flags |= later.flags;
    this.untimed += later.untimed;
    // Not through the getters: of a long program this is done thousands of times before it is compiled.
    const own = this.lengths;
    const more = later.lengths;
    for (let i = 0; i < SUMS; i++) own[i] += more[i];
    if (!(own[LEAST_X] <= more[LEAST_X]) && more[LEAST_X] >= 0) own[LEAST_X] = more[LEAST_X];
    if (!(own[MOST_X] >= more[MOST_X]) && more[MOST_X] >= 0) own[MOST_X] = more[MOST_X];
    if (more[PLUNGE] > own[PLUNGE]) own[PLUNGE] = more[PLUNGE];
    for (let i = LOW; i < HIGH; i++) if (!(own[i] <= more[i]) && !Number.isNaN(more[i])) own[i] = more[i];
    for (let i = HIGH; i < own.length; i++)
      if (!(own[i] >= more[i]) && !Number.isNaN(more[i])) own[i] = more[i];
  }

  get hash(): number {
    if (this.run_hash === 0) this.run_hash = runHash(this.run);
    return this.run_hash;
  }

  get cut_length_mm(): number {
    return this.lengths[0];
  }
  set cut_length_mm(value: number) {
    this.lengths[0] = value;
  }

  get rapid_length_mm(): number {
    return this.lengths[1];
  }
  set rapid_length_mm(value: number) {
    this.lengths[1] = value;
  }

  /** Minutes at the programmed feed; moves whose feed or length is not known are in `untimed`. */
  get cut_min(): number {
    return this.lengths[2];
  }
  set cut_min(value: number) {
    this.lengths[2] = value;
  }

  get dwell_min(): number {
    return this.lengths[3];
  }
  set dwell_min(value: number) {
    this.lengths[3] = value;
  }

  /** Working diameter of cuts on a lathe (2 |X|): least and most. */
  get least_x_mm(): number {
    return this.lengths[LEAST_X];
  }
  set least_x_mm(value: number) {
    this.lengths[LEAST_X] = value;
  }

  get most_x_mm(): number {
    return this.lengths[MOST_X];
  }
  set most_x_mm(value: number) {
    this.lengths[MOST_X] = value;
  }

  /** Longest feed move straight along the tool axis into the work. */
  get plunge_mm(): number {
    return this.lengths[PLUNGE];
  }
  set plunge_mm(value: number) {
    this.lengths[PLUNGE] = value;
  }

  /** Least and greatest of an axis at the ends of cuts; NaN where nothing is known. */
  low(axis: number): number {
    return this.lengths[LOW + axis];
  }
  high(axis: number): number {
    return this.lengths[HIGH + axis];
  }

  /** Widens one axis of the box; what is not known changes nothing. */
  widen(axis: number, value: number): void {
    const { lengths } = this;
    if (Number.isNaN(value)) return;
    if (!(lengths[LOW + axis] <= value)) lengths[LOW + axis] = value;
    if (!(lengths[HIGH + axis] >= value)) lengths[HIGH + axis] = value;
  }
}

// Places in `lengths`: what is added comes first.
const SUMS = 4;
const LEAST_X = 4;
const MOST_X = 5;
const PLUNGE = 6;
const LOW = 7;
const HIGH = 10;

/** Not whole numbers throughout, so that they are kept as bare ones. */
function emptyLengths(): number[] {
  const none = Number.NaN;
  return [0, 0, 0, 0, none, none, 0, none, none, none, none, none, none];
}

export function runValue(part: Part, field: RunField): number {
  return part.run[RUN[field]];
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
