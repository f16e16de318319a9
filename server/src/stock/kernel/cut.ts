/** One move in one tile: reads the stations and takes out what the tool sweeps. */
import { heightUnits } from './cells.ts';
import { boundIn, cutIn, cx, cy, lowest, most, xHigh, xLow, yHigh, yLow } from './field.ts';
import { lastAt, placeAt, pointAt, roundInt, setLast, stationPieceAt, stationTurnAt } from './memory.ts';
import { setPlace } from './place.ts';
import { beginSizes, sizesWanted } from './sizes.ts';
import { noRows, readStation } from './station.ts';
import { sweepAny } from './sweep-any.ts';
import { sweepBall } from './sweep-ball.ts';
import { sweepFlat } from './sweep-flat.ts';
import { isBall, radius, shape, shapeFlat, widest } from './tool.ts';
import { cosine as cosineFor, sine as sineFor } from './turns.ts';

/** The next station after the call. */
export let nextStation: i32 = 0;

/**
 * Cuts pieces `piece` to `end` (not included) of the path in memory, whose stations from `station` on stand on them, with the tool
 * number `toolIndex`. Returns the removed height in units, summed over the cells the tile owns, exact.
 */
export function cutPieces(piece: i32, end: i32, station: i32, stations: i32, toolIndex: i32): f64 {
  noRows();
  const reach: f64 = radius + 2 * Math.max(cx, cy);
  const wide: f64 = Math.max(reach, widest);
  let removed: f64 = 0;
  let next: i32 = station;
  for (let k: i32 = piece; k < end; k++) {
    const x0: f64 = pointAt(3 * k);
    const y0: f64 = pointAt(3 * k + 1);
    const z0: f64 = pointAt(3 * k + 2);
    const x1: f64 = pointAt(3 * k + 3);
    const y1: f64 = pointAt(3 * k + 4);
    const z1: f64 = pointAt(3 * k + 5);
    const x0y: f64 = Math.min(x0, x1);
    const x1y: f64 = Math.max(x0, x1);
    const y0x: f64 = Math.min(y0, y1);
    const y1x: f64 = Math.max(y0, y1);
    if (!(x1y + wide > xLow && x0y - wide < xHigh && y1x + wide > yLow && y0x - wide < yHigh)) {
      while (next < stations && stationPieceAt(next) === k) next++;
      continue;
    }
    const level2: f64 = (x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0);
    const length: f64 = Math.sqrt(level2 + (z1 - z0) * (z1 - z0));
    const level: f64 = Math.sqrt(level2);
    const cosine: f64 = level > 1e-9 * length ? level / length : 0;
    const sine: f64 = length > 0 ? (z1 - z0) / length : 0;
    const dirX: f64 = level > 0 ? (x1 - x0) / level : 1;
    const dirY: f64 = level > 0 ? (y1 - y0) / level : 0;
    for (; next < stations && stationPieceAt(next) === k; next++) {
      const x: f64 = placeAt(4 * next);
      const y: f64 = placeAt(4 * next + 1);
      if (x + wide < xLow || x - wide > xHigh || y + wide < yLow || y - wide > yHigh) continue;
      const turn: f64 = stationTurnAt(next);
      let feedX: f64 = dirX;
      let feedY: f64 = dirY;
      if (turn !== 0) {
        feedX = dirX * cosineFor(turn) - dirY * sineFor(turn);
        feedY = dirY * cosineFor(turn) + dirX * sineFor(turn);
      }
      const lead: f64 = Math.sqrt((x - x0) * (x - x0) + (y - y0) * (y - y0));
      setPlace(next, x, y, placeAt(4 * next + 2), feedX, feedY, cosine, sine, lead);
      readStation();
    }
    if (sizesWanted) beginSizes(dirX, dirY);
    const startIsCut: bool =
      lastAt(0) === x0 && lastAt(1) === y0 && lastAt(2) === z0 && lastAt(3) === toolIndex;
    setLast(0, x1);
    setLast(1, y1);
    setLast(2, z1);
    setLast(3, toolIndex);
    if (level === 0 && startIsCut && z1 >= z0) continue;
    const bound: f64 = boundIn(x0y - reach, x1y + reach, y0x - reach, y1x + reach) / heightUnits;
    const low: f64 = Math.min(z0, z1);
    if (bound <= low) continue;
    let units: f64 = 0;
    if (shape === shapeFlat && (z0 === z1 || level === 0)) {
      const z: i32 = most(roundInt(low * heightUnits), lowest);
      units = sweepFlat(x0, y0, x1, y1, z, radius, startIsCut && z0 === z1);
    } else if (isBall && bound <= low + radius && level > 0) {
      units = sweepBall(x0, y0, z0, x1, y1, z1, radius, bound, startIsCut);
    } else {
      units = sweepAny(x0, y0, z0, x1, y1, z1);
    }
    if (units > 0) cutIn(x0y - reach, x1y + reach, y0x - reach, y1x + reach);
    removed += units;
  }
  nextStation = next;
  return removed;
}
