/** Which part of a circle round the tool stands in metal. */
import { ask, askMetal, holds } from './probe.ts';
import { heightUnits, type Tile } from './tile.ts';

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
/** The circle to read: centre, radius and reach in mm and rad, height in units, direction of the feed. */
export const circle = { x: 0, y: 0, rho: 0, z: 0, dirX: 1, dirY: 0, reach: 0, snap: 0 };

/**
 * Finds the arcs of `circle` within `reach` rad of the feed that stand in metal, as far as they lie in the region of
 * the tile. Samples at most 11 degrees apart, edges found to about 0.1 degrees. Ends within `snap` rad of +-reach
 * count as reaching it. The answer is in `found`.
 */
export function readArcs(tile: Tile): void {
  const { x, y, rho, reach } = circle;
  found.arc = 0;
  found.width = 0;
  found.climb = 0;
  found.least = Math.PI;
  found.most = -Math.PI;
  found.top_mm = Number.NEGATIVE_INFINITY;
  if (reach <= 0) return;
  if (x - rho >= tile.xLow && x + rho < tile.xHigh && y - rho >= tile.yLow && y + rho < tile.yHigh) {
    readSpan(tile, -reach, reach);
    return;
  }
  const feed = Math.atan2(circle.dirY, circle.dirX);
  let count = 0;
  cuts[count++] = -reach;
  for (let edge = 0; edge < 4; edge++) {
    const away =
      edge === 0 ? tile.xLow - x : edge === 1 ? tile.xHigh - x : edge === 2 ? tile.yLow - y : tile.yHigh - y;
    const cosine = away / rho;
    if (!(cosine > -1 && cosine < 1)) continue;
    const open = Math.acos(cosine);
    const middle = edge < 2 ? 0 : Math.PI / 2;
    for (let sign = -1; sign <= 1; sign += 2) {
      let angle = middle + sign * open - feed;
      angle -= 2 * Math.PI * Math.round(angle / (2 * Math.PI));
      if (angle <= -reach || angle >= reach) continue;
      let at = count++;
      for (; cuts[at - 1] > angle; at--) cuts[at] = cuts[at - 1];
      cuts[at] = angle;
    }
  }
  cuts[count++] = reach;
  for (let k = 0; k + 1 < count; k++) {
    const from = cuts[k];
    const to = cuts[k + 1];
    if (to - from < 1e-9) continue;
    // not the middle: where the circle only touches an edge the middle lies on it
    const inside = feed + from + (to - from) * 0.381;
    if (holds(tile, x + rho * Math.cos(inside), y + rho * Math.sin(inside))) readSpan(tile, from, to);
  }
}

const quarterSteps = 17;
const quarterC = Float64Array.from({ length: quarterSteps }, (_, k) =>
  Math.cos((k * Math.PI) / (quarterSteps - 1) - Math.PI / 2),
);
const quarterS = Float64Array.from({ length: quarterSteps }, (_, k) =>
  Math.sin((k * Math.PI) / (quarterSteps - 1) - Math.PI / 2),
);

