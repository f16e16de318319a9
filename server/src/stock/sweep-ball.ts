/** A ball moved along a straight line in any direction while its flank stays above the metal: the fast case of finishing. */
import { heightUnits, mergeCell, sideUnits, type Tile } from './tile.ts';

/**
 * Cuts the tile with a ball of radius `r` whose tip moves from (x0, y0, z0) to (x1, y1, z1) in mm. `bound` (mm) is an upper bound of the metal
 * under the move and must not stand above the centre of the ball. With `startIsCut` the ball at the start was cut
 * before. Returns the removed height in units, summed over the cells the tile owns.
 *
 * Lower face of the swept ball at distance u along and v across the line of slope m: m u - w sqrt(1 + m^2), w = sqrt(r^2 - v^2),
 * touching at u - m w / sqrt(1 + m^2); before and behind it the balls at the two ends.
 */
export function sweepBall(
  tile: Tile,
  x0: number,
  y0: number,
  z0: number,
  x1: number,
  y1: number,
  z1: number,
  r: number,
  bound: number,
  startIsCut: boolean,
): number {
  if (tile.top === undefined) tile.fill();
  const tops = tile.top as Int32Array;
  const floors = tile.floor as Int32Array;
  const { ox, oy, w, h, nw, nh, stride } = tile;
  const { cx, cy } = tile.grid;
  const low = Math.round(tile.grid.block.low[2] * heightUnits) | 0;
  const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
  const ux = length > 0 ? (x1 - x0) / length : 1;
  const uy = length > 0 ? (y1 - y0) / length : 0;
  const m = length > 0 ? (z1 - z0) / length : 0;
  const tilt = Math.sqrt(1 + m * m);
  const lean = m / tilt;
  const deep = bound - Math.min(z0, z1);
  if (deep <= 0) return 0;
  const reach = deep >= r ? r : Math.sqrt(deep * (2 * r - deep));
  const reach2 = reach * reach;
  const r2 = r * r;
  const centre0 = (z0 + r) * heightUnits;
  const centre1 = (z1 + r) * heightUnits;
  const jLow = Math.max(0, Math.ceil((Math.min(y0, y1) - reach - oy) / cy)) | 0;
  const jHigh = Math.min(nh - 1, Math.floor((Math.max(y0, y1) + reach - oy) / cy)) | 0;
  const iLow = Math.max(0, Math.floor((Math.min(x0, x1) - reach - ox) / cx)) | 0;
  const iHigh = Math.min(nw - 1, Math.ceil((Math.max(x0, x1) + reach - ox) / cx)) | 0;
  if (iLow > iHigh) return 0;
  // the ball stands over the plane of its lowest tip by at least the square of the distance over its diameter
  const tip = Math.min(z0, z1) * heightUnits - 1;
  const bowl = heightUnits / (2 * r);
  let removed = 0;
  for (let j = jLow; j <= jHigh; j++) {
    if ((j === jLow || (j & 15) === 0) && tile.boundInRow(j >> 4, iLow, iHigh) <= tip) {
      j |= 15;
      continue;
    }
    const dy0 = oy + j * cy - y0;
    const dy1 = oy + j * cy - y1;
    // columns that any of: start ball, end ball, band between them can reach
    let left = Number.POSITIVE_INFINITY;
    let right = Number.NEGATIVE_INFINITY;
    if (dy0 * dy0 <= reach2) {
      const half = Math.sqrt(reach2 - dy0 * dy0);
      left = x0 - half;
      right = x0 + half;
    }
    if (dy1 * dy1 <= reach2) {
      const half = Math.sqrt(reach2 - dy1 * dy1);
      if (x1 - half < left) left = x1 - half;
      if (x1 + half > right) right = x1 + half;
    }
    if (uy > 1e-9 || uy < -1e-9) {
      const a = x0 + (dy0 * ux - reach) / uy;
      const b = x0 + (dy0 * ux + reach) / uy;
      const from = Math.max(Math.min(a, b), Math.min(x0, x1) - reach);
      const to = Math.min(Math.max(a, b), Math.max(x0, x1) + reach);
      if (from < left) left = from;
      if (to > right) right = to;
    }
    if (startIsCut) {
      // touching point before the start: u <= lean * w, w at most r
      const ahead = lean < 0 ? lean * r : 0;
      if (ux > 1e-9) left = Math.max(left, x0 + (ahead - dy0 * uy) / ux);
      else if (ux < -1e-9) right = Math.min(right, x0 + (ahead - dy0 * uy) / ux);
      else if (dy0 * uy <= ahead) continue;
    }
    const first = Math.max(0, Math.ceil((left - ox) / cx)) | 0;
    const last = Math.min(nw - 1, Math.floor((right - ox) / cx)) | 0;
    const row = (j * stride) | 0;
    let sum = 0;
    for (let i = first; i <= last; i++) {
      const dx0 = ox + i * cx - x0;
      const u = dx0 * ux + dy0 * uy;
      const v = dx0 * uy - dy0 * ux;
      const at = (row + i) | 0;
      const top = tops[at];
      const past = u > length ? u - length : u < 0 ? u : 0;
      if (top <= tip + bowl * (v * v + past * past)) continue;
      const w2 = r2 - v * v;
      if (w2 <= 0) continue;
      const half = Math.sqrt(w2);
      const touch = u - lean * half;
      let height: number;
      if (touch <= 0) {
        if (startIsCut) continue;
        const rest = w2 - u * u;
        if (rest <= 0) continue;
        height = centre0 - heightUnits * Math.sqrt(rest);
      } else if (touch >= length) {
        const rest = w2 - (u - length) * (u - length);
        if (rest <= 0) continue;
        height = centre1 - heightUnits * Math.sqrt(rest);
      } else {
        height = centre0 + heightUnits * (m * u - half * tilt);
      }
      if (top <= height) continue;
      let z = ((height + 1073741824.5) | 0) - 1073741824;
      if (z < low) z = low;
      if (top <= z) continue;
      let cut: number;
      if (floors[at] === top) {
        floors[at] = z;
        tops[at] = z;
        cut = (top - z) | 0;
      } else {
        cut = mergeCell(tile, at, z, -sideUnits);
      }
      if (i < w) sum += cut;
    }
    if (j < h) removed += sum;
  }
  return removed;
}
