import { KIND, RUN, RUN_WIDTH, type RunField, STEP_FLAG, type StepTable } from '../rs274/steps.ts';

/** Where a stretch begins: the position its first step starts from (mm, NaN not known). */
export interface Start {
  x: number;
  y: number;
  z: number;
}

/**
 * What happens while one run holds, summed over its steps: small, so that rules look at runs and not at
 * steps. Parts of neighbouring stretches with equal runs are joined by `joinParts`.
 * Lines are absolute and 0-based; NaN and -1 mean none.
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

function emptyPart(run: Float64Array, line: number): Part {
  return {
    run,
    first_line: line,
    last_line: line,
    first_cut_line: -1,
    last_cut_line: -1,
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
    plunge_line: -1,
    plunge_mm: 0,
    low: [Number.NaN, Number.NaN, Number.NaN],
    high: [Number.NaN, Number.NaN, Number.NaN],
  };
}

/**
 * Revolutions a minute while the edge is at a radius. Constant surface speed is held at the clamp.
 * @units radius mm; gives rev/min, NaN when not known
 */
export function spindleAt(run: Float64Array, radius_mm: number): number {
  const word = run[RUN.spindle];
  if (run[RUN.css] !== 1) return word;
  const clamp = run[RUN.clamp_rpm];
  const asked = (1000 * word) / (2 * Math.PI * Math.abs(radius_mm));
  return clamp < asked ? clamp : asked;
}

/** Minutes that a cutting step takes at its programmed feed; NaN when not known. */
export function stepMinutes(
  run: Float64Array,
  kind: number,
  length_mm: number,
  x0: number,
  x1: number,
  inverse_min: number,
): number {
  if (length_mm === 0) return 0;
  const lead = run[RUN.lead];
  const mode = run[RUN.feed_mode];
  const feed = run[RUN.feed];
  if (kind === KIND.thread || (kind === KIND.tap && lead > 0)) {
    const rpm = spindleAt(run, x1);
    return length_mm / (lead * rpm);
  }
  if (mode === 93) return inverse_min;
  if (mode !== 95) return length_mm / feed;
  if (run[RUN.css] !== 1) return length_mm / (feed * run[RUN.spindle]);
  return minutesUnderCss(run, length_mm, Math.abs(x0), Math.abs(x1));
}

/** Integral of ds / (f n) with n = min(clamp, 1000 v / (2 pi r)) while the radius goes linearly from r0 to r1. */
function minutesUnderCss(run: Float64Array, length_mm: number, r0: number, r1: number): number {
  const perRadius = (2 * Math.PI) / (1000 * run[RUN.spindle]);
  const least = 1 / run[RUN.clamp_rpm];
  const feed = run[RUN.feed];
  if (!(least > 0)) return ((length_mm / feed) * perRadius * (r0 + r1)) / 2;
  const held = least / perRadius;
  const low = Math.min(r0, r1);
  const high = Math.max(r0, r1);
  if (high - low < 1e-9) return (length_mm / feed) * Math.max(least, perRadius * low);
  const heldShare = Math.min(1, Math.max(0, (held - low) / (high - low)));
  const freeFrom = Math.max(low, held);
  const free = heldShare < 1 ? (perRadius * (freeFrom + high)) / 2 : 0;
  return (length_mm / feed) * (heldShare * least + (1 - heldShare) * free);
}

/** Length of a step; NaN when a start or end is not known. */
export function stepLength(table: StepTable, index: number, dx: number, dy: number, dz: number): number {
  if (table.kind[index] !== KIND.arc) return Math.sqrt(dx * dx + dy * dy + dz * dz);
  const row = table.aux[index] * 3;
  const plane = table.runs[table.run[index] * RUN_WIDTH + RUN.plane];
  const first = plane === 17 ? table.x[index] : plane === 18 ? table.z[index] : table.y[index];
  const second = plane === 17 ? table.y[index] : plane === 18 ? table.x[index] : table.z[index];
  const rise = plane === 17 ? dz : plane === 18 ? dy : dx;
  const radius = Math.hypot(first - table.arcs[row], second - table.arcs[row + 1]);
  const along = radius * Math.abs(table.arcs[row + 2]);
  return rise === 0 || Number.isNaN(rise) ? along : Math.sqrt(along * along + rise * rise);
}

