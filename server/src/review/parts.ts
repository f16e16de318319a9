import { KIND, RUN, RUN_WIDTH, STEP_FLAG, type StepTable } from '../rs274/steps.ts';
import { lookAt } from './kernel.ts';
import { NO_LINE, Part } from './part.ts';
import { sameRun } from './same-run.ts';
import { stepLength, stepMinutes } from './step-time.ts';
import { sumCuts } from './sum-cuts.ts';

/** Where a stretch begins: the position its first step starts from (mm, NaN not known). */
export interface Start {
  x: number;
  y: number;
  z: number;
}

/** A stretch summed. Lines are those of the stretch. */
export interface StretchParts {
  /** Parts in order where `in_order`; else one for each run of each use of a tool, in order of beginning, as `fold` gives. */
  parts: Part[];
  in_order: boolean;
  /** How many parts there are in order, and the runs of the first and the last. */
  count: number;
  first: Float64Array | undefined;
  last: Float64Array | undefined;
}

/**
 * Sums a stretch into its parts. With `ordered` they are in order whatever it costs; else a run that comes back in the
 * same use of a tool goes on with the part it has. `runs` are the runs that the parts hold on to.
 */
export function partsOf(
  table: StepTable,
  start: Start,
  ordered: boolean,
  runs: Float64Array = table.runs,
): StretchParts {
  const { run, count: steps } = table;
  const parts: Part[] = [];
  const look = lookAt(table);
  const classes = look.runs.likes;
  findClasses(table, classes);
  const known: (Part | undefined)[] = [];
  let part: Part | undefined;
  let own = -1;
  let count = 0;
  let in_order = true;
  place[0] = start.x;
  place[1] = start.y;
  place[2] = start.z;
  let i = 0;
  while (i < steps) {
    const next = classes[run[i]];
    if (next !== own || part === undefined) {
      const line = table.line[i];
      const again = part !== undefined && Math.abs(next - own) > ROWS_BACK && alike(runs, own, next);
      if (!again) count++;
      if (!again && part !== undefined && !ordered && toolAt(runs, own) !== toolAt(runs, next)) {
        if (endUse(parts, part)) in_order = false;
        known.length = 0;
      }
      own = next;
      const found: Part | undefined = again ? part : ordered ? undefined : known[own];
      if (found === undefined) {
        part = new Part(runRow(runs, run[i]), line);
        parts.push(part);
      } else {
        if (found !== part) in_order = false;
        part = found;
      }
      known[own] = part;
    }
    const end = sumCuts(part, table, look, i, place);
    if (end > i) i = end;
    else addStep(part, table, i++);
  }
  if (part !== undefined && endUse(parts, part)) in_order = false;
  return { parts, in_order, count, first: parts[0]?.run, last: part?.run };
}

/** Where the tool stands: numbers passed without making objects of them. */
const place = new Float64Array(3);

/** How many run rows back an equal one is looked for. */
const ROWS_BACK = 8;

/** For each run row of a table the first of the rows just before it that belongs in the same part. */
function findClasses({ runs, runCount }: StepTable, classes: Int32Array): void {
  for (let at = 0; at < runCount; at++) {
    classes[at] = at;
    for (let before = at - 1; before >= 0 && before >= at - ROWS_BACK; before--) {
      if (classes[before] !== before || !alike(runs, before, at)) continue;
      classes[at] = before;
      break;
    }
  }
}

function alike(runs: Float64Array, row: number, other: number): boolean {
  return sameRun(runs, runs, row * RUN_WIDTH, other * RUN_WIDTH);
}

function toolAt(runs: Float64Array, row: number): number {
  const tool = runs[row * RUN_WIDTH + RUN.tool];
  return tool >= 0 ? tool : -1;
}

let rows_of: Float64Array | undefined;
const rows: (Float64Array | undefined)[] = [];

/** One row of the runs; stretch after stretch in one state share it. */
function runRow(runs: Float64Array, row: number): Float64Array {
  if (runs !== rows_of) {
    rows.length = 0;
    rows_of = runs;
  }
  rows[row] ??= runs.subarray(row * RUN_WIDTH, (row + 1) * RUN_WIDTH);
  return rows[row];
}

/** Ends the use of a tool: the last part tells how it ends. True when one had to be added for that. */
function endUse(parts: Part[], part: Part): boolean {
  if (parts[parts.length - 1] === part) return false;
  parts.push(new Part(part.run, part.last_line));
  return true;
}

/** Adds any step to a part. */
function addStep(part: Part, table: StepTable, i: number): void {
  const k = table.kind[i];
  const line = table.line[i];
  const x0 = place[0];
  const dx = way(x0, table.x[i]);
  const dy = way(place[1], table.y[i]);
  const dz = way(place[2], table.z[i]);
  part.kinds |= 1 << k;
  part.flags |= table.flags[i];
  if (line > part.last_line) part.last_line = line;
  if (line < part.first_line) part.first_line = line;
  if (k === KIND.rapid) {
    part.rapid_steps++;
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (length >= 0) part.rapid_length_mm += length;
  } else if (k === KIND.feed || k === KIND.arc || k === KIND.thread || k === KIND.tap) {
    addCut(part, table, i, x0, dx, dy, dz);
  } else if (k === KIND.dwell) {
    const seconds = table.seconds.get(i);
    if (seconds !== undefined) part.dwell_min += seconds / 60;
  }
  place[0] = table.x[i];
  place[1] = table.y[i];
  place[2] = table.z[i];
}

/** Way along an axis; an axis that stays unknown throughout counts as standing still. */
function way(from: number, to: number): number {
  return Number.isNaN(from) && Number.isNaN(to) ? 0 : to - from;
}

function addCut(
  part: Part,
  table: StepTable,
  i: number,
  x0: number,
  dx: number,
  dy: number,
  dz: number,
): void {
  const k = table.kind[i];
  const line = table.line[i];
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
  part.widen(0, x);
  part.widen(1, table.y[i]);
  part.widen(2, table.z[i]);
  if (k === KIND.feed && dx === 0 && dy === 0 && dz < 0 && (table.flags[i] & STEP_FLAG.cycle) === 0) {
    if (part.plunge_line === NO_LINE) part.plunge_line = line;
    if (-dz > part.plunge_mm) part.plunge_mm = -dz;
  }
}

function widenDiameters(part: Part, least: number, most: number): void {
  if (!(part.least_x_mm <= least)) part.least_x_mm = least >= 0 ? least : part.least_x_mm;
  if (!(part.most_x_mm >= most)) part.most_x_mm = most >= 0 ? most : part.most_x_mm;
}
