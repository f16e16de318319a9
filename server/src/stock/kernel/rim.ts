/**
 * Cutting a cell of level metal or with a wall under a ball that moves along a line. Level metal keeps its height beside the groove: where the groove's rim
 * runs through a cell `side` says by how much its mean lies under its centre, so that a narrow pass beside it gives its exact volume.
 */
import { besideRim, heightUnits, mergeCell, roundCut, sideUnits } from './cells.ts';
import { cx, cy, h, least, most, nh, nw, ox, oy, w } from './field.ts';
import { floorAt, roundInt, setFloor, setSide, setTop, sideAt, topAt } from './memory.ts';
import { noteCut, sizesWanted } from './sizes.ts';
import { columnFrom, columnTo, rowFrom, rowTo } from './sweep-flat.ts';

let r2: f64 = 1;
let slope: f64 = 0;
let tilt: f64 = 1;
let lean: f64 = 0;
let perTilt: f64 = 1;
let length: f64 = 0;
/** Height of the ball's centre at the start, in units. */
let centre0: f64 = 0;
let lowest: i32 = 0;
/** Half of what a cell measures across the groove, mm: a strip along the rim, as wide as makes the cell's second moment right. */
let e: f64 = 0;
/** Square of how far from the axis the height in the middle of a cell may stand for its mean, mm2: 0.8 of the radius. */
let gentle2: f64 = 0;
/** Rims nearer to the line than a quarter of the radius, of grooves 1.6 % of the diameter deep, are left to the centres of the cells, mm. */
let narrow: f64 = 0;
/** Along the line, mm: what lies at its very ends counts as beside it. */
const tiny: f64 = 1e-9;

/**
 * Cuts the cells beside a move that hold level metal or a wall, before `sweepBall` cuts all others: its ball of radius `r` (mm) goes along
 * (ux, uy) from (x0, y0, z0), `m` a millimetre up, over `long` mm, and is as wide as `reach` at the highest metal; nothing goes under `low`
 * (units). Returns the removed height in units, summed over the cells the tile owns.
 */
export function cutRims(
  x0: f64,
  y0: f64,
  z0: f64,
  ux: f64,
  uy: f64,
  m: f64,
  long: f64,
  r: f64,
  reach: f64,
  low: i32,
): f64 {
  r2 = r * r;
  slope = m;
  tilt = Math.sqrt(1 + m * m);
  lean = m / tilt;
  perTilt = 1 / (heightUnits * tilt);
  length = long;
  centre0 = (z0 + r) * heightUnits;
  lowest = low;
  gentle2 = 0.64 * r2;
  narrow = 0.25 * r;
  e = Math.sqrt(uy * uy * cx * cx + ux * ux * cy * cy) / 2;
  const beside: f64 = reach + e;
  const outX: f64 = beside * Math.abs(uy) + tiny;
  const outY: f64 = beside * Math.abs(ux) + tiny;
  // a ball that goes up or down touches behind or ahead of its tip
  const uLow: f64 = Math.min(0, lean * r);
  const uHigh: f64 = Math.max(0, lean * r) + long;
  const xa: f64 = x0 + uLow * ux;
  const xb: f64 = x0 + uHigh * ux;
  const ya: f64 = y0 + uLow * uy;
  const yb: f64 = y0 + uHigh * uy;
  const jLow: i32 = most(0, rowFrom(Math.min(ya, yb) - outY));
  const jHigh: i32 = least(nh - 1, rowTo(Math.max(ya, yb) + outY));
  const iLow: i32 = most(0, columnFrom(Math.min(xa, xb) - outX));
  const iHigh: i32 = least(nw - 1, columnTo(Math.max(xa, xb) + outX));
  const leans: bool = ux * ux > 1e-12 && uy * uy > 1e-12;
  const perX: f64 = leans ? 1 / ux : 0;
  const perY: f64 = leans ? 1 / uy : 0;
  let removed: f64 = 0;
  for (let j: i32 = jLow; j <= jHigh; j++) {
    const dy: f64 = oy + j * cy - y0;
    if (uy * uy < 1e-18 && Math.abs(dy) < narrow - tiny) continue;
    let first: i32 = iLow;
    let last: i32 = iHigh;
    if (leans) {
      const start: f64 = (uLow - dy * uy) * perX;
      const end: f64 = (uHigh - dy * uy) * perX;
      const left: f64 = (dy * ux - beside) * perY;
      const right: f64 = (dy * ux + beside) * perY;
      first = most(first, columnFrom(x0 + Math.max(Math.min(start, end), Math.min(left, right)) - tiny));
      last = least(last, columnTo(x0 + Math.min(Math.max(start, end), Math.max(left, right)) + tiny));
    }
    const row: i32 = j * nw;
    for (let i: i32 = first; i <= last; i++) {
      if (floorAt(row + i) === topAt(row + i) + roundCut) continue;
      const dx: f64 = ox + i * cx - x0;
      const cut: i32 = cutBeside(row + i, dx * ux + dy * uy, dx * uy - dy * ux);
      if (i < w && j < h) removed += cut;
      if (sizesWanted) noteCut(i, j, cut);
    }
  }
  return removed;
}

