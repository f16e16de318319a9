import type { StepTable } from '../rs274/steps.ts';
import { lookAt } from './kernel.ts';

/** Whether an arc would run on smoothly if it turned the other way: see `kernel/marks.ts`. */
export function turnsBack(table: StepTable, i: number): boolean {
  return lookAt(table).turnsBack(i, table.count);
}
