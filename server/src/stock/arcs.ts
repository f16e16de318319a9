/** Which part of a circle round the tool stands in metal. */
import { holds, metalAt, seen } from './probe.ts';
import type { Tile } from './tile.ts';

/** Sum over the arcs found by `readArcs`, angles in rad from the feed direction, left positive. */
export const found = {
  arc: 0,
  least: 0,
  most: 0,
  /** Extent across the feed, mm. */
  width: 0,
  /** Part of the arc right of the feed, where a clockwise tool climbs. */
  climb: 0,
  top_mm: 0,
};

/** Arcs whose width across the feed is below this are touching, not cutting: 0.008 mm, or what the cells cannot tell on a round wall. */
function touching_mm(cell: number, rho: number): number {
  return Math.max(0.008, (cell * cell) / (4 * rho));
}

const cuts = new Float64Array(12);

/**
 * Finds the arcs of the circle (x, y, rho) within `reach` rad of the direction `feed` rad that stand in metal at height `z_mm`, as far as
 * they lie in the region of the tile. Samples at most 7.5 degrees apart, edges found to about 0.05 degrees. Ends
 * within `snap` rad of +-reach count as reaching it. The answer is in `found`.
 */
export function readArcs(
  tile: Tile,
  x: number,
  y: number,
  rho: number,
  z_mm: number,
  feed: number,
  reach: number,
  snap: number,
): void {
  found.arc = 0;
  found.width = 0;
  found.climb = 0;
  found.least = Math.PI;
  found.most = -Math.PI;
  found.top_mm = Number.NEGATIVE_INFINITY;
  if (reach <= 0) return;
  if (x - rho >= tile.xLow && x + rho < tile.xHigh && y - rho >= tile.yLow && y + rho < tile.yHigh) {
    readSpan(tile, x, y, rho, z_mm, feed, -reach, reach, reach, snap);
    return;
  }
  let count = 0;
  cuts[count++] = -reach;
  for (let edge = 0; edge < 4; edge++) {
    const cosine =
      edge === 0
        ? (tile.xLow - x) / rho
        : edge === 1
          ? (tile.xHigh - x) / rho
          : edge === 2
            ? (tile.yLow - y) / rho
            : (tile.yHigh - y) / rho;
    if (!(cosine > -1 && cosine < 1)) continue;
    const open = Math.acos(cosine);
    const middle = edge < 2 ? 0 : Math.PI / 2;
    for (let sign = -1; sign <= 1; sign += 2) {
      let angle = middle + sign * open - feed;
      angle -= 2 * Math.PI * Math.round(angle / (2 * Math.PI));
      if (angle > -reach && angle < reach) cuts[count++] = angle;
    }
  }
  cuts[count++] = reach;
  const spans = cuts.subarray(0, count).sort();
  for (let k = 0; k + 1 < spans.length; k++) {
    const from = spans[k];
    const to = spans[k + 1];
    if (to - from < 1e-9) continue;
    // not the middle: where the circle only touches an edge the middle lies on it
    const inside = feed + from + (to - from) * 0.381;
    if (holds(tile, x + rho * Math.cos(inside), y + rho * Math.sin(inside))) {
      readSpan(tile, x, y, rho, z_mm, feed, from, to, reach, snap);
    }
  }
}

function readSpan(
  tile: Tile,
  x: number,
  y: number,
  rho: number,
  z_mm: number,
  feed: number,
  from: number,
  to: number,
  reach: number,
  snap: number,
): void {
  const fine = Math.max(0.035, Math.min(0.131, (6 * tile.grid.cx) / rho));
  const steps = Math.max(1, Math.ceil((to - from) / fine));
  const step = (to - from) / steps;
  // turning by a fixed step keeps sine and cosine out of the loop
  const turnC = Math.cos(step);
  const turnS = Math.sin(step);
  let c = Math.cos(feed + from);
  let s = Math.sin(feed + from);
  let before = 0;
  let start = from;
  for (let k = 0; k <= steps; k++) {
    const value = metalAt(tile, x + rho * c, y + rho * s, z_mm);
    if (value > 0 && seen.top_mm > found.top_mm) found.top_mm = seen.top_mm;
    if (k > 0 && value > 0 !== before > 0) {
      const edge = edgeBetween(
        tile,
        x,
        y,
        rho,
        z_mm,
        feed,
        from + (k - 1) * step,
        from + k * step,
        before,
        value,
      );
      if (value > 0) start = edge;
      else close(start, edge, rho, reach, snap, tile.grid.cx, from, to);
    }
    before = value;
    const nextC = c * turnC - s * turnS;
    s = s * turnC + c * turnS;
    c = nextC;
  }
  if (before > 0) close(start, to, rho, reach, snap, tile.grid.cx, from, to);
}

function edgeBetween(
  tile: Tile,
  x: number,
  y: number,
  rho: number,
  z_mm: number,
  feed: number,
  a: number,
  b: number,
  atA: number,
  atB: number,
): number {
  let low = a;
  let high = b;
  let gLow = atA;
  let gHigh = atB;
  let edge = (a + b) / 2;
  for (let turn = 0; turn < 8 && high - low > 5e-4; turn++) {
    const part = turn % 3 === 2 ? 0.5 : Math.min(0.95, Math.max(0.05, gLow / (gLow - gHigh)));
    edge = low + (high - low) * part;
    const value = metalAt(tile, x + rho * Math.cos(feed + edge), y + rho * Math.sin(feed + edge), z_mm);
    if (value === 0) return edge;
    if (value > 0 === gLow > 0) {
      low = edge;
      gLow = value;
    } else {
      high = edge;
      gHigh = value;
    }
  }
  return low + ((high - low) * gLow) / (gLow - gHigh);
}

function close(
  from: number,
  to: number,
  rho: number,
  reach: number,
  snap: number,
  cell: number,
  spanFrom: number,
  spanTo: number,
): void {
  const low = from < -reach + snap ? spanFrom : from;
  const high = to > reach - snap ? spanTo : to;
  const width = extent(low, high) * rho;
  if (width < touching_mm(cell, rho)) return;
  found.arc += high - low;
  found.width += width;
  if (low < 0) found.climb += Math.min(0, high) - low;
  if (low < found.least) found.least = low;
  if (high > found.most) found.most = high;
}

/** Extent of the sine over low..high. */
function extent(low: number, high: number): number {
  const a = Math.sin(low);
  const b = Math.sin(high);
  let most = Math.max(a, b);
  let least = Math.min(a, b);
  const quarter = Math.PI / 2;
  if (low <= quarter && high >= quarter) most = 1;
  if (low <= -quarter && high >= -quarter) least = -1;
  return most - least;
}