/**
 * Cuts cell `at` before or behind the move, where the groove is not cut to its side yet, down to `z`: it stands at the height of its centre until
 * that is done. `v` is how far from the line it lies, `axis` the height of the ball's centre in units. Returns the mean height that went, in
 * units.
 */
export function cutAhead(at: i32, z: i32, v: f64, axis: f64): i32 {
  const floor: i32 = floorAt(at);
  const top: i32 = topAt(at);
  if (floor < top) return cutWalled(at, z);
  const level: i32 = floor > top ? floor - besideRim : top;
  const mean: i32 = floor > top ? top - sideAt(at) : top;
  const under: f64 = (axis - level) * perTilt;
  const outer: f64 = Math.abs(v) + e;
  if (v * v < gentle2 && outer * outer < r2 - under * under && z <= mean) return cutWhole(at, z, mean);
  return keepLevel(at, z, level, mean, least(mean, z));
}

/** Cuts cell `at`, its centre `u` mm along and `v` across the line. Returns the mean height that went, in units. */
function cutBeside(at: i32, u: f64, v: f64): i32 {
  const off: f64 = Math.abs(v);
  const inner: f64 = Math.max(0, off - e);
  const w2: f64 = r2 - off * off;
  const half: f64 = w2 > 0 ? Math.sqrt(w2) : 0;
  // where it touches first the ball's ends are lower: `sweepBall` cuts those
  const touch: f64 = u - lean * half;
  if (touch < -tiny || touch > length + tiny) return 0;
  const floor: i32 = floorAt(at);
  const top: i32 = topAt(at);
  let z: i32 = top;
  if (w2 > 0) {
    const height: f64 = centre0 + heightUnits * (slope * u - half * tilt);
    if (height < top) z = roundInt(height);
    if (z < lowest) z = lowest;
  }
  if (floor < top) return z < top ? cutWalled(at, z) : 0;
  const level: i32 = floor > top ? floor - besideRim : top;
  const mean: i32 = floor > top ? top - sideAt(at) : top;
  const under: f64 = (centre0 + heightUnits * slope * u - level) * perTilt;
  const rim2: f64 = r2 - under * under;
  const outer: f64 = off + e;
  if (off * off < gentle2 && outer * outer < rim2 && z <= mean) return cutWhole(at, z, mean);
  if (inner * inner >= rim2) return 0;
  return keepLevel(at, z, level, mean, least(mean, level - lostBeside(off, under, rim2)));
}

/** The groove takes all that is level in the cell. */
function cutWhole(at: i32, z: i32, mean: i32): i32 {
  setFloor(at, z + roundCut);
  setTop(at, z);
  return mean - z;
}

/** The cell stands at `z` in its centre, at `level` beside the groove, at `left` in the mean. */
function keepLevel(at: i32, z: i32, level: i32, mean: i32, left: i32): i32 {
  let now: i32 = left;
  if (now < lowest) now = lowest;
  if (z - now > sideUnits) now = z - sideUnits;
  else if (now - z > sideUnits) now = z + sideUnits;
  setFloor(at, level + besideRim);
  setTop(at, z);
  setSide(at, z - now);
  return mean - now;
}

function cutWalled(at: i32, z: i32): i32 {
  const cut: i32 = mergeCell(at, z, -sideUnits);
  if (floorAt(at) === topAt(at)) setFloor(at, topAt(at) + roundCut);
  return cut;
}

/**
 * Mean height that a groove takes from the level metal of a cell `off` mm from its axis, in units; the axis lies `under` mm over the metal,
 * along the ball's steepness. Gauss's rule with three points over the part that is cut.
 */
function lostBeside(off: f64, under: f64, rim2: f64): i32 {
  const rim: f64 = Math.sqrt(rim2);
  const to: f64 = Math.min(off + e, rim);
  const from: f64 = Math.max(off - e, -rim);
  const middle: f64 = (to + from) / 2;
  const away: f64 = (to - from) * 0.3872983346207417;
  const a: f64 = middle - away;
  const b: f64 = middle + away;
  const roots: f64 =
    5 * (Math.sqrt(r2 - a * a) + Math.sqrt(r2 - b * b)) + 8 * Math.sqrt(r2 - middle * middle);
  return roundInt(((to - from) * (roots / 18 - under) * tilt * heightUnits) / (2 * e));
}
