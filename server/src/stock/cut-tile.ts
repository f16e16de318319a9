/** One move in one tile: read its stations, cut its pieces. */
import type { Cutter } from './cutter.ts';
import type { MovePath } from './path.ts';
import type { Station } from './rows.ts';
import { readStation } from './station.ts';
import { sweepAny } from './sweep-any.ts';
import { sweepBall } from './sweep-ball.ts';
import { sweepFlat } from './sweep-flat.ts';
import { heightUnits, toUnits } from './tile.ts';
import type { TileLog } from './tile-log.ts';

const station: Station = { index: 0, x: 0, y: 0, z: 0, dirX: 1, dirY: 0, level: 0, rise: 0, lead_mm: 0 };

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
  path: MovePath,
  move: number,
  tool: Cutter,
  toolIndex: number,
  log: TileLog,
  from: Place,
): boolean {
  const { chain, list, stationPiece, stationTurn } = path;
  const tile = log.tile;
  const { grid } = tile;
  const p = chain.points;
  const reach = tool.radius_mm + 2 * Math.max(grid.cx, grid.cy);
  const wide = Math.max(reach, tool.widest_mm);
  if (from.piece === 0) log.begin(move);
  const footprint = Math.min(tile.nw * tile.nh, ((2 * reach) / grid.cx) * ((2 * reach) / grid.cy));
  const end = Math.min(chain.pieces, from.piece + Math.max(1, Math.floor(cellsAtOnce / footprint)));
  let next = from.station;
  for (let k = from.piece; k < end; k++) {
    const x0 = p[3 * k];
    const y0 = p[3 * k + 1];
    const z0 = p[3 * k + 2];
    const x1 = p[3 * k + 3];
    const y1 = p[3 * k + 4];
    const z1 = p[3 * k + 5];
    const xLow = Math.min(x0, x1);
    const xHigh = Math.max(x0, x1);
    const yLow = Math.min(y0, y1);
    const yHigh = Math.max(y0, y1);
    const length = Math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2 + (z1 - z0) ** 2);
    const level = Math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2);
    const near =
      xHigh + wide > tile.xLow &&
      xLow - wide < tile.xHigh &&
      yHigh + wide > tile.yLow &&
      yLow - wide < tile.yHigh;
    if (near && length > 0) {
      station.level = level > 1e-9 * length ? level / length : 0;
      station.rise = (z1 - z0) / length;
    }
    const dirX = level > 0 ? (x1 - x0) / level : 1;
    const dirY = level > 0 ? (y1 - y0) / level : 0;
    for (; next < list.count && stationPiece[next] === k; next++) {
      if (!near) continue;
      const at = 4 * next;
      station.index = next;
      station.x = list.places[at];
      station.y = list.places[at + 1];
      station.z = list.places[at + 2];
      if (station.x + wide < tile.xLow || station.x - wide > tile.xHigh) continue;
      if (station.y + wide < tile.yLow || station.y - wide > tile.yHigh) continue;
      const turn = stationTurn[next];
      if (turn === 0) {
        station.dirX = dirX;
        station.dirY = dirY;
      } else {
        station.dirX = dirX * Math.cos(turn) - dirY * Math.sin(turn);
        station.dirY = dirY * Math.cos(turn) + dirX * Math.sin(turn);
      }
      station.lead_mm = Math.sqrt((station.x - x0) ** 2 + (station.y - y0) ** 2);
      readStation(tile, tool, station, log.rows);
    }
    if (!near) continue;
    const startIsCut =
      tile.lastX === x0 && tile.lastY === y0 && tile.lastZ === z0 && tile.lastTool === toolIndex;
    tile.lastX = x1;
    tile.lastY = y1;
    tile.lastZ = z1;
    tile.lastTool = toolIndex;
    if (level === 0 && startIsCut && z1 >= z0) continue;
    const bound = tile.boundIn(xLow - reach, xHigh + reach, yLow - reach, yHigh + reach) / heightUnits;
    const lowest = Math.min(z0, z1);
    if (bound <= lowest) continue;
    let units: number;
    if (tool.shape === 'flat' && (z0 === z1 || level === 0)) {
      const z = Math.max(toUnits(lowest), toUnits(grid.block.low[2]));
      units = sweepFlat(tile, x0, y0, x1, y1, z, tool.radius_mm, startIsCut && z0 === z1);
    } else if (tool.kind === 'ball' && bound <= lowest + tool.radius_mm && level > 0) {
      units = sweepBall(tile, x0, y0, z0, x1, y1, z1, tool.radius_mm, bound, startIsCut);
    } else {
      units = sweepAny(tile, tool, x0, y0, z0, x1, y1, z1);
    }
    if (units > 0) tile.cutIn(xLow - reach, xHigh + reach, yLow - reach, yHigh + reach);
    log.addRemoved(units);
  }
  from.piece = end;
  from.station = next;
  return end === chain.pieces;
}
