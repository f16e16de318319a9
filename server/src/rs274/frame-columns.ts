import type { Machine } from './machine.ts';
import { S } from './state.ts';

/** Index of the first column of a work offset in the state; -1 for extra ones. */
export function offsetColumn(frame: number): number {
  if (frame >= 540 && frame <= 590 && frame % 10 === 0) return S.o1x + (frame - 540) * 0.3;
  if (frame >= 591 && frame <= 593) return S.o7x + (frame - 591) * 3;
  return -1;
}

/** Column of the angle of a work offset whose first column is `column`. */
export function turnColumn(column: number): number {
  return S.o1r + (column - S.o1x) / 3;
}

/**
 * Turns the coordinates as the work offset in force is turned (G10 L2 R of the report's successor, about work zero);
 * positions stay those of the offset before it is turned.
 */
export function turnByFrame(machine: Machine): void {
  const { v } = machine.state;
  if (!machine.report) return;
  const column = offsetColumn(Number.isNaN(v[S.frame]) ? 540 : v[S.frame]);
  v[S.turn_deg] = column < 0 ? 0 : v[turnColumn(column)];
  v[S.turned] = v[S.turn_deg] === 0 ? 0 : 17;
  v[S.turn_first] = 0;
  v[S.turn_second] = 0;
}
