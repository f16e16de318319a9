/** A flat disc moved level along a straight line: the fast case of pockets, contours and facing. */
import { cutHeight, mergeCell, sideUnits, type Tile } from './tile.ts';

/**
 * Cuts the tile with a disc of radius `r` whose underside moves at height `z` (in units) from (x0, y0) to (x1, y1).
 * With `startIsCut` the disc at the start was cut before at this height or lower, and only what lies ahead of it is
 * looked at. Returns the removed height in units, summed over the cells the tile owns.
 */
export function sweepFlat(
  tile: Tile,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  z: number,
  r: number,
  startIsCut: boolean,
): number {
  if (tile.top === undefined) tile.fill();
  const tops = tile.top as Int32Array;
  const floors = tile.floor as Int32Array;
  const sides = tile.side as Int16Array;
  const { ox, oy, w, h, nw, nh, stride } = tile;
  const { cx, cy } = tile.grid;
  const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
  const dirX = length > 0 ? (x1 - x0) / length : 1;
  const dirY = length > 0 ? (y1 - y0) / length : 0;
  // the same capsule with its lower end first, for the row spans
  const flip = y0 > y1;
  const xa = flip ? x1 : x0;
  const ya = flip ? y1 : y0;
  const xb = flip ? x0 : x1;
  const yb = flip ? y0 : y1;
  const ux = flip ? -dirX : dirX;
  const uy = flip ? -dirY : dirY;
  const slope = uy > 1e-12 ? ux / uy : 0;
  const perSide = sideUnits / (cx * uy + cy * Math.abs(ux));
  const band = Math.sqrt(cx * cx + cy * cy);
  const outer = r + band;
  const inner = r - band;
  const inner2 = inner > 0 ? inner * inner : -1;
  const perX = 1 / cx;
  // ahead of a start that is cut only the leading half of the disc counts
  const backX = startIsCut ? outer * Math.abs(dirY) : outer;
  const backY = startIsCut ? outer * Math.abs(dirX) : outer;
  const xLow = Math.min(x0, x1) - (dirX < 0 ? outer : backX);
  const xHigh = Math.max(x0, x1) + (dirX > 0 ? outer : backX);
  const iLow = Math.max(0, Math.floor((xLow - ox) * perX)) | 0;
  const iHigh = Math.min(nw - 1, Math.ceil((xHigh - ox) * perX)) | 0;
  if (iLow > iHigh) return 0;
  const jLow = Math.max(0, Math.ceil((ya - (dirY < 0 ? outer : backY) - oy) / cy - 1e-9)) | 0;
  const jHigh = Math.min(nh - 1, Math.floor((yb + (dirY > 0 ? outer : backY) - oy) / cy + 1e-9)) | 0;
  let removed = 0;
  for (let j = jLow; j <= jHigh; j++) {
    if ((j === jLow || (j & 15) === 0) && tile.boundInRow(j >> 4, iLow, iHigh) <= z) {
      j |= 15;
      continue;
    }
    const y = oy + j * cy;
    const row = (j * stride) | 0;
    // columns of the disc at the start, which are cut
    let cutFrom = (iHigh + 1) | 0;
    let cutTo = iHigh;
    const half2 = startIsCut ? inner2 - (y - y0) * (y - y0) : -1;
    if (half2 > 0) {
      const half = Math.sqrt(half2);
      const from = Math.max(iLow, Math.ceil((x0 - half - ox) * perX)) | 0;
      const to = Math.min(iHigh, Math.floor((x0 + half - ox) * perX)) | 0;
      if (from <= to) {
        cutFrom = from;
        cutTo = to;
      }
    }
    if (startIsCut) {
      let metal = iHigh;
      while (metal > cutTo && tops[row + metal] <= z) metal--;
      if (metal <= cutTo) {
        metal = iLow;
        while (metal < cutFrom && tops[row + metal] <= z) metal++;
        if (metal >= cutFrom) continue;
      }
    }
    let right = rightEdge(y, xa, ya, xb, yb, ux, uy, slope, outer);
    let left = -rightEdge(y, -xa, ya, -xb, yb, -ux, uy, -slope, outer);
    if (startIsCut) {
      const back = (y - y0) * dirY;
      if (dirX > 1e-9) left = Math.max(left, x0 - back / dirX);
      else if (dirX < -1e-9) right = Math.min(right, x0 - back / dirX);
      else if (back <= 0) continue;
    }
    if (!(left <= right)) continue;
    const first = Math.max(0, Math.ceil((left - ox) * perX)) | 0;
    const last = Math.min(nw - 1, Math.floor((right - ox) * perX)) | 0;
    if (first > last) continue;
    let fullFrom = (last + 1) | 0;
    let fullTo = last;
    let skipFrom = (last + 1) | 0;
    let skipTo = last;
    if (inner2 > 0) {
      const innerRight = rightEdge(y, xa, ya, xb, yb, ux, uy, slope, inner);
      const innerLeft = -rightEdge(y, -xa, ya, -xb, yb, -ux, uy, -slope, inner);
      if (innerLeft <= innerRight) {
        const from = Math.max(first, Math.ceil((innerLeft - ox) * perX)) | 0;
        const to = Math.min(last, Math.floor((innerRight - ox) * perX)) | 0;
        if (from <= to) {
          fullFrom = from;
          fullTo = to;
          skipFrom = (to + 1) | 0;
          skipTo = to;
          const skipA = Math.max(from, cutFrom) | 0;
          const skipB = Math.min(to, cutTo) | 0;
          if (skipA <= skipB) {
            skipFrom = skipA;
            skipTo = skipB;
          }
        }
      }
    }
    let sum = 0;
    for (let i = first; i <= last; i++) {
      if (i === fullFrom) i = (fullTo + 1) | 0;
      if (i > last) break;
      const at = (row + i) | 0;
      if (tops[at] <= z) continue;
      const x = ox + i * cx;
      const along = (x - x0) * dirX + (y - y0) * dirY;
      let side: number;
      if (along > 0 && along < length) {
        side = (Math.abs((x - x0) * dirY - (y - y0) * dirX) - r) * perSide;
      } else {
        const dx = along <= 0 ? x - x0 : x - x1;
        const dy = along <= 0 ? y - y0 : y - y1;
        const distance = Math.sqrt(dx * dx + dy * dy);
        const across = cx * Math.abs(dx) + cy * Math.abs(dy);
        side = across > 0 ? (sideUnits * (distance - r) * distance) / across : (-r / cx) * sideUnits;
      }
      if (side >= sideUnits) continue;
      const at16 = side <= -sideUnits ? -sideUnits : ((side + 32768.5) | 0) - 32768;
      const top = tops[at];
      const floor = floors[at];
      let cut: number;
      // the two common cases of `mergeCell`, in place: no wall yet, and this very floor
      if (floor === top && at16 > -sideUnits) {
        floors[at] = z;
        sides[at] = at16;
        cut = cutHeight(top - z, at16);
      } else if (floor === z && at16 > -sideUnits) {
        const old = sides[at];
        if (at16 >= old) continue;
        sides[at] = at16;
        cut = (cutHeight(top - z, at16) - cutHeight(top - z, old)) | 0;
      } else {
        cut = mergeCell(tile, at, z, at16);
      }
      if (i < w) sum += cut;
    }
    for (let part = 0; part < 2; part++) {
      const from = part === 0 ? fullFrom : (skipTo + 1) | 0;
      const to = part === 0 ? (skipFrom - 1) | 0 : fullTo;
      for (let i = from; i <= to; i++) {
        const at = (row + i) | 0;
        const top = tops[at];
        if (top <= z) continue;
        let cut: number;
        if (floors[at] === top) {
          floors[at] = z;
          tops[at] = z;
          cut = (top - z) | 0;
        } else if (floors[at] === z) {
          tops[at] = z;
          cut = (top - z - cutHeight(top - z, sides[at])) | 0;
        } else {
          cut = mergeCell(tile, at, z, -sideUnits);
        }
        if (i < w) sum += cut;
      }
    }
    if (j < h) removed += sum;
  }
  return removed;
}

/** Greatest x of the capsule of radius `r` round the line (y0 <= y1) in the row `y`; NaN where the row misses it. */
export function rightEdge(
  y: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  ux: number,
  uy: number,
  slope: number,
  r: number,
): number {
  const shift = ux * r;
  if (y < y0 - shift) {
    const dy = y - y0;
    const half2 = r * r - dy * dy;
    return half2 < 0 ? Number.NaN : x0 + Math.sqrt(half2);
  }
  if (y > y1 - shift) {
    const dy = y - y1;
    const half2 = r * r - dy * dy;
    return half2 < 0 ? Number.NaN : x1 + Math.sqrt(half2);
  }
  return x0 + uy * r + (y - y0 + shift) * slope;
}
