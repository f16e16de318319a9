import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN, STEP_FLAG, type StepTable } from '../../rs274/steps.ts';
import type { Cutter } from '../../stock/cutter.ts';
import { defaultCell, type StockBlock } from '../../stock/grid.ts';
import type { KeepOutBox } from '../../stock/keep-out.ts';
import { emptyMoves, type Move, type MoveColumns, pushMove } from '../../stock/moves.ts';
import type { Program } from '../program.ts';
import { cutterOf } from './cutter-of.ts';
import { blockAtFrame } from './stock-of.ts';

/** The moves of one work offset with the stock that they meet. */
export interface FramePlan {
  frame: number;
  block: StockBlock;
  assumed: boolean;
  assumed_why?: string;
  keep_out: readonly KeepOutBox[];
  moves: MoveColumns;
}

/** Everything that a mill's stock calculation needs, free of the program's text. */
export interface MillPlan {
  readonly kind: 'mill';
  tools: Cutter[];
  /** Tool number of each cutter. */
  numbers: number[];
  frames: FramePlan[];
  /** Where each step of a table went: frame and row of its move, -1 for none. */
  rows: Map<StepTable, Int32Array>;
  frameOfTable: Map<StepTable, Uint8Array>;
  /** What is left out, in words. */
  left_out: string[];
}

const PLANES: Record<number, Move['plane']> = { 17: 'xy', 18: 'zx', 19: 'yz' };
const CUTS = new Set<number>([KIND.rapid, KIND.feed, KIND.arc]);
/** More moves than this are not cut: time and memory. */
export const MOST_MOVES = 1_000_000;

/** Collects the moves of a program by work offset; undefined with a reason when there is nothing to cut. */
export function millPlan(program: Program, most = MOST_MOVES): MillPlan | { why: string } {
  const plan: MillPlan = {
    kind: 'mill',
    tools: [],
    numbers: [],
    frames: [],
    rows: new Map(),
    frameOfTable: new Map(),
    left_out: [],
  };
  const left = new Set<string>();
  const cutterIndex = new Map<number, number>();
  const frameIndex = new Map<string, number>();
  let first = Number.NaN;
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  let count = 0;
  while (cursor.next()) {
    const { kind } = cursor;
    if (!CUTS.has(kind)) continue;
    const run = cursor.runValues;
    const frame = run[RUN.frame];
    if (frame === 530 || (cursor.flags & STEP_FLAG.machine_frame) !== 0) continue;
    const tool = run[RUN.tool];
    let index = cutterIndex.get(tool);
    if (index === undefined) {
      index = addCutter(program, plan, tool, left);
      cutterIndex.set(tool, index);
    }
    if (index < 0 || !knownMove(cursor) || isAside(program, cursor)) continue;
    if (Number.isNaN(first)) first = frame;
    const key = String(frame);
    let at = frameIndex.get(key);
    if (at === undefined) {
      at = addFrame(program, plan, frame, first, left);
      frameIndex.set(key, at);
    }
    if (at < 0) continue;
    if (++count > most) {
      left.add(`moves after the first ${most}`);
      break;
    }
    const { moves } = plan.frames[at];
    remember(plan, cursor, at, moves.count);
    pushMove(moves, moveOf(cursor, run[RUN.plane]), index);
  }
  plan.left_out = [...left];
  if (plan.frames.length === 0 || count === 0)
    return { why: plan.left_out[0] ?? 'nothing that can be followed cuts' };
  const smallest = plan.tools.map(tool => 2 * tool.radius_mm);
  for (const one of plan.frames)
    if (!one.block.state && one.block.kept === undefined)
      one.block = { ...one.block, cell_mm: defaultCell(one.block.low, one.block.high, smallest) };
  return plan;
}

/** A boring cycle leaves the bore with the edge turned away from the wall: no body of revolution. */
function isAside(program: Program, step: StepCursor): boolean {
  if (step.kind !== KIND.rapid || (step.flags & STEP_FLAG.cycle) === 0) return false;
  const { motion, tool } = RUN;
  const code = step.runValues[motion];
  return (
    (code === 760 || code === 870) &&
    step.z >= step.z0 &&
    program.tool(step.runValues[tool])?.kind?.value === 'bore'
  );
}

function knownMove(step: StepCursor): boolean {
  return Number.isFinite(step.x0 + step.y0 + step.z0 + step.x + step.y + step.z);
}

function moveOf(step: StepCursor, plane: number): Move {
  const from = [step.x0, step.y0, step.z0] as const;
  const to = [step.x, step.y, step.z] as const;
  if (step.kind !== KIND.arc) return { kind: step.kind === KIND.rapid ? 'rapid' : 'feed', from, to };
  const { centre_first: a, centre_second: b } = step;
  const centre: readonly [number, number, number] =
    plane === 18 ? [b, step.y0, a] : plane === 19 ? [step.x0, a, b] : [a, b, step.z0];
  return { kind: 'arc', from, to, centre, sweep_rad: step.sweep_rad, plane: PLANES[plane] ?? 'xy' };
}

function remember(plan: MillPlan, step: StepCursor, frame: number, row: number): void {
  const { table } = step;
  if (!table) return;
  let rows = plan.rows.get(table);
  let frames = plan.frameOfTable.get(table);
  if (!rows || !frames) {
    rows = new Int32Array(table.count).fill(-1);
    frames = new Uint8Array(table.count);
    plan.rows.set(table, rows);
    plan.frameOfTable.set(table, frames);
  }
  rows[step.index] = row;
  frames[step.index] = frame;
}

function addCutter(program: Program, plan: MillPlan, number: number, left: Set<string>): number {
  const tool = program.tool(number);
  const kind = tool?.kind?.value;
  if (kind === 'tap' || kind === 'thread-mill' || kind === 'probe') return -1;
  const made = cutterOf(tool);
  if ('why' in made) {
    left.add(`what ${number >= 0 ? `T${number}` : 'the tool'} cuts: ${made.why} is not known`);
    return -1;
  }
  for (const note of made.notes) left.add(`T${number}: ${note}`);
  plan.tools.push(made.cutter);
  plan.numbers.push(number);
  return plan.tools.length - 1;
}

function addFrame(program: Program, plan: MillPlan, frame: number, first: number, left: Set<string>): number {
  const placed = blockAtFrame(program, frame, first);
  if ('why' in placed) {
    left.add(`depth and width of cut: ${placed.why}`);
    return -1;
  }
  const { low, high, round, keep_out, cells, not_modelled } = placed.stock;
  for (const what of not_modelled ?? []) left.add(what);
  const block: StockBlock = cells ?? {
    low,
    high,
    cell_mm: 1,
    ...(round ? { round: { x_mm: 0, y_mm: 0, radius_mm: round.radius_mm, bore_mm: round.bore_mm } } : {}),
  };
  const { assumed, assumed_why } = placed;
  plan.frames.push({
    ...{ frame, block, assumed, keep_out, moves: emptyMoves() },
    ...(assumed_why === undefined ? {} : { assumed_why }),
  });
  return plan.frames.length - 1;
}
