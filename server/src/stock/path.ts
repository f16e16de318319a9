/** A move made ready for the field: straight pieces, and the stations along it. */
import type { Cutter } from './cutter.ts';
import type { StationList } from './figures.ts';
import type { Grid } from './grid.ts';
import type { Kernel } from './kernel.ts';
import { type Chain, chainOf, type MoveColumns, numbersPerMove } from './moves.ts';

/** Stations stand at the middle of equal parts of the move, each at most this share of the tool's diameter long. */
const stationShare = 1 / 20;
const mostStations = 2000;

export class MovePath {
  readonly chain: Chain;
  readonly list: StationList;
  /** Piece that each station stands on. */
  readonly stationPiece: Int32Array;
  /** How far the path has turned, at the station, from the direction of its straight piece. */
  readonly stationTurn: Float64Array;
  private turnPerPiece = 0;

  /** Works in the arrays of the kernel, which hold the longest path that there may be. */
  constructor(kernel: Kernel) {
    const { points, places, stationPiece, stationTurn } = kernel.path;
    this.chain = { points, pieces: 0, length_mm: 0, rapid: false };
    this.list = { count: 0, places };
    this.stationPiece = stationPiece;
    this.stationTurn = stationTurn;
  }

  /** Splits the move into pieces and stations; false when it stays above the block. */
  prepare(moves: MoveColumns, move: number, tool: Cutter, grid: Grid): boolean {
    const { chain, list } = this;
    list.count = 0;
    chainOf(moves, move, Math.min(grid.cx, grid.cy) * 0.02, chain);
    const p = chain.points;
    let lowest = Number.POSITIVE_INFINITY;
    for (let k = 2; k <= 3 * chain.pieces + 2; k += 3) lowest = Math.min(lowest, p[k]);
    if (!(lowest < grid.block.high[2]) || !Number.isFinite(chain.length_mm)) return false;
    const sweep = moves.numbers[move * numbersPerMove + 9];
    this.turnPerPiece = chain.pieces > 1 && moves.plane[move] === 0 ? sweep / chain.pieces : 0;
    this.placeStations(tool);
    return true;
  }

  private placeStations(tool: Cutter): void {
    const { chain, list } = this;
    const p = chain.points;
    const longest = 2 * tool.radius_mm * stationShare;
    let length = 0;
    for (let k = 0; k < chain.pieces; k++) length += pieceLength(p, k);
    if (!(length > 0)) return;
    const count = Math.max(1, Math.min(mostStations, Math.ceil(length / longest - 1e-6)));
    const part = length / count;
    const last = 3 * chain.pieces;
    const down = p[last + 2] < p[2];
    list.count = count + (down ? 1 : 0);
    let piece = 0;
    let passed = 0;
    let own = pieceLength(p, 0);
    for (let k = 0; k < list.count; k++) {
      const at = k < count ? (k + 0.5) * part : length;
      while (passed + own < at && piece < chain.pieces - 1) {
        passed += own;
        piece++;
        own = pieceLength(p, piece);
      }
      const share = own > 0 ? Math.min(1, (at - passed) / own) : 1;
      for (let axis = 0; axis < 3; axis++) {
        const from = p[3 * piece + axis];
        list.places[4 * k + axis] = from + (p[3 * piece + 3 + axis] - from) * share;
      }
      list.places[4 * k + 3] = k < count ? 1 / count : 0;
      this.stationPiece[k] = piece;
      this.stationTurn[k] = (share - 0.5) * this.turnPerPiece;
    }
  }
}

function pieceLength(p: Float64Array, piece: number): number {
  const at = 3 * piece;
  return Math.sqrt((p[at + 3] - p[at]) ** 2 + (p[at + 4] - p[at + 1]) ** 2 + (p[at + 5] - p[at + 2]) ** 2);
}
