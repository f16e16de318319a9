/** Cutting the cells of one row, four at once: see `server/src/stock/kernel/walls.ts`, which is the same a cell after the other. */
import { mergeCell, sideUnits } from './cells.ts';
import { cx, cy, ox, perX, w } from './field.ts';
import { firstOver, floors, fourAt, sides, tops } from './memory.ts';

export let rowSum: i32 = 0;
export let rowDeepest: i32 = 0;
export let rowFirst: i32 = 0;
export let rowLast: i32 = -1;

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
let dy0: f64 = 0;
let dy1: f64 = 0;

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
  perSide = <f64>sideUnits / (cx * Math.abs(uy) + cy * Math.abs(ux));
  z = under;
}

export function beginRow(first: i32, y: f64): void {
  row = first;
  dy0 = y - y0;
  dy1 = y - y1;
  rowSum = 0;
  rowDeepest = 0;
  rowFirst = 0x7fff_ffff;
  rowLast = -1;
}

export function cutWalls(first: i32, last: i32): void {
  cutSpan(first, last, false);
}

export function cutWhole(first: i32, last: i32): void {
  cutSpan(first, last, true);
}

/** One loop with everything in it: calls between its parts would cost as much as the work. */
function cutSpan(first: i32, last: i32, wholly: bool): void {
  const under = i32x4.splat(z);
  const ends = i32x4.splat(last);
  const owned = i32x4.splat(w);
  const full = i32x4.splat(-sideUnits);
  const none = i32x4.splat(sideUnits);
  const half = i32x4.splat(sideUnits >> 1);
  const zero = i32x4.splat(0);
  const magic = f64x2.splat(6_755_399_441_055_744.0);
  const share = f64x2.splat(0.00006103515625);
  let sum = zero;
  let deepest = zero;
  for (let i = first; i <= last; i += 4) {
    const cell = <usize>(row + i);
    const top = v128.load(tops + (cell << 2));
    const lanes = i32x4.add(i32x4.splat(i), i32x4(0, 1, 2, 3));
    const over = v128.and(i32x4.gt_s(top, under), i32x4.le_s(lanes, ends));
    if (!v128.any_true(over)) {
      if (wholly) i = firstOver(row + i, row + last, z) - row - 4;
      continue;
    }
    let side = full;
    if (!wholly) {
      const cellX = f64x2.splat(cx);
      const xA = f64x2.add(f64x2.splat(ox), f64x2.mul(f64x2.convert_low_i32x4_s(lanes), cellX));
      const xB = f64x2.add(
        f64x2.splat(ox),
        f64x2.mul(f64x2.convert_low_i32x4_s(v128.shuffle<i32>(lanes, lanes, 2, 3, 2, 3)), cellX),
      );
      const fromA = f64x2.sub(xA, f64x2.splat(x0));
      const fromB = f64x2.sub(xB, f64x2.splat(x0));
      const ux = f64x2.splat(dirX);
      const ahead = f64x2.splat(dy0 * dirY);
      const alongA = f64x2.add(f64x2.mul(fromA, ux), ahead);
      const alongB = f64x2.add(f64x2.mul(fromB, ux), ahead);
      const still = f64x2.splat(0);
      const long = f64x2.splat(length);
      const beforeA = f64x2.le(alongA, still);
      const beforeB = f64x2.le(alongB, still);
      const besideA = v128.andnot(f64x2.lt(alongA, long), beforeA);
      const besideB = v128.andnot(f64x2.lt(alongB, long), beforeB);
      const beside = v128.shuffle<i32>(besideA, besideB, 0, 2, 4, 6);
      const r = f32x4.splat(<f32>radius);
      side = f32x4.splat(0);
      if (!i32x4.all_true(beside)) {
        const dxA = v128.bitselect(fromA, f64x2.sub(xA, f64x2.splat(x1)), beforeA);
        const dxB = v128.bitselect(fromB, f64x2.sub(xB, f64x2.splat(x1)), beforeB);
        const dyA = v128.bitselect(f64x2.splat(dy0), f64x2.splat(dy1), beforeA);
        const dyB = v128.bitselect(f64x2.splat(dy0), f64x2.splat(dy1), beforeB);
        const squareA = f64x2.add(f64x2.mul(dxA, dxA), f64x2.mul(dyA, dyA));
        const squareB = f64x2.add(f64x2.mul(dxB, dxB), f64x2.mul(dyB, dyB));
        const r2 = f64x2.splat(radius * radius);
        const over2 = singles(f64x2.sub(squareA, r2), f64x2.sub(squareB, r2));
        const distance = f32x4.sqrt(singles(squareA, squareB));
        const across = f32x4.add(
          f32x4.mul(f32x4.splat(<f32>cx), f32x4.abs(singles(dxA, dxB))),
          f32x4.mul(f32x4.splat(<f32>cy), f32x4.abs(singles(dyA, dyB))),
        );
        const part = f32x4.mul(f32x4.mul(f32x4.splat(<f32>sideUnits), over2), distance);
        const round = f32x4.div(part, f32x4.mul(f32x4.add(distance, r), across));
        const centre = f32x4.splat(<f32>(-radius * perX * <f64>sideUnits));
        side = v128.bitselect(round, centre, f32x4.gt(across, f32x4.splat(0)));
      }
      if (v128.any_true(beside)) {
        const uy = f64x2.splat(dirY);
        const aside = f64x2.splat(dy0 * dirX);
        const out = f64x2.splat(radius);
        const outA = f64x2.sub(f64x2.abs(f64x2.sub(f64x2.mul(fromA, uy), aside)), out);
        const outB = f64x2.sub(f64x2.abs(f64x2.sub(f64x2.mul(fromB, uy), aside)), out);
        const straight = f32x4.mul(singles(outA, outB), f32x4.splat(<f32>perSide));
        side = v128.bitselect(straight, side, beside);
      }
      const held = f32x4.pmax(f32x4.pmin(side, f32x4.splat(<f32>sideUnits)), f32x4.splat(-(<f32>sideUnits)));
      // the low bits of the number once 1.5 x 2^23 is added
      side = i32x4.sub(f32x4.add(held, f32x4.splat(12_582_912)), i32x4.splat(0x4b40_0000));
    }
    const floor = v128.load(floors + (cell << 2));
    const was = v128.load_ext<i16>(sides + (cell << 1));
    const plain = i32x4.eq(floor, top);
    const old = v128.bitselect(none, was, plain);
    const whole = i32x4.le_s(side, full);
    const known = v128.or(plain, i32x4.eq(floor, under));
    const change = v128.and(v128.and(over, known), v128.or(whole, i32x4.lt_s(side, old)));
    if (v128.any_true(change)) {
      const height = i32x4.sub(top, under);
      const now = i32x4.max_s(zero, i32x4.min_s(none, i32x4.sub(half, side)));
      const gone = i32x4.max_s(zero, i32x4.min_s(none, i32x4.sub(half, old)));
      const heightA = f64x2.mul(f64x2.convert_low_i32x4_s(height), share);
      const heightB = f64x2.mul(
        f64x2.convert_low_i32x4_s(v128.shuffle<i32>(height, height, 2, 3, 2, 3)),
        share,
      );
      const nowB = v128.shuffle<i32>(now, now, 2, 3, 2, 3);
      const goneB = v128.shuffle<i32>(gone, gone, 2, 3, 2, 3);
      const cutNow = v128.shuffle<i32>(
        f64x2.add(f64x2.mul(heightA, f64x2.convert_low_i32x4_s(now)), magic),
        f64x2.add(f64x2.mul(heightB, f64x2.convert_low_i32x4_s(nowB)), magic),
        0,
        2,
        4,
        6,
      );
      const cutGone = v128.shuffle<i32>(
        f64x2.add(f64x2.mul(heightA, f64x2.convert_low_i32x4_s(gone)), magic),
        f64x2.add(f64x2.mul(heightB, f64x2.convert_low_i32x4_s(goneB)), magic),
        0,
        2,
        4,
        6,
      );
      const cut = v128.and(i32x4.sub(cutNow, cutGone), change);
      v128.store(floors + (cell << 2), v128.bitselect(under, floor, change));
      v128.store(tops + (cell << 2), v128.bitselect(under, top, v128.and(change, whole)));
      const kept = v128.bitselect(side, was, v128.andnot(change, whole));
      store<i64>(sides + (cell << 1), i64x2.extract_lane(i16x8.narrow_i32x4_s(kept, kept), 0));
      const bits = i32x4.bitmask(i32x4.gt_s(cut, zero));
      if (bits !== 0) {
        rowFirst = min(rowFirst, i + ctz(bits));
        rowLast = max(rowLast, i + 31 - clz(bits));
      }
      deepest = i32x4.max_s(deepest, cut);
      sum = i32x4.add(sum, v128.and(cut, i32x4.lt_s(lanes, owned)));
    }
    const other = i32x4.bitmask(v128.andnot(over, known));
    if (other !== 0) mergeOthers(i, other, side);
  }
  const sums = i32x4.add(sum, v128.shuffle<i32>(sum, sum, 2, 3, 0, 1));
  rowSum += i32x4.extract_lane(sums, 0) + i32x4.extract_lane(sums, 1);
  const most = i32x4.max_s(deepest, v128.shuffle<i32>(deepest, deepest, 2, 3, 0, 1));
  rowDeepest = max(rowDeepest, max(i32x4.extract_lane(most, 0), i32x4.extract_lane(most, 1)));
}

/** The cells of `which` that hold other heights, one after the other. */
function mergeOthers(i: i32, which: i32, at16: v128): void {
  v128.store(fourAt, at16);
  for (let bits = which; bits !== 0; bits &= bits - 1) {
    const lane = ctz(bits);
    const cut = mergeCell(row + i + lane, z, load<i32>(fourAt + ((<usize>lane) << 2)));
    if (i + lane < w) rowSum += cut;
    if (cut <= 0) continue;
    if (cut > rowDeepest) rowDeepest = cut;
    if (i + lane < rowFirst) rowFirst = i + lane;
    if (i + lane > rowLast) rowLast = i + lane;
  }
}

/** Two and two numbers as four of single precision. */
function singles(a: v128, b: v128): v128 {
  return v128.shuffle<i32>(f32x4.demote_f64x2_zero(a), f32x4.demote_f64x2_zero(b), 0, 1, 4, 5);
}
