/** An arc of the lathe's plane as straight pieces, one after the other. */
import type { LatheMove } from './lathe-moves.ts';

/** Greatest distance of an arc from its pieces. */
export const chord_mm = 0.0005;

/** An arc in work: its pieces so far. */
export interface ArcInWork {
  readonly centre: readonly [z: number, x: number];
  readonly sweep_rad: number;
  readonly start: number;
  readonly radius: number;
  readonly pieces: number;
  done: number;
  from: readonly [number, number];
}

/** Begins an arc, at most 5,000 pieces; undefined for a move that is straight. */
export function arcInWork({ kind, from, centre, sweep_rad = 0 }: LatheMove): ArcInWork | undefined {
  if (kind !== 'arc' || centre === undefined || sweep_rad === 0) return undefined;
  const radius = Math.hypot(from[0] - centre[0], from[1] - centre[1]);
  const step = radius > 0.001 ? 2 * Math.acos(Math.max(0, 1 - chord_mm / radius)) : 1;
  const pieces = Math.min(5000, Math.max(2, Math.ceil(Math.abs(sweep_rad) / step)));
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  return { centre, sweep_rad, start, radius, pieces, done: 0, from };
}

/** Where the next piece of an arc ends; the last one ends where the move does. */
export function nextPiece(arc: ArcInWork, end: readonly [number, number]): readonly [number, number] {
  const { centre, radius, start, sweep_rad, pieces } = arc;
  const a = start + (sweep_rad * ++arc.done) / pieces;
  if (arc.done === pieces) return end;
  return [centre[0] + radius * Math.cos(a), centre[1] + radius * Math.sin(a)];
}
