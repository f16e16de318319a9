import { planPath } from '../cutting/look-ahead.ts';
import { arcFeedLimit, cornerFeedLimit } from '../cutting/path-limits.ts';
import { isAbsent } from '../cutting/result.ts';
import type { StepCursor } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import { KIND, RUN, type StepTable } from '../rs274/steps.ts';
import type { Program } from './program.ts';
import { stepMinutes } from './step-time.ts';

/** Times that the machine can follow, by step; only where the acceleration is known. */
export interface MotionTimes {
  /** Seconds of a step; NaN for steps that are not moves or whose speed is not known. */
  seconds(step: StepCursor): number;
  cut_s: number;
  rapid_s: number;
}

/** How far a control that does not stop exactly rounds a corner, mm: taken where nothing says it (common practice, no source). */
export const CORNER_TOLERANCE_MM = 0.02;
/** Longer programs keep their ideal times. */
const MOST_MOVES = 2_000_000;

interface Rows {
  tables: (StepTable | null)[];
  indexes: number[];
  length: number[];
  feed: number[];
  corner: number[];
  cuts: boolean[];
}

const held = new Slot<Program, MotionTimes | null>();

/** Plans every move under the machine's acceleration; undefined where that is not known. */
export function motionTimes(program: Program): MotionTimes | undefined {
  let times = held.get(program);
  if (times === undefined) {
    times = plan(program) ?? null;
    held.set(program, times);
  }
  return times ?? undefined;
}

function plan(program: Program): MotionTimes | undefined {
  const acceleration = accelerationOf(program);
  if (acceleration === undefined) return undefined;
  const byTable = new Map<StepTable, Float64Array>();
  const sums = { cut: 0, rapid: 0 };
  let rows = emptyRows();
  const flush = () => {
    close(rows, acceleration, byTable, sums);
    rows = emptyRows();
  };
  const step = program.reading.cursor();
  let out: Direction | undefined;
  let kind = -1;
  let count = 0;
  while (step.next()) {
    if (step.kind === KIND.place) continue;
    const moves =
      step.kind === KIND.rapid ||
      step.kind === KIND.feed ||
      step.kind === KIND.arc ||
      step.kind === KIND.thread ||
      step.kind === KIND.tap;
    const length = step.length_mm;
    const feed = moves ? feedOf(program, step, length, acceleration) : Number.NaN;
    if (!(length > 0 && feed > 0 && feed < Infinity)) {
      if (length !== 0 || !moves) {
        flush();
        out = undefined;
      }
      continue;
    }
    if (++count > MOST_MOVES) return undefined;
    const [into, leaving] = directions(step);
    const last = rows.length.length - 1;
    if (last >= 0) rows.corner[last] = cornerLimit(step, kind, out, into, acceleration);
    rows.tables.push(step.table);
    rows.indexes.push(step.index);
    rows.length.push(length);
    rows.feed.push(feed);
    rows.corner.push(0);
    rows.cuts.push(step.kind !== KIND.rapid);
    out = leaving;
    kind = step.kind;
  }
  flush();
  return {
    seconds: at => (at.table && byTable.get(at.table)?.[at.index]) ?? Number.NaN,
    cut_s: sums.cut,
    rapid_s: sums.rapid,
  };
}

function emptyRows(): Rows {
  return { tables: [], indexes: [], length: [], feed: [], corner: [], cuts: [] };
}

function close(
  rows: Rows,
  acceleration_m_s2: number,
  byTable: Map<StepTable, Float64Array>,
  sums: { cut: number; rapid: number },
): void {
  if (rows.length.length === 0) return;
  const planned = planPath({
    length_mm: rows.length,
    feed_mm_min: rows.feed,
    corner_mm_min: rows.corner,
    acceleration_m_s2,
  });
  if (isAbsent(planned)) return;
  rows.tables.forEach((table, i) => {
    if (!table) return;
    let seconds = byTable.get(table);
    if (!seconds) {
      seconds = new Float64Array(table.count).fill(Number.NaN);
      byTable.set(table, seconds);
    }
    seconds[rows.indexes[i]] = planned.time_s[i];
    if (rows.cuts[i]) sums.cut += planned.time_s[i];
    else sums.rapid += planned.time_s[i];
  });
}

