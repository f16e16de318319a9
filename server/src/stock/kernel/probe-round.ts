/** Reading the height field between cell centres where a round or pointed tool stands. */
import { heightUnits } from './cells.ts';
import { cx, cy, nh, nw, perX, perY } from './field.ts';
import { topAt } from './memory.ts';
import { sz } from './place.ts';
import { radiusAt } from './tool.ts';

/** Steps to the neighbours on the low side, and whether the cells beyond are held. */
let stepX: i32 = 0;
let stepY: i32 = 0;
let beforeX: bool = false;
let afterX: bool = false;
let beforeY: bool = false;
let afterY: bool = false;

/**
 * Distance in cells, positive in metal, of a place from the metal's edge at height `z` (units). The place lies at parts `fu` and `fv` of the
 * way from the centre of cell `a` (column `i`, row `j`) to that of the next column and row; the four cells have no walls.
 *
 * Not the heights are interpolated but the radius that the tool has at them: where the same tool went by at the same height that is straight.
 * Where its groove meets the metal's upper side between two cells, the higher one is taken to stand where the groove's face would
 * go on: the cell tells only that the metal ends there.
 */
export function roundAt(a: i32, i: i32, j: i32, z: f64, fu: f64, fv: f64): f64 {
  const b: i32 = a + 1;
  const c: i32 = a + nw;
  const d: i32 = c + 1;
  const overA: bool = topAt(a) > z;
  const overB: bool = topAt(b) > z;
  const overC: bool = topAt(c) > z;
  const overD: bool = topAt(d) > z;
  const ra: f64 = radiusOf(a);
  const rb: f64 = radiusOf(b);
  const rc: f64 = radiusOf(c);
  const rd: f64 = radiusOf(d);
  let ga: f64 = ra;
  let gb: f64 = rb;
  let gc: f64 = rc;
  let gd: f64 = rd;
  const west: bool = i > 0;
  const east: bool = i < nw - 2;
  const south: bool = j > 0;
  const north: bool = j < nh - 2;
  if (overA && !(overB && overC)) {
    towards(1, nw, west, east, south, north);
    ga = faceAt(a, ra, rb, rc, rd, !overB, !overC, !overD);
  }
  if (overB && !(overA && overD)) {
    towards(-1, nw, east, west, south, north);
    gb = faceAt(b, rb, ra, rd, rc, !overA, !overD, !overC);
  }
  if (overC && !(overA && overD)) {
    towards(1, -nw, west, east, north, south);
    gc = faceAt(c, rc, rd, ra, rb, !overD, !overA, !overB);
  }
  if (overD && !(overB && overC)) {
    towards(-1, -nw, east, west, north, south);
    gd = faceAt(d, rd, rc, rb, ra, !overC, !overB, !overA);
  }
  // a corner with two high neighbours goes on in their plane
  if (overA && overB && overC) ga = Math.max(ga, gb + gc - gd);
  else if (overA && overB && overD) gb = Math.max(gb, ga + gd - gc);
  else if (overA && overC && overD) gc = Math.max(gc, ga + gd - gb);
  else if (overB && overC && overD) gd = Math.max(gd, gb + gc - ga);
  const low: f64 = ga + (gb - ga) * fu;
  return (low + (gc + (gd - gc) * fu - low) * fv - radiusAt(z / heightUnits - sz)) * perX;
}

/** Radius of the tool, its tip where it is, at the height of a cell. */
function radiusOf(cell: i32): f64 {
  return radiusAt(topAt(cell) / heightUnits - sz);
}

function towards(x: i32, y: i32, backX: bool, onX: bool, backY: bool, onY: bool): void {
  stepX = x;
  stepY = y;
  beforeX = backX;
  afterX = onX;
  beforeY = backY;
  afterY = onY;
}

/** The radius at a high corner, `cell`, as the face beside it would have it; x, y and diagonal are the other three corners. */
function faceAt(
  cell: i32,
  r: f64,
  rx: f64,
  ry: f64,
  diagonal: f64,
  lowX: bool,
  lowY: bool,
  lowDiagonal: bool,
): f64 {
  if (!lowY) return goneOn(cell, stepX, r, rx, beforeX, afterX, cx, lowDiagonal, (diagonal - rx) * perY);
  const byY: f64 = goneOn(cell, stepY, r, ry, beforeY, afterY, cy, lowDiagonal, (diagonal - ry) * perX);
  if (!lowX || byY <= r) return byY;
  // where two faces meet in a corner the nearer one ends the metal
  return Math.min(byY, goneOn(cell, stepX, r, rx, beforeX, afterX, cx, lowDiagonal, (diagonal - rx) * perY));
}

/** The same along one axis: `high` itself where nothing says that the face ends between the two cells. */
function goneOn(
  cell: i32,
  step: i32,
  high: f64,
  low: f64,
  before: bool,
  after: bool,
  size: f64,
  sideKnown: bool,
  across: f64,
): f64 {
  const rise: f64 = high - low;
  if (before && topAt(cell - step) > topAt(cell) && radiusOf(cell - step) - high > rise / 4) return high;
  let slope: f64 = 0;
  if (after) slope = low - radiusOf(cell + 2 * step);
  // the face of the same tool at the same height gains a millimetre a millimetre
  else if (sideKnown && across * across < 1) slope = size * Math.sqrt(1 - across * across);
  if (slope <= rise || (!before && slope < 1.5 * rise)) return high;
  return low + slope;
}
