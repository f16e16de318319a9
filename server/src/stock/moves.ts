/** The small move interface of the stock: positions of the tool's tip in mm, in the frame of the stock. */

export type Point = readonly [x: number, y: number, z: number];

export interface Move {
  readonly kind: 'rapid' | 'feed' | 'arc';
  readonly from: Point;
  readonly to: Point;
  /** Arc: centre; its coordinate along the axis of the plane is not used. */
  readonly centre?: Point;
  /** Arc: angle swept, positive counter-clockwise seen from the positive end of the plane's axis; several turns allowed. */
  readonly sweep_rad?: number;
  readonly plane?: 'xy' | 'zx' | 'yz';
}

const kinds = ['rapid', 'feed', 'arc'] as const;
const planes = ['xy', 'zx', 'yz'] as const;
/** Numbers a move takes in `MoveTable.numbers`: from, to, centre, sweep. */
export const numbersPerMove = 10;

/** Moves in columns: ten numbers a move, two small codes and the index of its tool. Buffers may be transferred. */
export interface MoveColumns {
  count: number;
  numbers: Float64Array;
  kind: Uint8Array;
  plane: Uint8Array;
  tool: Uint16Array;
}

export function emptyMoves(room = 64): MoveColumns {
  return {
    count: 0,
    numbers: new Float64Array(room * numbersPerMove),
    kind: new Uint8Array(room),
    plane: new Uint8Array(room),
    tool: new Uint16Array(room),
  };
}

/** Appends one move; `tool` is an index into the list of cutters that the stock was given. */
export function pushMove(into: MoveColumns, move: Move, tool: number): void {
  reserve(into, into.count + 1);
  const row = into.count++;
  const at = row * numbersPerMove;
  const centre = move.centre ?? move.from;
  into.numbers.set([...move.from, ...move.to, ...centre, move.sweep_rad ?? 0], at);
  into.kind[row] = kinds.indexOf(move.kind);
  into.plane[row] = planes.indexOf(move.plane ?? 'xy');
  into.tool[row] = tool;
}

export function movesOf(list: readonly (Move & { tool?: number })[]): MoveColumns {
  const columns = emptyMoves(Math.max(1, list.length));
  for (const move of list) pushMove(columns, move, move.tool ?? 0);
  return columns;
}

/** Replaces `removed` rows at `at` by the rows of `inserted`, in place. */
export function spliceMoves(into: MoveColumns, at: number, removed: number, inserted: MoveColumns): void {
  const after = into.count - removed + inserted.count;
  reserve(into, after);
  const n = numbersPerMove;
  const tail = at + removed;
  const to = at + inserted.count;
  into.numbers.copyWithin(to * n, tail * n, into.count * n);
  into.numbers.set(inserted.numbers.subarray(0, inserted.count * n), at * n);
  for (const name of ['kind', 'plane', 'tool'] as const) {
    into[name].copyWithin(to, tail, into.count);
    into[name].set(inserted[name].subarray(0, inserted.count), at);
  }
  into.count = after;
}

function reserve(into: MoveColumns, rows: number): void {
  if (rows <= into.kind.length) return;
  const room = Math.max(rows, 2 * into.kind.length);
  const grown = emptyMoves(room);
  grown.numbers.set(into.numbers);
  grown.kind.set(into.kind);
  grown.plane.set(into.plane);
  grown.tool.set(into.tool);
  into.numbers = grown.numbers;
  into.kind = grown.kind;
  into.plane = grown.plane;
  into.tool = grown.tool;
}

/** The one stretch in which two lists of moves differ. */
export function difference(
  before: MoveColumns,
  after: MoveColumns,
): { at: number; removed: number; inserted: MoveColumns } {
  const most = Math.min(before.count, after.count);
  let at = 0;
  while (at < most && sameMove(before, at, after, at)) at++;
  let tail = 0;
  while (tail < most - at && sameMove(before, before.count - 1 - tail, after, after.count - 1 - tail)) tail++;
  return { at, removed: before.count - at - tail, inserted: sliceMoves(after, at, after.count - tail) };
}

