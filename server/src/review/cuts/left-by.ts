import type { Cutter } from '../../stock/cutter.ts';
import { type Turn as CutTurn, endState, laid } from '../../stock/end-state.ts';
import { createMillStock } from '../../stock/mill.ts';
import type { Program } from '../program.ts';
import type { FromStock, Left } from './earlier.ts';
import { type FramePlan, type MillPlan, millPlan } from './plan.ts';

const TURNS: Record<string, CutTurn> = {
  none: 'none',
  'flip-x': 'flip-x',
  'flip-y': 'flip-y',
  'turn-z-90': 'z-90',
  'turn-z-180': 'z-180',
  'turn-z-270': 'z-270',
};

/** How a part lies after it was cut: turned, and with its new zero from the low corner; without one it stays where it was. */
export interface Lay {
  turn: CutTurn;
  zero_mm: readonly number[] | undefined;
}

/** How the sheet says that the part of `before` lies now, or why that is not followed. */
export function layOf(
  before: Program,
  stock: FromStock,
  zero_mm: readonly number[] | undefined,
): Lay | { why: string } {
  const turn = TURNS[stock.turn?.value ?? 'none'];
  if (!turn || before.kind !== 'mill')
    return { why: `a part turned ${stock.turn?.value ?? 'on a lathe'} is not followed` };
  if (turn !== 'none' && !zero_mm)
    return { why: 'the sheet does not say where zero sits on the turned part' };
  return { turn, zero_mm };
}

/** The first work offset of the program before, which is the one whose part goes on; why not in words. */
export function firstFrame(
  plan: MillPlan | { why: string },
): { frame: FramePlan; tools: Cutter[] } | { why: string } {
  if ('why' in plan) return { why: `the program before leaves its stock unknown: ${plan.why}` };
  return { frame: plan.frames[0], tools: plan.tools };
}

/** What another program leaves, worked out at once. A reason where it cannot be told. */
export function leftBy(before: Program, from: FromStock, zero_mm: readonly number[] | undefined): Left {
  const lay = layOf(before, from, zero_mm);
  if ('why' in lay) return lay;
  const first = firstFrame(millPlan(before));
  if ('why' in first) return first;
  const stock = createMillStock(first.frame.block, first.tools);
  stock.append(first.frame.moves);
  stock.finish();
  return { state: laid(endState(stock), lay.turn, lay.zero_mm) };
}
