/**
 * Cutting the cells under a flat disc that moves level. This is the plain form, a cell after the other;
 * `server/kernel/walls.ts` is the same with four at once.
 */
import { cutHeight, mergeCell, sideUnits } from './cells.ts';
import { cx, cy, h, nw, ox, perX, w } from './field.ts';
import {
  firstOver,
  floorAt,
  roundInt,
  setFloor,
  setSide,
  setTop,
  sideAt,
  topAt,
  toSingle,
} from './memory.ts';
import { noteDepth, noteWidth, sizesWanted } from './sizes.ts';

let x0: f64 = 0;
let y0: f64 = 0;
let x1: f64 = 0;
let y1: f64 = 0;
let dirX: f64 = 0;
let dirY: f64 = 0;
let length: f64 = 0;
let radius: f64 = 0;
let perSide: f64 = 0;
let z: i32 = 0;
let row: i32 = 0;
let own: i32 = 0;
let rowY: f64 = 0;
let dy0: f64 = 0;
let dy1: f64 = 0;
let removed: f64 = 0;

/** The move whose cells are cut: from (fromX, fromY) to (toX, toY), its underside at height `under`. */
export function setWalls(
  fromX: f64,
  fromY: f64,
  toX: f64,
  toY: f64,
  ux: f64,
  uy: f64,
  long: f64,
  r: f64,
  under: i32,
): void {
  x0 = fromX;
  y0 = fromY;
  x1 = toX;
  y1 = toY;
  dirX = ux;
  dirY = uy;
  length = long;
  radius = r;
  perSide = sideUnits / (cx * Math.abs(uy) + cy * Math.abs(ux));
  z = under;
  removed = 0;
}

/** Row `j`, whose centres lie at `y`. */
export function beginRow(j: i32, y: f64): void {
  row = j * nw;
  own = j < h ? w : 0;
  rowY = y;
  dy0 = y - y0;
  dy1 = y - y1;
}

/** Cuts columns `first` to `last` where the side of the disc may run. */
export function cutWalls(first: i32, last: i32): void {
  const width: f64 = sideUnits;
  for (let i: i32 = first; i <= last; i++) {
    const at: i32 = row + i;
    if (topAt(at) <= z) continue;
    const x: f64 = ox + i * cx;
    const dx0: f64 = x - x0;
    const along: f64 = dx0 * dirX + dy0 * dirY;
    let side: f64 = 0;
    if (along > 0 && along < length) {
      side = toSingle(toSingle(Math.abs(dx0 * dirY - dy0 * dirX) - radius) * toSingle(perSide));
    } else {
      side = roundSide(along <= 0 ? dx0 : x - x1, along <= 0 ? dy0 : dy1);
    }
    cutCell(i, roundInt(Math.max(-width, Math.min(width, side))));
  }
}

/**
 * Place of the wall of a disc in a cell whose centre is (dx, dy) from the disc's, in units of `side`: distance less radius is the
 * difference of their squares over their sum, so single precision will do once the squares are subtracted.
 */
function roundSide(dx: f64, dy: f64): f64 {
  const width: f64 = sideUnits;
  const square: f64 = dx * dx + dy * dy;
  const over2: f64 = toSingle(square - radius * radius);
  const distance: f64 = toSingle(Math.sqrt(toSingle(square)));
  const across: f64 = toSingle(
    toSingle(toSingle(cx) * Math.abs(toSingle(dx))) + toSingle(toSingle(cy) * Math.abs(toSingle(dy))),
  );
  if (across <= 0) return toSingle(-radius * perX * width);
  const part: f64 = toSingle(toSingle(width * over2) * distance);
  return toSingle(part / toSingle(toSingle(distance + toSingle(radius)) * across));
}

/** Cuts columns `first` to `last`, which lie wholly under the disc. */
export function cutWhole(first: i32, last: i32): void {
  for (let at: i32 = firstOver(row + first, row + last, z); at <= row + last; ) {
    cutCell(at - row, -sideUnits);
    at = firstOver(at + 1, row + last, z);
  }
}

/** Cuts a cell that stands over the disc's underside, on the side of a wall at `side`. */
function cutCell(i: i32, side: i32): void {
  const at: i32 = row + i;
  const top: i32 = topAt(at);
  const floor: i32 = floorAt(at);
  let cut: i32 = 0;
  // the common cases of `mergeCell`, in place: no wall yet, and this very floor
  if (floor === top || floor === z) {
    const old: i32 = floor === top ? sideUnits : sideAt(at);
    if (side > -sideUnits) {
      if (side >= old) return;
      setSide(at, side);
    } else {
      setTop(at, z);
    }
    setFloor(at, z);
    cut = cutHeight(top - z, side) - cutHeight(top - z, old);
  } else {
    cut = mergeCell(at, z, side);
  }
  if (i < own) removed += cut;
  if (sizesWanted && cut > 0) {
    noteDepth(cut);
    noteWidth(i, rowY);
  }
}

/** The height that went since `setWalls`, in units, from cells that the tile owns. */
export function endWalls(): f64 {
  return removed;
}
