/** The tile in work: its measures, its bounds. */
import { blockAgeAt, blockTopAt, fillTile, highestOf, roundInt, setBlockAge, setBlockTop } from './memory.ts';

export let cx: f64 = 1;
export let cy: f64 = 1;
export let perX: f64 = 1;
export let perY: f64 = 1;
/** Bottom and top of the uncut block, in units. */
export let lowest: i32 = 0;
export let uncut: i32 = 0;
export let w: i32 = 0;
export let h: i32 = 0;
export let nw: i32 = 0;
export let nh: i32 = 0;
export let ox: f64 = 0;
export let oy: f64 = 0;
export let xLow: f64 = 0;
export let xHigh: f64 = 0;
export let yLow: f64 = 0;
export let yHigh: f64 = 0;
/** Cells were made; until then the tile is as high as the block. */
export let filled: bool = false;
let blocksX: i32 = 0;

/** Cuts near a block after which its bound is looked up again. */
const renewEvery: i32 = 32;

export function setGrid(cellX: f64, cellY: f64, low: i32, high: i32): void {
  cx = cellX;
  cy = cellY;
  perX = 1 / cellX;
  perY = 1 / cellY;
  lowest = low;
  uncut = high;
}

/** The measures of `Tile` with the same names. */
export function setTile(
  isFilled: bool,
  ownW: i32,
  ownH: i32,
  heldW: i32,
  heldH: i32,
  atX: f64,
  atY: f64,
  fromX: f64,
  toX: f64,
  fromY: f64,
  toY: f64,
): void {
  filled = isFilled;
  w = ownW;
  h = ownH;
  nw = heldW;
  nh = heldH;
  blocksX = (nw + 15) >> 4;
  ox = atX;
  oy = atY;
  xLow = fromX;
  xHigh = toX;
  yLow = fromY;
  yHigh = toY;
}

export function least(a: i32, b: i32): i32 {
  return a < b ? a : b;
}
export function most(a: i32, b: i32): i32 {
  return a > b ? a : b;
}

/** Makes the cells of the tile when they are not there yet. */
export function needCells(): void {
  if (filled) return;
  fillTile();
  filled = true;
}

/** Does the region of the tile hold the point; regions of all tiles together hold every point of the stock once. */
export function holds(x: f64, y: f64): bool {
  return x >= xLow && x < xHigh && y >= yLow && y < yHigh;
}

/** Highest metal that may stand in the box, in units; an upper bound, very low when the box misses the tile. */
export function boundIn(x0: f64, x1: f64, y0: f64, y1: f64): i32 {
  const bi0: i32 = most(0, roundInt((x0 - ox) * perX - 1)) >> 4;
  const bi1: i32 = least(nw - 1, roundInt((x1 - ox) * perX + 2)) >> 4;
  const bj0: i32 = most(0, roundInt((y0 - oy) * perY - 1)) >> 4;
  const bj1: i32 = least(nh - 1, roundInt((y1 - oy) * perY + 2)) >> 4;
  let bound: i32 = -0x7fff_ffff;
  for (let bj: i32 = bj0; bj <= bj1; bj++) {
    for (let bi: i32 = bi0; bi <= bi1; bi++) {
      const value: i32 = blockTopAt(bj * blocksX + bi);
      if (value > bound) bound = value;
    }
  }
  return bound;
}

/** The same for columns `first` to `last` of one row of blocks. */
export function boundInRow(bj: i32, first: i32, last: i32): i32 {
  let bound: i32 = -0x7fff_ffff;
  const to: i32 = bj * blocksX + (last >> 4);
  for (let at: i32 = bj * blocksX + (first >> 4); at <= to; at++) {
    const value: i32 = blockTopAt(at);
    if (value > bound) bound = value;
  }
  return bound;
}

/** Notes that cells in the box were cut; bounds are renewed now and then. */
export function cutIn(x0: f64, x1: f64, y0: f64, y1: f64): void {
  const bi0: i32 = most(0, roundInt((x0 - ox) * perX)) >> 4;
  const bi1: i32 = least(nw - 1, roundInt((x1 - ox) * perX + 1)) >> 4;
  const bj0: i32 = most(0, roundInt((y0 - oy) * perY)) >> 4;
  const bj1: i32 = least(nh - 1, roundInt((y1 - oy) * perY + 1)) >> 4;
  for (let bj: i32 = bj0; bj <= bj1; bj++) {
    for (let bi: i32 = bi0; bi <= bi1; bi++) {
      const block: i32 = bj * blocksX + bi;
      const age: i32 = blockAgeAt(block) + 1;
      if (age >= renewEvery) renewBound(bi, bj);
      else setBlockAge(block, age);
    }
  }
}

function renewBound(bi: i32, bj: i32): void {
  const iEnd: i32 = nw < (bi + 1) * 16 ? nw : (bi + 1) * 16;
  const jEnd: i32 = nh < (bj + 1) * 16 ? nh : (bj + 1) * 16;
  let bound: i32 = -0x7fff_ffff;
  for (let j: i32 = bj * 16; j < jEnd; j++) {
    bound = most(bound, highestOf(j * nw + bi * 16, j * nw + iEnd - 1));
  }
  setBlockTop(bj * blocksX + bi, bound);
  setBlockAge(bj * blocksX + bi, 0);
}