/** Sums a stretch into its parts, in order. */
export function partsOf(table: StepTable, start: Start, firstLine: number): Part[] {
  const parts: Part[] = [];
  let part: Part | undefined;
  let run = -1;
  let { x, y, z } = start;
  const { kind, runs, flags } = table;
  for (let i = 0; i < table.count; i++) {
    const line = firstLine + table.line[i];
    if (table.run[i] !== run || !part) {
      run = table.run[i];
      part = emptyPart(runs.subarray(run * RUN_WIDTH, (run + 1) * RUN_WIDTH), line);
      parts.push(part);
    }
    const k = kind[i];
    const dx = way(x, table.x[i]);
    const dy = way(y, table.y[i]);
    const dz = way(z, table.z[i]);
    part.kinds |= 1 << k;
    part.flags |= flags[i];
    if (line > part.last_line) part.last_line = line;
    if (line < part.first_line) part.first_line = line;
    if (k === KIND.rapid) {
      part.rapid_steps++;
      const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
      if (length >= 0) part.rapid_length_mm += length;
    } else if (k === KIND.feed || k === KIND.arc || k === KIND.thread || k === KIND.tap) {
      addCut(part, table, i, line, x, dx, dy, dz);
    } else if (k === KIND.dwell) {
      const seconds = table.seconds.get(i);
      if (seconds !== undefined) part.dwell_min += seconds / 60;
    }
    x = table.x[i];
    y = table.y[i];
    z = table.z[i];
  }
  return parts;
}

/** Way along an axis; an axis that stays unknown throughout counts as standing still. */
function way(from: number, to: number): number {
  return Number.isNaN(from) && Number.isNaN(to) ? 0 : to - from;
}

function addCut(
  part: Part,
  table: StepTable,
  i: number,
  line: number,
  x0: number,
  dx: number,
  dy: number,
  dz: number,
): void {
  const k = table.kind[i];
  const x = table.x[i];
  part.cut_steps++;
  if (part.first_cut_line < 0 || line < part.first_cut_line) part.first_cut_line = line;
  if (line > part.last_cut_line) part.last_cut_line = line;
  const length = k === KIND.arc ? stepLength(table, i, dx, dy, dz) : Math.sqrt(dx * dx + dy * dy + dz * dz);
  const inverse = part.run[RUN.feed_mode] === 93 ? (table.seconds.get(i) ?? Number.NaN) / 60 : Number.NaN;
  const minutes = stepMinutes(part.run, k, length, x0, x, inverse);
  if (length >= 0) part.cut_length_mm += length;
  if (minutes >= 0 && minutes < Infinity) part.cut_min += minutes;
  else part.untimed++;
  const r0 = Math.abs(x0);
  const r1 = Math.abs(x);
  const least = 2 * (r0 < r1 ? r0 : r1);
  const most = 2 * (r0 < r1 ? r1 : r0);
  if (!(part.least_x_mm <= least)) part.least_x_mm = least >= 0 ? least : part.least_x_mm;
  if (!(part.most_x_mm >= most)) part.most_x_mm = most >= 0 ? most : part.most_x_mm;
  stretchBox(part, 0, x);
  stretchBox(part, 1, table.y[i]);
  stretchBox(part, 2, table.z[i]);
  if (k === KIND.feed && dx === 0 && dy === 0 && dz < 0 && (table.flags[i] & STEP_FLAG.cycle) === 0) {
    if (part.plunge_line < 0) part.plunge_line = line;
    if (-dz > part.plunge_mm) part.plunge_mm = -dz;
  }
}

function stretchBox(part: Part, axis: 0 | 1 | 2, value: number): void {
  if (!(part.low[axis] <= value) && !Number.isNaN(value)) part.low[axis] = value;
  if (!(part.high[axis] >= value) && !Number.isNaN(value)) part.high[axis] = value;
}

function sameRun(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < RUN_WIDTH; i++) if (a[i] !== b[i] && !(Number.isNaN(a[i]) && Number.isNaN(b[i]))) return false;
  return true;
}

/** Parts of the whole program: neighbours with equal runs are one. The parts given are not changed. */
export function joinParts(stretches: Iterable<readonly Part[]>): Part[] {
  const joined: Part[] = [];
  let own = false;
  for (const parts of stretches) {
    for (const part of parts) {
      const last = joined[joined.length - 1];
      if (!last || !sameRun(last.run, part.run)) {
        joined.push(part);
        own = false;
        continue;
      }
      const target = own ? last : ({ ...last, low: [...last.low], high: [...last.high] } as Part);
      joined[joined.length - 1] = target;
      own = true;
      addPart(target, part);
    }
  }
  return joined;
}

function addPart(a: Part, b: Part): void {
  a.last_line = Math.max(a.last_line, b.last_line);
  a.first_line = Math.min(a.first_line, b.first_line);
  if (a.first_cut_line < 0) a.first_cut_line = b.first_cut_line;
  a.last_cut_line = Math.max(a.last_cut_line, b.last_cut_line);
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
  if (a.plunge_line < 0) a.plunge_line = b.plunge_line;
  a.plunge_mm = Math.max(a.plunge_mm, b.plunge_mm);
  for (const axis of [0, 1, 2] as const) {
    stretchBox(a, axis, b.low[axis]);
    stretchBox(a, axis, b.high[axis]);
  }
}