/** Along the path, or the least of the axes. */
function accelerationOf({ machine }: Program): number | undefined {
  const stated = machine?.acceleration_m_s2?.value;
  if (stated === undefined || typeof stated === 'number') return stated;
  const axes = [...stated.values()];
  return axes.length === 0 ? undefined : Math.min(...axes);
}

/** Speed that the step asks for, under what its arc bears; mm/min. */
function feedOf(program: Program, step: StepCursor, length: number, acceleration_m_s2: number): number {
  if (step.kind === KIND.rapid) return (60 * length) / program.rapidSeconds(step);
  const run = step.runValues;
  const inverse = run[RUN.feed_mode] === 93 ? step.seconds / 60 : Number.NaN;
  const feed = length / stepMinutes(run, step.kind, length, step.x0, step.x, inverse);
  if (step.kind !== KIND.arc) return feed;
  const limit = arcFeedLimit({ radius_mm: step.radius_mm, acceleration_m_s2 });
  return isAbsent(limit) ? feed : Math.min(feed, limit);
}

function cornerLimit(
  step: StepCursor,
  before: number,
  out: Direction | undefined,
  into: Direction,
  acceleration_m_s2: number,
): number {
  const mode = step.run('path_mode');
  const joins = (kind: number) => kind === KIND.feed || kind === KIND.arc;
  if (!out || !joins(before) || !joins(step.kind) || mode === 610 || mode === 611) return 0;
  const cosine = Math.max(-1, Math.min(1, out[0] * into[0] + out[1] * into[1] + out[2] * into[2]));
  const inside_angle_deg = 180 - (Math.acos(cosine) * 180) / Math.PI;
  if (inside_angle_deg > 180 - 1e-6) return Number.MAX_VALUE;
  const limit = cornerFeedLimit({ tolerance_mm: CORNER_TOLERANCE_MM, inside_angle_deg, acceleration_m_s2 });
  return isAbsent(limit) ? 0 : limit;
}

type Direction = readonly [number, number, number];

/** Unit vectors along the path at the start and at the end of a move. */
function directions(step: StepCursor): [Direction, Direction] {
  const chord = unit(delta(step.x0, step.x), delta(step.y0, step.y), delta(step.z0, step.z));
  if (step.kind !== KIND.arc) return [chord, chord];
  const plane = step.run('plane');
  const turn = Math.sign(step.sweep_rad);
  const rise =
    plane === 17 ? delta(step.z0, step.z) : plane === 18 ? delta(step.y0, step.y) : delta(step.x0, step.x);
  const slope = rise / (step.radius_mm * Math.abs(step.sweep_rad));
  const tangent = (first: number, second: number): Direction => {
    const a = -(second - step.centre_second) * turn;
    const b = (first - step.centre_first) * turn;
    const flat = Math.hypot(a, b) || 1;
    const [u, v] = [a / flat, b / flat];
    return plane === 17 ? unit(u, v, slope) : plane === 18 ? unit(v, slope, u) : unit(slope, u, v);
  };
  const at = (x: number, y: number, z: number): [number, number] =>
    plane === 17 ? [x, y] : plane === 18 ? [z, x] : [y, z];
  return [tangent(...at(step.x0, step.y0, step.z0)), tangent(...at(step.x, step.y, step.z))];
}

function delta(from: number, to: number): number {
  const way = to - from;
  return Number.isFinite(way) ? way : 0;
}

function unit(x: number, y: number, z: number): Direction {
  const length = Math.hypot(x, y, z);
  return length > 0 ? [x / length, y / length, z / length] : [0, 0, 0];
}
