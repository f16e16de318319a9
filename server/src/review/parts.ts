import { KIND, RUN, RUN_WIDTH, STEP_FLAG, type StepTable } from '../rs274/steps.ts';
import { emptyPart, NO_LINE, type Part, widenBox } from './part.ts';
import { sameRun } from './same-run.ts';
import { stepLength, stepMinutes } from './step-time.ts';

/** Where a stretch begins: the position its first step starts from (mm, NaN not known). */
export interface Start {
  x: number;
  y: number;
  z: number;
}

/** Sums a stretch into its parts, in order; lines are those of the stretch. */
export function partsOf(table: StepTable, start: Start): Part[] {
  const parts: Part[] = [];
  let part: Part | undefined;
  let own = -1;
  let plain = false;
  const at = { ...start };
  const { kind, runs, flags } = table;
  const classes = runClasses(table);
  for (let i = 0; i < table.count; i++) {
    const line = table.line[i];
    if (classes[table.run[i]] !== own || !part) {
      own = classes[table.run[i]];
      part = emptyPart(runs.subarray(own * RUN_WIDTH, (own + 1) * RUN_WIDTH), line);
      plain = isPlain(part.run);
      parts.push(part);
    }
    const k = kind[i];
    if (plain && (k === KIND.feed || k === KIND.arc)) {
      const end = sumCuts(part, table, classes, i, at);
      if (end > i) {
        i = end - 1;
        continue;
      }
    }
    const dx = way(at.x, table.x[i]);
    const dy = way(at.y, table.y[i]);
    const dz = way(at.z, table.z[i]);
    part.kinds |= 1 << k;
    part.flags |= flags[i];
    if (line > part.last_line) part.last_line = line;
    if (line < part.first_line) part.first_line = line;
    if (k === KIND.rapid) {
      part.rapid_steps++;
      const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
      if (length >= 0) part.rapid_length_mm += length;
    } else if (k === KIND.feed || k === KIND.arc || k === KIND.thread || k === KIND.tap) {
      addCut(part, table, i, line, at.x, dx, dy, dz);
    } else if (k === KIND.dwell) {
      const seconds = table.seconds.get(i);
      if (seconds !== undefined) part.dwell_min += seconds / 60;
    }
    at.x = table.x[i];
    at.y = table.y[i];
    at.z = table.z[i];
  }
  return parts;
}

/** How many run rows back an equal one is looked for. */
const ROWS_BACK = 8;

/** For each run row of a table the first of the rows just before it that belongs in the same part. */
function runClasses({ runs, runCount }: StepTable): Int32Array {
  const classes = new Int32Array(runCount);
  for (let at = 0; at < runCount; at++) {
    classes[at] = at;
    for (let before = at - 1; before >= 0 && before >= at - ROWS_BACK; before--) {
      if (classes[before] !== before || !sameRun(runs, runs, before * RUN_WIDTH, at * RUN_WIDTH)) continue;
      classes[at] = before;
      break;
    }
  }
  return classes;
}

/** Feed per minute and a fixed spindle: the time follows from the length alone. */
function isPlain(run: Float64Array): boolean {
  return run[RUN.feed_mode] === 94 && run[RUN.css] !== 1 && run[RUN.feed] > 0;
}

/**
 * Sums straight feed moves and arcs with all ends known, in one go: most of a long program. Stops at the first
 * step that is anything else (also at a plunge) and gives its index.
 */
