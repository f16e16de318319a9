/** A flat disc moved level along a straight line: the fast case of pockets, contours and facing. */
import { boundInRow, cx, cy, least, most, needCells, nh, nw, ox, oy, perX, perY } from './field.ts';
import { firstOver, lastOver, roundInt } from './memory.ts';
import { beginRow, cutWalls, cutWhole, endWalls, setWalls } from './walls.ts';

/** No edge: so far out that no span is left. */
const outside: f64 = 1e6;

/** Up to so many cells of a row are not told apart before they are cut. */
const fewCells: i32 = 12;

/** The line with its lower end first, for the spans of rows. */
let xa: f64 = 0;
let ya: f64 = 0;
let xb: f64 = 0;
let yb: f64 = 0;
let ux: f64 = 0;
let uy: f64 = 0;
let slope: f64 = 0;

/** Sets the line of `rightEdge` and `leftEdge`; (dirX, dirY) is its direction. */
export function setCapsule(x0: f64, y0: f64, x1: f64, y1: f64, dirX: f64, dirY: f64): void {
  const flip: bool = y0 > y1;
  xa = flip ? x1 : x0;
  ya = flip ? y1 : y0;
  xb = flip ? x0 : x1;
  yb = flip ? y0 : y1;
  ux = flip ? -dirX : dirX;
  uy = flip ? -dirY : dirY;
  slope = uy > 1e-12 ? ux / uy : 0;
}

/** Greatest x, in the row `y`, of the capsule of radius `r` round the line; far left where the row misses it. */
export function rightEdge(y: f64, r: f64): f64 {
  const turned: f64 = ux * r;
  if (y < ya - turned) {
    const dy: f64 = y - ya;
    const half2: f64 = r * r - dy * dy;
    return half2 < 0 ? -outside : xa + Math.sqrt(half2);
  }
  if (y > yb - turned) {
    const dy: f64 = y - yb;
    const half2: f64 = r * r - dy * dy;
    return half2 < 0 ? -outside : xb + Math.sqrt(half2);
  }
  return xa + uy * r + (y - ya + turned) * slope;
}

/** Least x, in the row `y`, of the capsule; far right where the row misses it. */
export function leftEdge(y: f64, r: f64): f64 {
  const turned: f64 = ux * r;
  if (y < ya + turned) {
    const dy: f64 = y - ya;
    const half2: f64 = r * r - dy * dy;
    return half2 < 0 ? outside : xa - Math.sqrt(half2);
  }
  if (y > yb + turned) {
    const dy: f64 = y - yb;
    const half2: f64 = r * r - dy * dy;
    return half2 < 0 ? outside : xb - Math.sqrt(half2);
  }
  return xa - uy * r + (y - ya - turned) * slope;
}

/** First column whose centre lies right of `x`, last one left of it; one at `x` itself may count or not. Not held to those of the tile. */
export function columnFrom(x: f64): i32 {
  return roundInt((x - ox) * perX + 0.5);
}
export function columnTo(x: f64): i32 {
  return roundInt((x - ox) * perX - 0.5);
}
/** The same for rows. */
export function rowFrom(y: f64): i32 {
  return roundInt((y - oy) * perY + 0.5);
}
export function rowTo(y: f64): i32 {
  return roundInt((y - oy) * perY - 0.5);
}

/**
 * Cuts the tile with a disc of radius `r` whose underside moves at height `z` (in units) from (x0, y0) to (x1, y1).
 * With `startIsCut` the disc at the start was cut before at this height or lower, and only what lies ahead of it is
 * looked at. Returns the removed height in units, summed over the cells the tile owns.
 */
export function sweepFlat(x0: f64, y0: f64, x1: f64, y1: f64, z: i32, r: f64, startIsCut: bool): f64 {
  needCells();
  const length: f64 = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
  const dirX: f64 = length > 0 ? (x1 - x0) / length : 1;
  const dirY: f64 = length > 0 ? (y1 - y0) / length : 0;
  setCapsule(x0, y0, x1, y1, dirX, dirY);
  const band: f64 = Math.sqrt(cx * cx + cy * cy);
  const outer: f64 = r + band;
  const inner: f64 = r - band;
  const inner2: f64 = inner > 0 ? inner * inner : -1;
  // ahead of a start that is cut only the leading half of the disc counts
  const backX: f64 = startIsCut ? outer * Math.abs(dirY) : outer;
  const backY: f64 = startIsCut ? outer * Math.abs(dirX) : outer;
  const iLow: i32 = most(0, columnFrom(Math.min(x0, x1) - (dirX < 0 ? outer : backX)) - 1);
  const iHigh: i32 = least(nw - 1, columnTo(Math.max(x0, x1) + (dirX > 0 ? outer : backX)) + 1);
  if (iLow > iHigh) return 0;
  const jLow: i32 = most(0, rowFrom(Math.min(y0, y1) - (dirY < 0 ? outer : backY) - 1e-9));
  const jHigh: i32 = least(nh - 1, rowTo(Math.max(y0, y1) + (dirY > 0 ? outer : backY) + 1e-9));
  // which ends of a row the line across the start may close
  const onLeft: bool = startIsCut && dirX > 1e-9;
  const onRight: bool = startIsCut && dirX < -1e-9;
  const lean: f64 = onLeft || onRight ? dirY / dirX : 0;
  setWalls(x0, y0, x1, y1, dirX, dirY, length, r, z);
  for (let j: i32 = jLow; j <= jHigh; j++) {
    if ((j === jLow || (j & 15) === 0) && boundInRow(j >> 4, iLow, iHigh) <= z) {
      j |= 15;
      continue;
    }
    const row: i32 = j * nw;
    let first: i32 = firstOver(row + iLow, row + iHigh, z) - row;
    if (first > iHigh) continue;
    let last: i32 = lastOver(row + first, row + iHigh, z) - row;
    const y: f64 = oy + j * cy;
    const off: f64 = y - y0;
    let closed: bool = false;
    if (onLeft || onRight) {
      const at: f64 = -off * lean;
      closed = at * at + off * off < inner2;
      if (onLeft) first = most(first, columnFrom(x0 + at));
      else last = least(last, columnTo(x0 + at));
    } else if (startIsCut && off * dirY <= 0) continue;
    const openLeft: bool = !(closed && onLeft);
    const openRight: bool = !(closed && onRight);
    if (openLeft) first = most(first, columnFrom(leftEdge(y, outer)));
    if (openRight) last = least(last, columnTo(rightEdge(y, outer)));
    if (first > last) continue;
    beginRow(j, y);
    let fullFrom: i32 = last + 1;
    let fullTo: i32 = last;
    if (last - first >= fewCells && inner2 > 0) {
      fullFrom = openLeft ? most(first, columnFrom(leftEdge(y, inner))) : first;
      if (openRight) fullTo = least(last, columnTo(rightEdge(y, inner)));
    }
    if (fullFrom <= fullTo) {
      cutWalls(first, fullFrom - 1);
      cutWhole(fullFrom, fullTo);
      cutWalls(fullTo + 1, last);
    } else {
      cutWalls(first, last);
    }
  }
  return endWalls();
}
