import { RUN } from '../rs274/steps.ts';
import { emptyPart, NO_LINE, type Part, widenBox } from './part.ts';
import { runHash, sameRun } from './same-run.ts';

/** Parts whose lines are counted from a first line. */
export interface PlacedParts {
  first_line: number;
  parts: readonly Part[];
  /** Nobody else holds them: they may be changed. */
  own?: boolean;
}

/** Parts in order of the program: neighbours with equal runs are one. */
export function joinInOrder(pieces: Iterable<PlacedParts>): Part[] {
  const joined: Part[] = [];
  let last: Part | undefined;
  for (const { parts, first_line, own } of pieces) {
    for (const part of parts) {
      if (last && sameRun(last.run, part.run)) addPart(last, part, first_line);
      else {
        last = own ? move(part, first_line) : move(copyOf(part), first_line);
        joined.push(last);
      }
    }
  }
  return joined;
}

/**
 * Parts of which none has the same run within one use of a tool, in order of their beginning; the last part of a use has
 * the run that it ends with. For programs that change the feed back and forth thousands of times.
 */
export function fold(pieces: Iterable<PlacedParts>): Part[] {
  const folding = new Folding();
  for (const { parts, first_line } of pieces) for (const part of parts) folding.add(part, first_line);
  return folding.done();
}

class Folding {
  private readonly joined: Part[] = [];
  private readonly by_hash = new Map<number, Part[]>();
  /** The same by the very array of the run, which stretches in one state share. */
  private readonly by_run = new Map<Float64Array, Part>();
  private last: Part | undefined;
  private last_line = 0;

  add(part: Part, by: number): void {
    if (this.last && toolOf(this.last) !== toolOf(part)) this.close();
    let own = this.by_run.get(part.run) ?? this.alike(part.run);
    if (own) addPart(own, part, by);
    else {
      own = move(copyOf(part), by);
      this.joined.push(own);
      this.keep(own);
    }
    this.by_run.set(part.run, own);
    this.last = own;
    this.last_line = part.last_line + by;
  }

  done(): Part[] {
    this.close();
    return this.joined;
  }

  private alike(run: Float64Array): Part | undefined {
    return this.by_hash.get(runHash(run))?.find(other => sameRun(other.run, run));
  }

  private keep(part: Part): void {
    const hash = runHash(part.run);
    const others = this.by_hash.get(hash);
    if (others) others.push(part);
    else this.by_hash.set(hash, [part]);
  }

  /** Ends the use of a tool: its last part is to tell how it ends. */
  private close(): void {
    const { last, joined } = this;
    if (last && joined[joined.length - 1] !== last) joined.push(emptyPart(last.run, this.last_line));
    this.by_hash.clear();
    this.by_run.clear();
    this.last = undefined;
  }
}

function toolOf(part: Part): number {
  const tool = part.run[RUN.tool];
  return tool >= 0 ? tool : -1;
}

function copyOf(part: Part): Part {
  return {
    run: part.run,
    first_line: part.first_line,
    last_line: part.last_line,
    first_cut_line: part.first_cut_line,
    last_cut_line: part.last_cut_line,
    cut_steps: part.cut_steps,
    rapid_steps: part.rapid_steps,
    kinds: part.kinds,
    flags: part.flags,
    cut_length_mm: part.cut_length_mm,
    rapid_length_mm: part.rapid_length_mm,
    cut_min: part.cut_min,
    dwell_min: part.dwell_min,
    untimed: part.untimed,
    least_x_mm: part.least_x_mm,
    most_x_mm: part.most_x_mm,
    plunge_line: part.plunge_line,
    plunge_mm: part.plunge_mm,
    low: [part.low[0], part.low[1], part.low[2]],
    high: [part.high[0], part.high[1], part.high[2]],
  };
}

function move(part: Part, by: number): Part {
  part.first_line += by;
  part.last_line += by;
  if (part.first_cut_line !== NO_LINE) part.first_cut_line += by;
  if (part.last_cut_line !== NO_LINE) part.last_cut_line += by;
  if (part.plunge_line !== NO_LINE) part.plunge_line += by;
  return part;
}

function addPart(a: Part, b: Part, by: number): void {
  a.last_line = Math.max(a.last_line, b.last_line + by);
  a.first_line = Math.min(a.first_line, b.first_line + by);
  if (b.first_cut_line !== NO_LINE) {
    if (a.first_cut_line === NO_LINE) a.first_cut_line = b.first_cut_line + by;
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
  if (a.plunge_line === NO_LINE && b.plunge_line !== NO_LINE) a.plunge_line = b.plunge_line + by;
  a.plunge_mm = Math.max(a.plunge_mm, b.plunge_mm);
  for (const axis of [0, 1, 2] as const) {
    widenBox(a, axis, b.low[axis]);
    widenBox(a, axis, b.high[axis]);
  }
}