function sumCuts(part: Part, table: StepTable, classes: Int32Array, from: number, at: Start): number {
  const { kind, run, line, flags, x: xs, y: ys, z: zs, count } = table;
  const own = classes[run[from]];
  // The plus signs keep these as bare numbers through the loop; without them every step makes objects of them.
  let x = +at.x;
  let y = +at.y;
  let z = +at.z;
  let length = 0;
  let marks = 0;
  let kinds = 0;
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  let first = line[from];
  let last = first;
  let x0 = +part.low[0];
  let y0 = +part.low[1];
  let z0 = +part.low[2];
  let x1 = +part.high[0];
  let y1 = +part.high[1];
  let z1 = +part.high[2];
  // Where only rotary axes turn, the step states its own time.
  const timed = table.seconds.size > 0;
  let i = from;
  for (; i < count && classes[run[i]] === own; i++) {
    const k = kind[i];
    if (k !== FEED && k !== ARC) break;
    const nx = xs[i];
    const ny = ys[i];
    const nz = zs[i];
    const dx = nx - x;
    const dy = ny - y;
    const dz = nz - z;
    const step = k === FEED ? Math.sqrt(dx * dx + dy * dy + dz * dz) : stepLength(table, i, dx, dy, dz);
    // Written so that a coordinate that is not known fails it.
    if (!(step >= 0 && dx + dy + dz <= Infinity) || (k === FEED && dx === 0 && dy === 0 && dz < 0)) break;
    if (step === 0 && timed) break;
    length += step;
    const at_line = line[i];
    if (at_line > last) last = at_line;
    if (at_line < first) first = at_line;
    marks |= flags[i];
    kinds |= 1 << k;
    const radius = nx < 0 ? -nx : nx;
    if (radius < least) least = radius;
    if (radius > most) most = radius;
    if (!(x0 <= nx)) x0 = nx;
    if (!(x1 >= nx)) x1 = nx;
    if (!(y0 <= ny)) y0 = ny;
    if (!(y1 >= ny)) y1 = ny;
    if (!(z0 <= nz)) z0 = nz;
    if (!(z1 >= nz)) z1 = nz;
    x = nx;
    y = ny;
    z = nz;
  }
  if (i === from) return from;
  const startRadius = Math.abs(at.x);
  widenDiameters(part, 2 * Math.min(least, startRadius), 2 * Math.max(most, startRadius));
  part.low = [x0, y0, z0];
  part.high = [x1, y1, z1];
  part.kinds |= kinds;
  part.flags |= marks;
  part.cut_steps += i - from;
  part.cut_length_mm += length;
  part.cut_min += length / part.run[RUN.feed];
  if (part.first_cut_line === NO_LINE || first < part.first_cut_line) part.first_cut_line = first;
  if (last > part.last_cut_line) part.last_cut_line = last;
  if (first < part.first_line) part.first_line = first;
  if (last > part.last_line) part.last_line = last;
  at.x = x;
  at.y = y;
  at.z = z;
  return i;
}

const FEED = KIND.feed;
const ARC = KIND.arc;

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
  if (part.first_cut_line === NO_LINE || line < part.first_cut_line) part.first_cut_line = line;
  if (line > part.last_cut_line) part.last_cut_line = line;
  const length = k === KIND.arc ? stepLength(table, i, dx, dy, dz) : Math.sqrt(dx * dx + dy * dy + dz * dz);
  const inverse =
    part.run[RUN.feed_mode] === 93 || length === 0 ? (table.seconds.get(i) ?? Number.NaN) / 60 : Number.NaN;
  const minutes = stepMinutes(part.run, k, length, x0, x, inverse);
  if (length >= 0) part.cut_length_mm += length;
  if (minutes >= 0 && minutes < Infinity) part.cut_min += minutes;
  else part.untimed++;
  const r0 = Math.abs(x0);
  const r1 = Math.abs(x);
  widenDiameters(part, 2 * (r0 < r1 ? r0 : r1), 2 * (r0 < r1 ? r1 : r0));
  widenBox(part, 0, x);
  widenBox(part, 1, table.y[i]);
  widenBox(part, 2, table.z[i]);
  if (k === KIND.feed && dx === 0 && dy === 0 && dz < 0 && (table.flags[i] & STEP_FLAG.cycle) === 0) {
    if (part.plunge_line === NO_LINE) part.plunge_line = line;
    if (-dz > part.plunge_mm) part.plunge_mm = -dz;
  }
}

function widenDiameters(part: Part, least: number, most: number): void {
  if (!(part.least_x_mm <= least)) part.least_x_mm = least >= 0 ? least : part.least_x_mm;
  if (!(part.most_x_mm >= most)) part.most_x_mm = most >= 0 ? most : part.most_x_mm;
}