function sameMove(a: MoveColumns, i: number, b: MoveColumns, j: number): boolean {
  if (a.kind[i] !== b.kind[j] || a.plane[i] !== b.plane[j] || a.tool[i] !== b.tool[j]) return false;
  for (let k = 0; k < numbersPerMove; k++)
    if (a.numbers[i * numbersPerMove + k] !== b.numbers[j * numbersPerMove + k]) return false;
  return true;
}

function sliceMoves(from: MoveColumns, start: number, end: number): MoveColumns {
  const part: MoveColumns = {
    count: end - start,
    numbers: from.numbers.slice(start * numbersPerMove, end * numbersPerMove),
    kind: from.kind.slice(start, end),
    plane: from.plane.slice(start, end),
    tool: from.tool.slice(start, end),
  };
  const own = emptyMoves(Math.max(1, part.count));
  spliceMoves(own, 0, 0, part);
  return own;
}

/** A move as points joined by straight pieces. `points` holds x, y, z; there are `pieces + 1` of them. */
export interface Chain {
  points: Float64Array;
  pieces: number;
  length_mm: number;
  rapid: boolean;
}

export function emptyChain(): Chain {
  return { points: new Float64Array(6), pieces: 0, length_mm: 0, rapid: false };
}

const mostPieces = 20_000;

/**
 * Splits move `row` into straight pieces whose sagitta stays below `sagitta_mm`; a line is one piece. An arc whose start
 * and end radius differ becomes the spiral between them. At most 20,000 pieces a move.
 */
export function chainOf(moves: MoveColumns, row: number, sagitta_mm: number, into: Chain): void {
  const n = moves.numbers;
  const at = row * numbersPerMove;
  into.rapid = moves.kind[row] === 0;
  const sweep = n[at + 9];
  if (moves.kind[row] !== 2 || sweep === 0) {
    into.pieces = 1;
    for (let k = 0; k < 6; k++) into.points[k] = n[at + k];
    into.length_mm = Math.sqrt(
      (n[at + 3] - n[at]) ** 2 + (n[at + 4] - n[at + 1]) ** 2 + (n[at + 5] - n[at + 2]) ** 2,
    );
    return;
  }
  const plane = moves.plane[row];
  const a = plane === 0 ? 0 : plane === 1 ? 2 : 1;
  const b = plane === 0 ? 1 : plane === 1 ? 0 : 2;
  const c = 3 - a - b;
  const startA = n[at + a] - n[at + 6 + a];
  const startB = n[at + b] - n[at + 6 + b];
  const startRadius = Math.hypot(startA, startB);
  const endRadius = Math.hypot(n[at + 3 + a] - n[at + 6 + a], n[at + 3 + b] - n[at + 6 + b]);
  const radius = Math.max(startRadius, endRadius, 1e-9);
  const step = radius <= sagitta_mm ? 1 : Math.min(1, 2 * Math.acos(1 - sagitta_mm / radius));
  const pieces = Math.min(mostPieces, Math.max(2, Math.ceil(Math.abs(sweep) / step)));
  if (into.points.length < 3 * (pieces + 1)) into.points = new Float64Array(3 * (pieces + 1));
  const startAngle = Math.atan2(startB, startA);
  const rise = n[at + 3 + c] - n[at + c];
  const p = into.points;
  for (let k = 0; k <= pieces; k++) {
    const part = k / pieces;
    const angle = startAngle + sweep * part;
    const r = startRadius + (endRadius - startRadius) * part;
    p[3 * k + a] = n[at + 6 + a] + r * Math.cos(angle);
    p[3 * k + b] = n[at + 6 + b] + r * Math.sin(angle);
    p[3 * k + c] = n[at + c] + rise * part;
  }
  for (let k = 0; k < 3; k++) {
    p[k] = n[at + k];
    p[3 * pieces + k] = n[at + 3 + k];
  }
  into.pieces = pieces;
  into.length_mm = Math.hypot((Math.abs(sweep) * (startRadius + endRadius)) / 2, rise);
}
