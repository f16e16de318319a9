import { offsetColumn } from './frame-columns.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

/** A stored position that counts in machine coordinates has this for its work offset. */
const MACHINE_FRAME = 530;
/** Columns of one stored point: X Y Z, work offset, length offset. */
const [FRAME, LENGTH] = [3, 4];
const STORED = { first: S.ref1_x, second: S.ref2_x } as const;

/** Which of the two points: that of G28 or that of G30. */
export type StoredPoint = keyof typeof STORED;

/**
 * G28.1 and G30.1 of the report's successor: the present position becomes the one that G28 or G30 goes to. It is kept in machine
 * coordinates where the program tells the work offset, else in that work offset.
 */
export function storeReference(machine: Machine, point: StoredPoint): void {
  const { v } = machine.state;
  const at = STORED[point];
  const frame = frameOf(v);
  const column = offsetColumn(frame);
  const shift = [0, 1, 2].map(axis => (column < 0 ? Number.NaN : v[column + axis]));
  const known = !shift.some(Number.isNaN);
  for (let axis = 0; axis < 3; axis += 1) v[at + axis] = v[S.x + axis] + (known ? shift[axis] : 0);
  v[at + FRAME] = known ? MACHINE_FRAME : frame;
  v[at + LENGTH] = v[S.length_offset];
}

/** The stored position on an axis (0 X, 1 Y, 2 Z) in the work offset in force; NaN when it is not known. */
export function storedReference(machine: Machine, point: StoredPoint, axis: number): number {
  const { v } = machine.state;
  const at = STORED[point];
  if (axis === 2 && !Object.is(v[at + LENGTH], v[S.length_offset])) return Number.NaN;
  const frame = frameOf(v);
  if (v[at + FRAME] === frame) return v[at + axis];
  const column = offsetColumn(frame);
  return v[at + FRAME] === MACHINE_FRAME && column >= 0 ? v[at + axis] - v[column + axis] : Number.NaN;
}

/** The stored position on an axis in machine coordinates; NaN when the program does not tell. */
export function storedInMachine(machine: Machine, point: StoredPoint, axis: number): number {
  const { v } = machine.state;
  const at = STORED[point];
  return v[at + FRAME] === MACHINE_FRAME ? v[at + axis] : Number.NaN;
}

/** A work offset was set anew: points that count in it are not known any more. */
export function forgetStored(v: Float64Array, frame: number): void {
  for (const at of Object.values(STORED))
    if (v[at + FRAME] === frame) v.fill(Number.NaN, at, at + LENGTH + 1);
}

function frameOf(v: Float64Array): number {
  return Number.isNaN(v[S.frame]) ? 540 : v[S.frame];
}
