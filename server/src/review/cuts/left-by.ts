import { type Turn as CutTurn, endState, placed, type StockState, turned } from '../../stock/end-state.ts';
import { createMillStock } from '../../stock/mill.ts';
import type { Program } from '../program.ts';
import { millPlan } from './plan.ts';

const TURNS: Record<string, CutTurn> = {
  none: 'none',
  'flip-x': 'flip-x',
  'flip-y': 'flip-y',
  'turn-z-90': 'z-90',
  'turn-z-180': 'z-180',
  'turn-z-270': 'z-270',
};

/**
 * What another program leaves at its first work offset, turned, with its low corner so that `zero_mm` (from the low
 * corner) is the new zero; without it and unturned it stays where it was. A reason where it cannot be told.
 */
export function leftBy(
  before: Program,
  turn: string,
  zero_mm: readonly number[] | undefined,
): { state: StockState } | { why: string } {
  const how = TURNS[turn];
  if (!how || before.kind !== 'mill') return { why: `a part turned ${turn} is not followed` };
  if (how !== 'none' && !zero_mm) return { why: 'the sheet does not say where zero sits on the turned part' };
  const plan = millPlan(before);
  if ('why' in plan) return { why: `the program before leaves its stock unknown: ${plan.why}` };
  const [frame] = plan.frames;
  const stock = createMillStock(frame.block, plan.tools);
  stock.append(frame.moves);
  stock.finish();
  const state = turned(endState(stock), how);
  if (!zero_mm) return { state };
  return { state: placed(state, [-zero_mm[0], -zero_mm[1], -zero_mm[2]]) };
}
