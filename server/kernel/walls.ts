/** Cutting the cells under a flat disc, four at once: see `server/src/stock/kernel/walls.ts`, which is the same a cell after the other. */
import { mergeCell, sideUnits } from './cells.ts';
import { cx, h, nw, ox, w } from './field.ts';
import {
  dirX,
  dirY,
  fullAll,
  halfAll,
  length,
  lowAll,
  magicAll,
  noneAll,
  setMove,
  shareAll,
  singleMagicAll,
  stepsAll,
  widthAll,
  x0,
  y0,
  z,
} from './flat-move.ts';
import { placeAhead, placeAny, upper } from './flat-places.ts';
import {
  aheadFrom,
  firstOver,
  floors,
  groupBytes,
  merges,
  othersFrom,
  roomOfGroups,
  sides,
  tops,
} from './memory.ts';
import { noteDepth, noteWidth, sizesWanted } from './sizes.ts';

let row: i32 = 0;
let own: i32 = 0;
let rowY: f64 = 0;
let rise: f64 = 0;
let removed: f64 = 0;

/** Ends of the two lists of groups that wait: those which only the disc at the end of the way reaches, and all others. */
let ahead: usize = aheadFrom;
let others: usize = othersFrom;

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
  setMove(fromX, fromY, toX, toY, ux, uy, long, r, under);
  removed = 0;
}

export function beginRow(j: i32, y: f64): void {
  row = j * nw;
  own = j < h ? w : 0;
  rowY = y;
  rise = (y - y0) * dirY;
}

/**
 * Puts the cells down in groups of eight: first cell, its column, the last column that counts, columns that the tile owns in the
 * row, y of the row, which cells of each four gave some, where the wall runs in each.
 */
export function cutWalls(first: i32, last: i32): void {
  if (first > last) return;
  // how far along the way a cell lies grows or falls from cell to cell, so the two ends speak for all between
  const atFirst = (ox + <f64>first * cx - x0) * dirX + rise;
  const atLast = (ox + <f64>last * cx - x0) * dirX + rise;
  const least = atFirst < atLast ? atFirst : atLast;
  const isAhead = least > 0 && least >= length;
  let group = isAhead ? ahead : others;
  for (let i = first; i <= last; i += 8) {
    store<i64>(group, ((<i64>i) << 32) | <i64>(row + i));
    store<i64>(group, ((<i64>own) << 32) | <i64>last, 8);
    store<f64>(group, rowY, 16);
    group += groupBytes;
    if (group !== aheadFrom + roomOfGroups && group !== othersFrom + roomOfGroups) continue;
    if (isAhead) ahead = group;
    else others = group;
    cutGroups();
    group = isAhead ? aheadFrom : othersFrom;
  }
  if (isAhead) ahead = group;
  else others = group;
}

export function endWalls(): f64 {
  cutGroups();
  return removed;
}

function cutGroups(): void {
  placeAhead(ahead);
  placeAny(others);
  cut(aheadFrom, ahead);
  cut(othersFrom, others);
  ahead = aheadFrom;
  others = othersFrom;
}

/** One straight loop without calls and branches: what has to go to `mergeCell` waits until its end. */
function cut(begin: usize, end: usize): void {
  const zero = i32x4.splat(0);
  const low = lowAll;
  const full = fullAll;
  const none = noneAll;
  const half = halfAll;
  const magic = magicAll;
  const share = shareAll;
  const steps = stepsAll;
  const width = widthAll;
  const minusWidth = f32x4.neg(width);
  const singleMagic = singleMagicAll;
  let sum = i64x2.splat(0);
  let deepest = zero;
  let merged: usize = merges;
  for (let four = begin; four < end; four += 16) {
    const group = four & ~63;
    const next = <i32>((four & 16) >> 2);
    // the low bits of the number once 1.5 x 2^23 is added
    const held = f32x4.pmax(f32x4.pmin(v128.load(four, 32), width), minusWidth);
    const side = i32x4.sub(f32x4.add(held, singleMagic), singleMagic);
    const cell = <usize>(load<i32>(group) + next);
    const lanes = i32x4.add(i32x4.splat(load<i32>(group, 4) + next), steps);
    const top = v128.load(tops + (cell << 2));
    const floor = v128.load(floors + (cell << 2));
    const was = v128.load_ext<i16>(sides + (cell << 1));
    const over = v128.andnot(i32x4.gt_s(top, low), i32x4.gt_s(lanes, v128.load32_splat(group, 8)));
    const plain = i32x4.eq(floor, top);
    const known = v128.or(plain, i32x4.eq(floor, low));
    const old = v128.bitselect(none, was, plain);
    const height = i32x4.sub(top, low);
    const now = i32x4.max_s(zero, i32x4.min_s(none, i32x4.sub(half, side)));
    const gone = i32x4.max_s(zero, i32x4.min_s(none, i32x4.sub(half, old)));
    const heightA = f64x2.mul(f64x2.convert_low_i32x4_s(height), share);
    const heightB = f64x2.mul(f64x2.convert_low_i32x4_s(upper(height)), share);
    const cutNow = wholeNumbers(
      f64x2.add(f64x2.mul(heightA, f64x2.convert_low_i32x4_s(now)), magic),
      f64x2.add(f64x2.mul(heightB, f64x2.convert_low_i32x4_s(upper(now))), magic),
    );
    const cutGone = wholeNumbers(
      f64x2.add(f64x2.mul(heightA, f64x2.convert_low_i32x4_s(gone)), magic),
      f64x2.add(f64x2.mul(heightB, f64x2.convert_low_i32x4_s(upper(gone))), magic),
    );
    const whole = i32x4.eq(side, full);
    const change = v128.and(v128.and(over, known), v128.or(whole, i32x4.lt_s(side, old)));
    const gave = v128.and(i32x4.sub(cutNow, cutGone), change);
    store<i32>(group + <usize>next, i32x4.bitmask(i32x4.gt_s(gave, zero)), 24);
    deepest = i32x4.max_s(deepest, gave);
    const owned = v128.and(gave, i32x4.gt_s(v128.load32_splat(group, 12), lanes));
    sum = i64x2.add(sum, i64x2.add(i64x2.extend_low_i32x4_s(owned), i64x2.extend_high_i32x4_s(owned)));
    v128.store(floors + (cell << 2), v128.bitselect(low, floor, change));
    v128.store(tops + (cell << 2), v128.bitselect(low, top, v128.and(change, whole)));
    const kept = v128.bitselect(side, was, v128.andnot(change, whole));
    store<i64>(sides + (cell << 1), i64x2.extract_lane(i16x8.narrow_i32x4_s(kept, kept), 0));
    // a place is filled each time and kept only where some cell needs it
    const other = i32x4.bitmask(v128.andnot(over, known));
    v128.store(four, side, 32);
    store<i32>(merged, <i32>four);
    store<i32>(merged, other, 4);
    merged += (<usize>(other !== 0)) << 3;
    four += (four & 16) << 1;
  }
  removed += <f64>(i64x2.extract_lane(sum, 0) + i64x2.extract_lane(sum, 1));
  mergeOthers(merged);
  if (sizesWanted) noteSizes(begin, end, deepest);
}