function readSpan(tile: Tile, from: number, to: number): void {
  const { x, y, rho, dirX, dirY } = circle;
  const fine = Math.max(0.035, Math.min(0.2, (6 * tile.grid.cx) / rho));
  const table = to === Math.PI / 2 && from === -to && fine === 0.2;
  const steps = table ? quarterSteps - 1 : Math.max(1, Math.ceil((to - from) / fine));
  const step = (to - from) / steps;
  const ax = ask.x;
  const ay = ask.y;
  if (table) {
    for (let k = 0; k <= steps; k++) {
      ax[k] = x + rho * (dirX * quarterC[k] - dirY * quarterS[k]);
      ay[k] = y + rho * (dirY * quarterC[k] + dirX * quarterS[k]);
    }
  } else {
    const turnC = Math.cos(step);
    const turnS = Math.sin(step);
    const c = rho * Math.cos(from);
    const s = rho * Math.sin(from);
    let outX = dirX * c - dirY * s;
    let outY = dirY * c + dirX * s;
    for (let k = 0; k <= steps; k++) {
      ax[k] = x + outX;
      ay[k] = y + outY;
      const turned = outX * turnC - outY * turnS;
      outY = outY * turnC + outX * turnS;
      outX = turned;
    }
  }
  askMetal(tile, steps + 1, circle.z);
  for (let k = 0; k <= steps; k++) samples[k] = ask.value[k];
  const top = (ask.wall ? topOfMetal(tile, steps + 1, ask.top) : ask.top) / heightUnits;
  if (top > found.top_mm) found.top_mm = top;
  let start = from;
  let before = samples[0];
  for (let k = 1; k <= steps; k++) {
    const value = samples[k];
    if (value > 0 !== before > 0) {
      span.low = from + (k - 1) * step;
      span.high = span.low + step;
      span.atLow = before;
      span.atHigh = value;
      findEdge(tile);
      if (value > 0) start = span.edge;
      else close(tile, start, span.edge, from, to);
    }
    before = value;
  }
  if (before > 0) close(tile, start, to, from, to);
}

const skinUnits = 0.004 * heightUnits;
/** How far into metal a place beside a round wall may seem to stand, in cells. */
const wallError = 0.2;
/** Halvings that find the height. */
const halvings = 20;

/**
 * Height of the metal that the samples stand in, in units, where walls run by: the highest one at which a sample is further inside
 * than touching. `highest` is that of all cells around.
 */
function topOfMetal(tile: Tile, count: number, highest: number): number {
  let most = 0;
  for (let k = 0; k < count; k++) if (samples[k] > most) most = samples[k];
  const inside = Math.min(wallError, most / 2);
  const stands = (height: number): boolean => {
    askMetal(tile, count, height);
    for (let k = 0; k < count; k++) if (samples[k] > 0 && ask.value[k] > inside) return true;
    return false;
  };
  let clear = highest - skinUnits;
  if (stands(clear)) return highest;
  let metal = circle.z;
  for (let turn = 0; turn < halvings && clear - metal > 0.5; turn++) {
    const middle = (clear + metal) / 2;
    if (stands(middle)) metal = middle;
    else clear = middle;
  }
  return Math.round(metal);
}

/** Two neighbouring samples on different sides of an edge, and the edge. */
const span = { low: 0, high: 0, atLow: 0, atHigh: 0, edge: 0 };
const samples = new Float64Array(512);

function findEdge(tile: Tile): void {
  const { x, y, rho, dirX, dirY } = circle;
  let { low, high, atLow, atHigh } = span;
  for (let turn = 0; turn < 8 && high - low > 1e-3; turn++) {
    const part = turn % 3 === 2 ? 0.5 : Math.min(0.95, Math.max(0.05, atLow / (atLow - atHigh)));
    const edge = low + (high - low) * part;
    const c = Math.cos(edge);
    const s = Math.sin(edge);
    ask.x[0] = x + rho * (dirX * c - dirY * s);
    ask.y[0] = y + rho * (dirY * c + dirX * s);
    askMetal(tile, 1, circle.z);
    const value = ask.value[0];
    if (value < 0.002 && value > -0.002) {
      span.edge = edge;
      return;
    }
    if (value > 0 === atLow > 0) {
      low = edge;
      atLow = value;
    } else {
      high = edge;
      atHigh = value;
    }
  }
  span.edge = low + ((high - low) * atLow) / (atLow - atHigh);
}

function close(tile: Tile, from: number, to: number, spanFrom: number, spanTo: number): void {
  const { rho, reach, snap } = circle;
  const low = from < -reach + snap ? spanFrom : from;
  const high = to > reach - snap ? spanTo : to;
  const width = extent(low, high) * rho;
  if (width < touching_mm(tile.grid.cx, rho)) return;
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
