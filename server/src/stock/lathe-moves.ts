/** Moves of a lathe in the columns that moves of a mill have, so that both are compared, spliced and sent alike. */
import { type MoveColumns, numbersPerMove, pushMove } from './moves.ts';

/** A move of the programmed point; x is the radius. */
export interface LatheMove {
  readonly kind: 'rapid' | 'feed' | 'arc' | 'thread';
  readonly from: readonly [z: number, x: number];
  readonly to: readonly [z: number, x: number];
  readonly centre?: readonly [z: number, x: number];
  /** Arc: positive turns z towards x. */
  readonly sweep_rad?: number;
  /** Thread: lead a turn. */
  readonly lead_mm?: number;
}

const kinds = ['rapid', 'feed', 'arc', 'thread'] as const;

/**
 * Appends one move: y stays 0, the lead of a thread stands in the place of the sweep, and the code of the plane is 1 where the tool
 * has just been changed to (`begins`).
 */
export function pushLatheMove(into: MoveColumns, move: LatheMove, tool: number, begins: boolean): void {
  const [z0, x0] = move.from;
  const [z, x] = move.to;
  const [cz, cx] = move.centre ?? move.from;
  const turn = move.kind === 'thread' ? move.lead_mm : move.centre && move.sweep_rad;
  const row = into.count;
  pushMove(
    into,
    { kind: 'feed', from: [x0, 0, z0], to: [x, 0, z], centre: [cx, 0, cz], sweep_rad: turn ?? 0 },
    tool,
  );
  into.kind[row] = kinds.indexOf(move.kind);
  into.plane[row] = begins ? 1 : 0;
}

/** The move in a row of the columns. */
export function latheMoveAt(moves: MoveColumns, row: number): LatheMove {
  const at = row * numbersPerMove;
  const [x0, , z0, x, , z, cx, , cz, turn] = moves.numbers.subarray(at, at + numbersPerMove);
  const kind = kinds[moves.kind[row]];
  const ends = { kind, from: [z0, x0], to: [z, x] } as const;
  if (kind === 'thread') return { ...ends, lead_mm: turn };
  return kind === 'arc' ? { ...ends, centre: [cz, cx], sweep_rad: turn } : ends;
}

/** True for the first move after the tool was changed. */
export function beginsUse(moves: MoveColumns, row: number): boolean {
  return moves.plane[row] === 1;
}