/** The fours up to `end` with cells that hold other heights. */
function mergeOthers(end: usize): void {
  for (let at = merges; at < end; at += 8) {
    const four = <usize>load<i32>(at);
    const group = four & ~63;
    const next = <i32>((four & 16) >> 2);
    for (let bits = load<i32>(at, 4); bits !== 0; bits &= bits - 1) {
      const lane = ctz(bits);
      const gave = mergeCell(load<i32>(group) + next + lane, z, load<i32>(four + ((<usize>lane) << 2), 32));
      if (load<i32>(group, 4) + next + lane < load<i32>(group, 12)) removed += gave;
      if (gave <= 0) continue;
      noteDepth(gave);
      store<i32>(group + <usize>next, load<i32>(group + <usize>next, 24) | (1 << lane), 24);
    }
  }
}

function noteSizes(begin: usize, end: usize, deepest: v128): void {
  const most = i32x4.max_s(deepest, upper(deepest));
  noteDepth(max(i32x4.extract_lane(most, 0), i32x4.extract_lane(most, 1)));
  for (let group = begin; group < end; group += groupBytes) {
    const bits = load<i32>(group, 24) | (load<i32>(group, 28) << 4);
    if (bits === 0) continue;
    const y = load<f64>(group, 16);
    noteWidth(load<i32>(group, 4) + ctz(bits), y);
    noteWidth(load<i32>(group, 4) + 31 - clz(bits), y);
  }
}

export function cutWhole(first: i32, last: i32): void {
  let sum = i64x2.splat(0);
  let from = -1;
  let to = -1;
  for (let i = firstOver(row + first, row + last, z) - row; i <= last; i += 4) {
    const cell = <usize>(row + i);
    const top = v128.load(tops + (cell << 2));
    const floor = v128.load(floors + (cell << 2));
    const lanes = i32x4.add(i32x4.splat(i), stepsAll);
    const over = v128.andnot(i32x4.gt_s(top, lowAll), i32x4.gt_s(lanes, i32x4.splat(last)));
    const plain = v128.and(over, i32x4.eq(floor, top));
    v128.store(floors + (cell << 2), v128.bitselect(lowAll, floor, plain));
    v128.store(tops + (cell << 2), v128.bitselect(lowAll, top, plain));
    const gave = v128.and(i32x4.sub(top, lowAll), plain);
    const owned = v128.and(gave, i32x4.lt_s(lanes, i32x4.splat(own)));
    sum = i64x2.add(sum, i64x2.add(i64x2.extend_low_i32x4_s(owned), i64x2.extend_high_i32x4_s(owned)));
    let bits = i32x4.bitmask(plain);
    for (let others = i32x4.bitmask(v128.andnot(over, plain)); others !== 0; others &= others - 1) {
      const lane = ctz(others);
      const cut = mergeCell(row + i + lane, z, -sideUnits);
      if (i + lane < own) removed += cut;
      if (cut <= 0) continue;
      noteDepth(cut);
      bits |= 1 << lane;
    }
    if (!sizesWanted || bits === 0) continue;
    if (from < 0) from = i + ctz(bits);
    to = i + 31 - clz(bits);
    const most = i32x4.max_s(gave, upper(gave));
    noteDepth(max(i32x4.extract_lane(most, 0), i32x4.extract_lane(most, 1)));
  }
  removed += <f64>(i64x2.extract_lane(sum, 0) + i64x2.extract_lane(sum, 1));
  if (from < 0) return;
  noteWidth(from, rowY);
  noteWidth(to, rowY);
}

/** The low bits of two and two. */
function wholeNumbers(a: v128, b: v128): v128 {
  return v128.shuffle<i32>(a, b, 0, 2, 4, 6);
}
