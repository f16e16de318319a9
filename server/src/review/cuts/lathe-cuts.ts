import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN, type StepTable } from '../../rs274/steps.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { Collision } from '../../stock/keep-out.ts';
import { type LatheMove, LatheStock } from '../../stock/lathe.ts';
import type { LatheFigures } from '../../stock/lathe-figures.ts';
import type { TurningTool } from '../../stock/turning-tool.ts';
import type { Program } from '../program.ts';
import { COMMON_EDGE_DEG, edgeTaken, turningToolOf } from './cutter-of.ts';
import { latheCollisions, latheKeepOuts } from './lathe-collisions.ts';
import { barOf } from './stock-of.ts';
import { ToolSides } from './tool-sides.ts';

/** Figures of the steps of a lathe program. */
export interface LatheCuts {
  readonly kind: 'lathe';
  readonly assumed: boolean;
  readonly left_out: readonly string[];
  figures(step: StepCursor): LatheFigures | undefined;
  /** First contacts of a step with chuck, jaws, tailstock or steady rest. */
  collisions(step: StepCursor): readonly Collision[];
  /** Name of a keep-out box at the step's work offset. */
  keepOutName(step: StepCursor, box: number): string;
}

const ON_AXIS = new Set(['drill', 'reamer', 'tap', 'spot-drill', 'center-drill']);
const KINDS: Record<number, LatheMove['kind']> = {
  [KIND.rapid]: 'rapid',
  [KIND.feed]: 'feed',
  [KIND.arc]: 'arc',
  [KIND.thread]: 'thread',
};
/** More moves than this are not cut. */
const MOST_MOVES = 300_000;

/** Turns the bar of a lathe program; a reason where there is nothing to turn. */
export function latheCuts(program: Program): LatheCuts | { why: string } {
  const placed = barOf(program);
  if ('why' in placed) return placed;
  const stock = new LatheStock(placed.stock);
  const sides = new ToolSides(stock, placed.stock.high_z_mm);
  const tools = new Map<string, TurningTool | undefined>();
  const left = new Set<string>();
  const results = new Map<StepTable, (LatheFigures | undefined)[]>();
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  let count = 0;
  while (cursor.next()) {
    const known = Number.isFinite(cursor.x0 + cursor.z0 + cursor.x + cursor.z);
    if (!known || !cursor.table) continue;
    const number = cursor.runValues[RUN.tool];
    const tool = program.tool(number);
    const inside = sides.inside(cursor, tool);
    const figures = cutStep(stock, cursor, tool, toolFor(number, tool, inside, tools, left));
    if (!figures) continue;
    if (++count > MOST_MOVES) {
      left.add(`moves after the first ${MOST_MOVES}`);
      break;
    }
    let rows = results.get(cursor.table);
    if (!rows) {
      rows = [];
      results.set(cursor.table, rows);
    }
    rows[cursor.index] = figures;
  }
  return {
    kind: 'lathe',
    assumed: placed.assumed,
    left_out: [...left],
    figures: step => (step.table ? results.get(step.table)?.[step.index] : undefined),
    collisions: step => latheCollisions(program, step),
    keepOutName: (step, box) => latheKeepOuts(program, step)[box]?.what ?? 'keep-out',
  };
}

/** Threads are not held as shapes: the point leaves the groove that it has just cut, straight out. */
function leavesThread(step: StepCursor, { kind, inward }: TurningTool): boolean {
  return kind === 'thread-turn' && step.kind === KIND.rapid && (step.x - step.x0) * inward > 0;
}

function toolFor(
  number: number,
  tool: ToolKnown | undefined,
  inside: boolean,
  tools: Map<string, TurningTool | undefined>,
  left: Set<string>,
): TurningTool | undefined {
  const key = `${number}${inside ? ' inside' : ''}`;
  if (tools.has(key)) return tools.get(key);
  const made = turningToolOf(tool, inside);
  const kind = tool?.kind?.value;
  if ('why' in made && !(kind && ON_AXIS.has(kind)))
    left.add(`what ${number >= 0 ? `T${number}` : 'the tool'} cuts: ${made.why} is not known`);
  else if (!('why' in made) && edgeTaken(tool))
    left.add(`the edge angle of T${number} is not stated: taken as ${COMMON_EDGE_DEG} degrees`);
  const turning = 'why' in made ? undefined : made.tool;
  tools.set(key, turning);
  return turning;
}

function cutStep(
  stock: LatheStock,
  step: StepCursor,
  tool: ToolKnown | undefined,
  turning: TurningTool | undefined,
): LatheFigures | undefined {
  const kind = KINDS[step.kind];
  if (!kind) return undefined;
  const onAxis = tool?.kind && ON_AXIS.has(tool.kind.value);
  if (onAxis) {
    if (!tool?.diameter_mm || step.x !== 0 || step.x0 !== 0 || step.z >= step.z0) return undefined;
    return stock.drill(step.z0, step.z, tool.diameter_mm.value, tool.point_angle_deg?.value ?? 118);
  }
  if (!turning || leavesThread(step, turning)) return undefined;
  return stock.move(
    {
      kind,
      from: [step.z0, step.x0],
      to: [step.z, step.x],
      ...(kind === 'arc'
        ? { centre: [step.centre_first, step.centre_second] as const, sweep_rad: step.sweep_rad }
        : {}),
      ...(kind === 'thread' ? { lead_mm: step.runValues[RUN.lead] } : {}),
    },
    turning,
  );
}
