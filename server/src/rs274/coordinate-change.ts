import type { Machine } from './machine.ts';
import { S } from './state.ts';

/**
 * Programmable mirror, scaling and rotation: programmed coordinates are mirrored, then scaled, then turned, as common
 * controls do (common practice, no source). All of them work on positions in the work offset, mm.
 */

/** Whether programmed and real coordinates differ. */
export function isChanged(v: Float64Array): boolean {
  return v[S.turned] !== 0 || v[S.scaled] !== 0 || isMirrored(v);
}

function isMirrored(v: Float64Array): boolean {
  return !(Number.isNaN(v[S.mirror_x]) && Number.isNaN(v[S.mirror_y]) && Number.isNaN(v[S.mirror_z]));
}

/** Real position of a programmed point, in place. */
export function toReal(v: Float64Array, point: Float64Array): void {
  for (let axis = 0; axis < 3; axis += 1) {
    const about = v[S.mirror_x + axis];
    if (!Number.isNaN(about)) point[axis] = 2 * about - point[axis];
    if (v[S.scaled] === 1) {
      const centre = v[S.scale_cx + axis];
      point[axis] = centre + (point[axis] - centre) * v[S.scale_x + axis];
    }
  }
  turn(v, point, v[S.turn_first], v[S.turn_second], 1);
}

/** Programmed coordinates of a real position, in place. */
export function toProgrammed(v: Float64Array, point: Float64Array): void {
  turn(v, point, v[S.turn_first], v[S.turn_second], -1);
  for (let axis = 2; axis >= 0; axis -= 1) {
    if (v[S.scaled] === 1) {
      const centre = v[S.scale_cx + axis];
      point[axis] = centre + (point[axis] - centre) / v[S.scale_x + axis];
    }
    const about = v[S.mirror_x + axis];
    if (!Number.isNaN(about)) point[axis] = 2 * about - point[axis];
  }
}

/** A programmed distance (I J K) as a real one, in place. */
export function turnDistance(v: Float64Array, distance: Float64Array): void {
  for (let axis = 0; axis < 3; axis += 1) {
    if (!Number.isNaN(v[S.mirror_x + axis])) distance[axis] = -distance[axis];
    if (v[S.scaled] === 1) distance[axis] *= v[S.scale_x + axis];
  }
  turn(v, distance, 0, 0, 1);
}

/** Whether arcs in a plane (17, 18, 19) change direction. */
export function turnsOver(v: Float64Array, plane: number): boolean {
  const [first, second] = PLANE[plane - 17];
  let over = false;
  for (const axis of [first, second]) {
    if (!Number.isNaN(v[S.mirror_x + axis])) over = !over;
    if (v[S.scaled] === 1 && v[S.scale_x + axis] < 0) over = !over;
  }
  return over;
}

/** Factor that radii in a plane change by; NaN when its two axes are scaled apart and a circle is none any more. */
export function radiusFactor(v: Float64Array, plane: number): number {
  if (v[S.scaled] !== 1) return 1;
  const [first, second] = PLANE[plane - 17];
  const [a, b] = [Math.abs(v[S.scale_x + first]), Math.abs(v[S.scale_x + second])];
  return a === b ? a : Number.NaN;
}

/** First and second axis (0 X, 1 Y, 2 Z) of G17, G18, G19. */
export const PLANE: readonly (readonly [number, number])[] = [
  [0, 1],
  [2, 0],
  [1, 2],
];

function turn(
  v: Float64Array,
  point: Float64Array,
  centre_first: number,
  centre_second: number,
  sense: 1 | -1,
): void {
  if (v[S.turned] === 0) return;
  const [first, second] = PLANE[v[S.turned] - 17];
  const angle = (sense * v[S.turn_deg] * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const a = point[first] - centre_first;
  const b = point[second] - centre_second;
  point[first] = centre_first + a * cos - b * sin;
  point[second] = centre_second + a * sin + b * cos;
}

/** The programmed point of the machine: where the tool stands, or where an open path is programmed to. */
export function programmedPoint(machine: Machine, out: Float64Array): void {
  const { v, pending } = machine.state;
  out[0] = pending === null ? v[S.x] : pending.x;
  out[1] = pending === null ? v[S.y] : pending.y;
  out[2] = pending === null ? v[S.z] : pending.z;
  if (isChanged(v)) toProgrammed(v, out);
}
