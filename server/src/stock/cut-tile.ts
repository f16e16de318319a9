/** Cuts a move in one tile, a bounded part at a time. */
import type { Cutter } from './cutter.ts';
import type { Kernel } from './kernel.ts';
import type { MovePath } from './path.ts';
import type { TileLog } from './tile-log.ts';

/** How far a move has come in a tile: the next piece and station. */
export interface Place {
  piece: number;
  station: number;
}

/** Cells that may be looked at before a move of many pieces lets others work: a few ms. */
const cellsAtOnce = 50_000;

/**
 * Cuts the prepared move with `tool` (number `toolIndex` of the list) in one tile, from `from` on, and records what it met there.
 * Stops after a bounded number of pieces with `from` moved on; true when the tile is finished.
 */
export function cutTile(
  kernel: Kernel,
  path: MovePath,
  move: number,
  tool: Cutter,
  toolIndex: number,
  log: TileLog,
  from: Place,
): boolean {
  const { chain, list } = path;
  const { tile } = log;
  const { cx, cy } = tile.grid;
  const reach = tool.radius_mm + 2 * Math.max(cx, cy);
  if (from.piece === 0) log.begin(move);
  const footprint = Math.min(tile.nw * tile.nh, ((2 * reach) / cx) * ((2 * reach) / cy));
  const end = Math.min(chain.pieces, from.piece + Math.max(1, Math.floor(cellsAtOnce / footprint)));
  log.addRemoved(kernel.cut(tile, tool, toolIndex, from.piece, end, from.station, list.count));
  log.rows.add(kernel.rows, kernel.rowsFound());
  from.piece = end;
  from.station = kernel.stationAfter();
  return end === chain.pieces;
}
