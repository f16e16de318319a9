/** Depth and width of what one call cut, read from its cells; only when asked for, which the bench does. */
import { heightUnits } from './cells.ts';
import { cx, cy, ox, oy } from './field.ts';

export let sizesWanted: bool = false;
let deepest: i32 = 0;
let leftmost: f64 = 1e9;
let rightmost: f64 = -1e9;
let dirX: f64 = 1;
let dirY: f64 = 0;

export function wantSizes(wanted: bool): void {
  sizesWanted = wanted;
}

/** Forgets the last call; the width is measured across (feedX, feedY). */
export function beginSizes(feedX: f64, feedY: f64): void {
  deepest = 0;
  leftmost = 1e9;
  rightmost = -1e9;
  dirX = feedX;
  dirY = feedY;
}

/** Notes that `cut` units of height went from cell (i, j). */
export function noteCut(i: i32, j: i32, cut: i32): void {
  if (cut <= 0) return;
  noteDepth(cut);
  noteWidth(i, oy + j * cy);
}

/** Notes the height that went from a cell. */
export function noteDepth(cut: i32): void {
  if (cut > deepest) deepest = cut;
}

/** Notes that the cell of column `i` in the row at `y` gave some. */
export function noteWidth(i: i32, y: f64): void {
  const across: f64 = y * dirX - (ox + i * cx) * dirY;
  if (across < leftmost) leftmost = across;
  if (across > rightmost) rightmost = across;
}

/** Greatest height taken from a cell, mm. */
export function depthCut(): f64 {
  return deepest / heightUnits;
}

/** Width of the cells cut across the feed, mm; 0 when none was. */
export function widthCut(): f64 {
  return rightmost < leftmost ? 0 : rightmost - leftmost + cx;
}
