import { isHoleTool } from '../../materials/index.ts';
import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN, type StepTable } from '../../rs274/steps.ts';
import type { ToolKnown } from '../../setup/index.ts';
import { type LatheMove, pushLatheMove } from '../../stock/lathe-moves.ts';
import type { BarStock } from '../../stock/lathe-profile.ts';
import type { LatheTool } from '../../stock/lathe-run.ts';
import { emptyMoves, type MoveColumns } from '../../stock/moves.ts';
import type { Program } from '../program.ts';
import { barOf } from './bar-of.ts';
import { COMMON_EDGE_DEG, edgeTaken, turningToolOf } from './cutter-of.ts';

/** Everything that a lathe's stock calculation needs, free of the program's text. */
export interface LathePlan {
  readonly kind: 'lathe';
  readonly bar: BarStock;
  readonly assumed: boolean;
  readonly assumed_why?: string;
  readonly tools: LatheTool[];
  readonly moves: MoveColumns;
  /** Row of the move of each step of a table, -1 for none. */
  readonly rows: Map<StepTable, Int32Array>;
  /** What is left out, in words. */
  left_out: string[];
}

const EITHER = new Set(['groove', 'thread-turn']);
const KINDS: Record<number, LatheMove['kind']> = {
  [KIND.rapid]: 'rapid',
  [KIND.feed]: 'feed',
  [KIND.arc]: 'arc',
  [KIND.thread]: 'thread',
};
/** More moves than this are not cut. */
const MOST_MOVES = 300_000;

/** Collects the moves of a lathe program; a reason where there is nothing to turn. */
export function lathePlan(program: Program, most = MOST_MOVES): LathePlan | { why: string } {
  const placed = barOf(program);
  if ('why' in placed) return placed;
  const plan: LathePlan = {
    kind: 'lathe',
    bar: placed.stock,
    assumed: placed.assumed,
    ...(placed.assumed_why === undefined ? {} : { assumed_why: placed.assumed_why }),
    tools: [],
    moves: emptyMoves(),
    rows: new Map(),
    left_out: [],
  };
  const left = new Set<string>(placed.not_modelled);
  const tools = new Map<number, number>();
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  let last = Number.NaN;
  let begins = false;
  while (cursor.next()) {
    const known = Number.isFinite(cursor.x0 + cursor.z0 + cursor.x + cursor.z);
    if (!known || !cursor.table) continue;
    const number = cursor.runValues[RUN.tool];
    if (number !== last) begins = true;
    last = number;
    const kind = KINDS[cursor.kind];
    if (!kind) continue;
    const tool = program.tool(number);
    let index = tools.get(number);
    if (index === undefined) {
      index = addTool(plan, number, tool, left);
      tools.set(number, index);
    }
    if (index < 0 || (onAxis(tool) && !drills(cursor))) continue;
    if (plan.moves.count >= most) {
      left.add(`moves after the first ${most}`);
      break;
    }
    remember(plan, cursor);
    pushLatheMove(plan.moves, moveOf(cursor, kind), index, begins);
    begins = false;
  }
  plan.left_out = [...left];
  return plan;
}

function onAxis(tool: ToolKnown | undefined): boolean {
  return tool?.kind !== undefined && isHoleTool(tool.kind.value);
}

function drills(step: StepCursor): boolean {
  return step.x === 0 && step.x0 === 0 && step.z < step.z0;
}

/** Index of a tool in the plan; -1 for one whose cut is not followed. */
function addTool(plan: LathePlan, number: number, tool: ToolKnown | undefined, left: Set<string>): number {
  if (onAxis(tool)) {
    if (!tool?.diameter_mm) return -1;
    const point_angle_deg = tool.point_angle_deg?.value ?? 118;
    return plan.tools.push({ diameter_mm: tool.diameter_mm.value, point_angle_deg }) - 1;
  }
  const made = turningToolOf(tool);
  if ('why' in made) {
    left.add(`what ${number >= 0 ? `T${number}` : 'the tool'} cuts: ${made.why} is not known`);
    return -1;
  }
  if (edgeTaken(tool))
    left.add(`the edge angle of T${number} is not stated: taken as ${COMMON_EDGE_DEG} degrees`);
  const inside = tool?.kind && EITHER.has(tool.kind.value) ? turningToolOf(tool, true) : undefined;
  return (
    plan.tools.push({
      outline: made.tool,
      ...(inside && 'tool' in inside ? { inside: inside.tool } : {}),
    }) - 1
  );
}

function moveOf(step: StepCursor, kind: LatheMove['kind']): LatheMove {
  return {
    kind,
    from: [step.z0, step.x0],
    to: [step.z, step.x],
    ...(kind === 'arc'
      ? { centre: [step.centre_first, step.centre_second] as const, sweep_rad: step.sweep_rad }
      : {}),
    ...(kind === 'thread' ? { lead_mm: step.runValues[RUN.lead] } : {}),
  };
}

function remember({ rows, moves }: LathePlan, { table, index }: StepCursor): void {
  if (!table) return;
  let own = rows.get(table);
  if (!own) {
    own = new Int32Array(table.count).fill(-1);
    rows.set(table, own);
  }
  own[index] = moves.count;
}
