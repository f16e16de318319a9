/** A ball moved along a straight line in any direction while its flank stays above the metal: the fast case of finishing. */
import { heightUnits, roundCut } from './cells.ts';
import { boundInRow, cx, cy, h, least, lowest, most, needCells, nh, nw, ox, oy, w } from './field.ts';
import { firstOver, floorAt, lastOver, roundInt, setFloor, setTop, topAt } from './memory.ts';
import { cutAhead, cutRims } from './rim.ts';
import { noteCut, sizesWanted } from './sizes.ts';
import { columnFrom, columnTo, rowFrom, rowTo } from './sweep-flat.ts';

/**
 * Cuts the tile with a ball of radius `r` whose tip moves from (x0, y0, z0) to (x1, y1, z1) in mm. `bound` (mm) is an upper bound of the metal
 * under the move and must not stand above the centre of the ball. With `startIsCut` the ball at the start was cut
 * before. Returns the removed height in units, summed over the cells the tile owns.
 *
 * Lower face of the swept ball at distance u along and v across the line of slope m: m u - w sqrt(1 + m^2), w = sqrt(r^2 - v^2),
 * touching at u - m w / sqrt(1 + m^2); before and behind it the balls at the two ends.
 */
export function sweepBall(
  x0: f64,
  y0: f64,
  z0: f64,
  x1: f64,
  y1: f64,
  z1: f64,
  r: f64,
  bound: f64,
  startIsCut: bool,
): f64 {
  needCells();
  const low: i32 = lowest;
  const length: f64 = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
  const ux: f64 = length > 0 ? (x1 - x0) / length : 1;
  const uy: f64 = length > 0 ? (y1 - y0) / length : 0;
  const m: f64 = length > 0 ? (z1 - z0) / length : 0;
  const tilt: f64 = Math.sqrt(1 + m * m);
  const lean: f64 = m / tilt;
  const deep: f64 = bound - Math.min(z0, z1);
  if (deep <= 0) return 0;
  const reach: f64 = deep >= r ? r : Math.sqrt(deep * (2 * r - deep));
  const reach2: f64 = reach * reach;
  const r2: f64 = r * r;
  const centre0: f64 = (z0 + r) * heightUnits;
  const centre1: f64 = (z1 + r) * heightUnits;
  const jLow: i32 = most(0, rowFrom(Math.min(y0, y1) - reach));
  const jHigh: i32 = least(nh - 1, rowTo(Math.max(y0, y1) + reach));
  const iLow: i32 = most(0, columnFrom(Math.min(x0, x1) - reach));
  const iHigh: i32 = least(nw - 1, columnTo(Math.max(x0, x1) + reach));
  let removed: f64 = cutRims(x0, y0, z0, ux, uy, m, length, r, reach, low);
  if (iLow > iHigh) return removed;
  // the ball stands over the plane of its lowest tip by at least the square of the distance over its diameter
  const tip: f64 = Math.min(z0, z1) * heightUnits - 1;
  const tipUnits: i32 = roundInt(tip);
  const bowl: f64 = heightUnits / (2 * r);
  const stride: i32 = nw;
  const own: i32 = w;
  for (let j: i32 = jLow; j <= jHigh; j++) {
    if ((j === jLow || (j & 15) === 0) && boundInRow(j >> 4, iLow, iHigh) <= tipUnits) {
      j |= 15;
      continue;
    }
    const dy0: f64 = oy + j * cy - y0;
    const dy1: f64 = oy + j * cy - y1;
    // columns that any of: start ball, end ball, band between them can reach
    let left: f64 = 1e6;
    let right: f64 = -1e6;
    if (dy0 * dy0 <= reach2) {
      const half: f64 = Math.sqrt(reach2 - dy0 * dy0);
      left = x0 - half;
      right = x0 + half;
    }
    if (dy1 * dy1 <= reach2) {
      const half: f64 = Math.sqrt(reach2 - dy1 * dy1);
      if (x1 - half < left) left = x1 - half;
      if (x1 + half > right) right = x1 + half;
    }
    if (uy > 1e-9 || uy < -1e-9) {
      const a: f64 = x0 + (dy0 * ux - reach) / uy;
      const b: f64 = x0 + (dy0 * ux + reach) / uy;
      const from: f64 = Math.max(Math.min(a, b), Math.min(x0, x1) - reach);
      const to: f64 = Math.min(Math.max(a, b), Math.max(x0, x1) + reach);
      if (from < left) left = from;
      if (to > right) right = to;
    }
    if (startIsCut) {
      // touching point before the start: u <= lean * w, w at most r
      const ahead: f64 = lean < 0 ? lean * r : 0;
      if (ux > 1e-9) left = Math.max(left, x0 + (ahead - dy0 * uy) / ux);
      else if (ux < -1e-9) right = Math.min(right, x0 + (ahead - dy0 * uy) / ux);
      else if (dy0 * uy <= ahead) continue;
    }
    const row: i32 = j * stride;
    let first: i32 = most(iLow, columnFrom(left));
    let last: i32 = least(iHigh, columnTo(right));
    if (first > last) continue;
    // how far the row lies from the line at least
    const off: f64 = Math.max(0, Math.max(Math.min(dy0, dy1), -Math.max(dy0, dy1)));
    const under: i32 = roundInt(tip + bowl * (off * off) - 1);
    first = firstOver(row + first, row + last, under) - row;
    if (first > last) continue;
    last = lastOver(row + first, row + last, under) - row;
    let sum: i32 = 0;
    for (let i: i32 = first; i <= last; i++) {
      const at: i32 = row + i;
      const top: i32 = topAt(at);
      const dx0: f64 = ox + i * cx - x0;
      const u: f64 = dx0 * ux + dy0 * uy;
      const v: f64 = dx0 * uy - dy0 * ux;
      const past: f64 = u > length ? u - length : u < 0 ? u : 0;
      if (top <= tip + bowl * (v * v + past * past)) continue;
      const w2: f64 = r2 - v * v;
      if (w2 <= 0) continue;
      const half: f64 = Math.sqrt(w2);
      const touch: f64 = u - lean * half;
      let height: f64 = 0;
      if (touch <= 0) {
        if (startIsCut) continue;
        const rest: f64 = w2 - u * u;
        if (rest <= 0) continue;
        height = centre0 - heightUnits * Math.sqrt(rest);
      } else if (touch >= length) {
        const rest: f64 = w2 - (u - length) * (u - length);
        if (rest <= 0) continue;
        height = centre1 - heightUnits * Math.sqrt(rest);
      } else {
        height = centre0 + heightUnits * (m * u - half * tilt);
      }
      if (top <= height) continue;
      let z: i32 = roundInt(height);
      if (z < low) z = low;
      if (top <= z) continue;
      let cut: i32 = 0;
      if (floorAt(at) === top + roundCut) {
        setFloor(at, z + roundCut);
        setTop(at, z);
        cut = top - z;
      } else {
        cut = cutAhead(at, z, v, touch <= 0 ? centre0 : centre1);
      }
      if (i < own) sum += cut;
      if (sizesWanted) noteCut(i, j, cut);
    }
    if (j < h) removed += sum;
  }
  return removed;
}
