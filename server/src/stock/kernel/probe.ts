/** Reading the height field between cell centres. */
import { heightUnits, sideUnits } from './cells.ts';
import { filled, least, most, nh, nw, ox, oy, perX, perY, uncut } from './field.ts';
import { floorAt, roundInt, sideAt, topAt } from './memory.ts';
import { roundAt } from './probe-round.ts';
import { shape, shapeFlat } from './tool.ts';

/** Greatest height, in units, of the metal round the places that stood in metal since `forget`. */
export let seenTop: i32 = 0;
/** A wall ran through a cell next to such a place: `seenTop` may be the wall's, not the metal's. */
export let seenWall: bool = false;

export function forget(): void {
  seenTop = -0x7fff_ffff;
  seenWall = false;
}

/**
 * Is there metal at (x, y) at height `z` (units): positive inside, negative outside, zero at the edge. Between
 * cell centres bilinear; about the distance in cells near a wall. The place must lie in the region of the tile.
 */
export function metalAt(x: f64, y: f64, z: f64): f64 {
  if (!filled) {
    if (uncut > z) {
      seenTop = uncut;
      return 1;
    }
    return -1;
  }
  let u: f64 = (x - ox) * perX;
  let v: f64 = (y - oy) * perY;
  let i: i32 = roundInt(u - 0.5);
  let j: i32 = roundInt(v - 0.5);
  if (i < 0 || j < 0 || i > nw - 2 || j > nh - 2) {
    // half a cell at the edge of the block has no centre beyond it
    i = most(0, least(nw - 2, i));
    j = most(0, least(nh - 2, j));
    u = Math.max(0, Math.min(nw - 1, u));
    v = Math.max(0, Math.min(nh - 1, v));
  }
  const a: i32 = j * nw + i;
  const c: i32 = a + nw;
  const ta: i32 = topAt(a);
  const tb: i32 = topAt(a + 1);
  const tc: i32 = topAt(c);
  const td: i32 = topAt(c + 1);
  const ab: i32 = ta > tb ? ta : tb;
  const cd: i32 = tc > td ? tc : td;
  const highest: i32 = ab > cd ? ab : cd;
  if (highest <= z) return -1;
  const fa: i32 = floorAt(a);
  const fb: i32 = floorAt(a + 1);
  const fc: i32 = floorAt(c);
  const fd: i32 = floorAt(c + 1);
  const plain: bool = fa >= ta && fb >= tb && fc >= tc && fd >= td;
  let answer: f64 = 1;
  if (!(fa > z && fb > z && fc > z && fd > z && ta > z && tb > z && tc > z && td > z)) {
    const fu: f64 = u - i;
    const fv: f64 = v - j;
    if (plain && shape !== shapeFlat) {
      answer = roundAt(a, i, j, z, fu, fv);
    } else if (plain) {
      const lowAB: i32 = ta < tb ? ta : tb;
      const lowCD: i32 = tc < td ? tc : td;
      const lowest: i32 = lowAB < lowCD ? lowAB : lowCD;
      const span: f64 = highest - lowest;
      const low: f64 = ta + (tb - ta) * fu;
      answer = (low + (tc + (td - tc) * fu - low) * fv - z) / span;
    } else {
      const perCell: f64 = perX / heightUnits;
      const ga: f64 = cornerOf(a, fa, ta, z, perCell);
      const gb: f64 = cornerOf(a + 1, fb, tb, z, perCell);
      const gc: f64 = cornerOf(c, fc, tc, z, perCell);
      const gd: f64 = cornerOf(c + 1, fd, td, z, perCell);
      const low: f64 = ga + (gb - ga) * fu;
      answer = low + (gc + (gd - gc) * fu - low) * fv;
    }
  }
  if (answer > 0) {
    if (highest > seenTop) seenTop = highest;
    if (!plain) seenWall = true;
  }
  return answer;
}

function cornerOf(cell: i32, floor: i32, top: i32, z: f64, perCell: f64): f64 {
  if (floor >= top || z >= top || z < floor) {
    const over: f64 = ((z >= top || floor >= top ? top : floor) - z) * perCell;
    return over >= 1 ? 1 : over <= -1 ? -1 : over;
  }
  const units: f64 = sideUnits;
  return sideAt(cell) / units;
}

/** Height in units, of the cell nearest to (x, y), at its centre: on the side of the wall where the centre lies. */
export function heightNear(x: f64, y: f64): i32 {
  if (!filled) return uncut;
  const at: i32 = nearest(x, y);
  return sideAt(at) < 0 ? least(floorAt(at), topAt(at)) : topAt(at);
}

/** Cell of the tile nearest to (x, y), which has to lie in its region. */
export function nearest(x: f64, y: f64): i32 {
  let i: i32 = roundInt((x - ox) * perX);
  let j: i32 = roundInt((y - oy) * perY);
  if (i < 0) i = 0;
  else if (i > nw - 1) i = nw - 1;
  if (j < 0) j = 0;
  else if (j > nh - 1) j = nh - 1;
  return j * nw + i;
}
