/** Which part of a circle round the tool stands in metal. */

import { heightUnits } from './cells.ts';
import { afterContact } from './contact.ts';
import { cx, holds, xHigh, xLow, yHigh, yLow } from './field.ts';
import { acos, atan2, roundInt, scratchAt, setScratch, toInt } from './memory.ts';
import { dirX, dirY, sx, sy } from './place.ts';
import { forget, metalAt, seenTop, seenWall } from './probe.ts';
import { cosine, pi, quarter, quarterCosine, quarterSine, quarterSteps, sine } from './turns.ts';

/** Sums over the arcs found by `readArcs`, angles in rad from the feed direction, left positive. */
export let arc: f64 = 0;
export let least: f64 = 0;
export let most: f64 = 0;
/** Extent across the feed, mm. */
export let width: f64 = 0;
/** Part of the arc right of the feed, where a clockwise tool climbs. */
export let climb: f64 = 0;
/** Height in mm of the metal that was found. */
export let topFound: f64 = 0;

export function scaleWidth(by: f64): void {
  width *= by;
}

let rho: f64 = 0;
let zUnits: f64 = 0;
let reach: f64 = 0;
let snap: f64 = 0;

/** The circle to read round the place set in `place.ts`: radius in mm, height in units, reach to each side of the feed in rad. */
export function circle(ofRadius: f64, atHeight: f64, within: f64, ends: f64): void {
  rho = ofRadius;
  zUnits = atHeight;
  reach = within;
  snap = ends;
}

/** Angle of the feed (feedX, feedY): mostly that of the place before. */
let feed: f64 = 0;
let feedX: f64 = 1;
let feedY: f64 = 0;

const cuts: i32 = afterContact;
const samples: i32 = afterContact + 12;
const pointsX: i32 = afterContact + 12 + 192;
const pointsY: i32 = afterContact + 12 + 384;

/**
 * Finds the arcs of the circle within its reach that stand in metal, as far as they lie in the region of
 * the tile. Samples at most 11 degrees apart, edges found to about 0.1 degrees. Ends within `snap` rad of +-reach
 * count as reaching it. The answer is in the sums above.
 */
export function readArcs(): void {
  arc = 0;
  width = 0;
  climb = 0;
  least = pi;
  most = -pi;
  topFound = -1e9;
  if (reach <= 0) return;
  const x: f64 = sx;
  const y: f64 = sy;
  if (x - rho >= xLow && x + rho < xHigh && y - rho >= yLow && y + rho < yHigh) {
    readSpan(-reach, reach);
    return;
  }
  if (dirX !== feedX || dirY !== feedY) {
    feedX = dirX;
    feedY = dirY;
    feed = atan2(dirY, dirX);
  }
  let count: i32 = 0;
  setScratch(cuts + count, -reach);
  count++;
  for (let edge: i32 = 0; edge < 4; edge++) {
    const away: f64 = edge === 0 ? xLow - x : edge === 1 ? xHigh - x : edge === 2 ? yLow - y : yHigh - y;
    const part: f64 = away / rho;
    if (!(part > -1 && part < 1)) continue;
    const open: f64 = acos(part);
    const middle: f64 = edge < 2 ? 0 : quarter;
    for (let sign: i32 = -1; sign <= 1; sign += 2) {
      let angle: f64 = middle + sign * open - feed;
      angle -= 2 * pi * Math.floor(angle / (2 * pi) + 0.5);
      if (angle <= -reach || angle >= reach) continue;
      let at: i32 = count;
      count++;
      for (; scratchAt(cuts + at - 1) > angle; at--) setScratch(cuts + at, scratchAt(cuts + at - 1));
      setScratch(cuts + at, angle);
    }
  }
  setScratch(cuts + count, reach);
  count++;
  for (let k: i32 = 0; k + 1 < count; k++) {
    const from: f64 = scratchAt(cuts + k);
    const to: f64 = scratchAt(cuts + k + 1);
    if (to - from < 1e-9) continue;
    // not the middle: where the circle only touches an edge the middle lies on it
    const inside: f64 = from + (to - from) * 0.381;
    const c: f64 = rho * cosine(inside);
    const s: f64 = rho * sine(inside);
    if (holds(x + dirX * c - dirY * s, y + dirY * c + dirX * s)) readSpan(from, to);
  }
}

function readSpan(from: f64, to: f64): void {
  const x: f64 = sx;
  const y: f64 = sy;
  const fine: f64 = Math.max(0.035, Math.min(0.2, (6 * cx) / rho));
  const table: bool = to === quarter && from === -to && fine === 0.2;
  const steps: i32 = table ? quarterSteps - 1 : toInt(Math.max(1, Math.ceil((to - from) / fine)));
  const step: f64 = (to - from) / steps;
  if (table) {
    for (let k: i32 = 0; k <= steps; k++) {
      setScratch(pointsX + k, x + rho * (dirX * quarterCosine(k) - dirY * quarterSine(k)));
      setScratch(pointsY + k, y + rho * (dirY * quarterCosine(k) + dirX * quarterSine(k)));
    }
  } else {
    const turnC: f64 = cosine(step);
    const turnS: f64 = sine(step);
    const c: f64 = rho * cosine(from);
    const s: f64 = rho * sine(from);
    let outX: f64 = dirX * c - dirY * s;
    let outY: f64 = dirY * c + dirX * s;
    for (let k: i32 = 0; k <= steps; k++) {
      setScratch(pointsX + k, x + outX);
      setScratch(pointsY + k, y + outY);
      const turned: f64 = outX * turnC - outY * turnS;
      outY = outY * turnC + outX * turnS;
      outX = turned;
    }
  }
  forget();
  for (let k: i32 = 0; k <= steps; k++) {
    setScratch(samples + k, metalAt(scratchAt(pointsX + k), scratchAt(pointsY + k), zUnits));
  }
  const top: f64 = (seenWall ? topOfMetal(steps + 1, seenTop) : seenTop) / heightUnits;
  if (top > topFound) topFound = top;
  let start: f64 = from;
  let before: f64 = scratchAt(samples);
  for (let k: i32 = 1; k <= steps; k++) {
    const value: f64 = scratchAt(samples + k);
    if (value > 0 !== before > 0) {
      const edge: f64 = edgeBetween(from + (k - 1) * step, from + (k - 1) * step + step, before, value);
      if (value > 0) start = edge;
      else close(start, edge, from, to);
    }
    before = value;
  }
  if (before > 0) close(start, to, from, to);
}

const skinUnits: f64 = 16.384;
/** How far into metal a place beside a round wall may seem to stand, in cells. */
const wallError: f64 = 0.2;
/** Halvings that find the height. */
const halvings: i32 = 20;

/**
 * Height of the metal that the samples stand in, in units, where walls run by: the highest one at which a sample is further inside
 * than touching. `highest` is that of all cells around.
 */
function topOfMetal(count: i32, highest: i32): i32 {
  let deepest: f64 = 0;
  for (let k: i32 = 0; k < count; k++) deepest = Math.max(deepest, scratchAt(samples + k));
  const inside: f64 = Math.min(wallError, deepest / 2);
  let clear: f64 = highest - skinUnits;
  if (standsAt(clear, count, inside)) return highest;
  let metal: f64 = zUnits;
  for (let turn: i32 = 0; turn < halvings && clear - metal > 0.5; turn++) {
    const middle: f64 = (clear + metal) / 2;
    if (standsAt(middle, count, inside)) metal = middle;
    else clear = middle;
  }
  return roundInt(metal);
}

function standsAt(height: f64, count: i32, inside: f64): bool {
  for (let k: i32 = 0; k < count; k++) {
    if (!(scratchAt(samples + k) > 0)) continue;
    if (metalAt(scratchAt(pointsX + k), scratchAt(pointsY + k), height) > inside) return true;
  }
  return false;
}

/** Angle of the edge between two samples on different sides of it. */
function edgeBetween(from: f64, to: f64, atFrom: f64, atTo: f64): f64 {
  let low: f64 = from;
  let high: f64 = to;
  let atLow: f64 = atFrom;
  let atHigh: f64 = atTo;
  for (let turn: i32 = 0; turn < 8 && high - low > 1e-3; turn++) {
    const part: f64 = turn % 3 === 2 ? 0.5 : Math.min(0.95, Math.max(0.05, atLow / (atLow - atHigh)));
    const edge: f64 = low + (high - low) * part;
    const c: f64 = cosine(edge);
    const s: f64 = sine(edge);
    const value: f64 = metalAt(sx + rho * (dirX * c - dirY * s), sy + rho * (dirY * c + dirX * s), zUnits);
    if (value < 0.002 && value > -0.002) return edge;
    if (value > 0 === atLow > 0) {
      low = edge;
      atLow = value;
    } else {
      high = edge;
      atHigh = value;
    }
  }
  return low + ((high - low) * atLow) / (atLow - atHigh);
}

/** Arcs whose width across the feed is below this are touching, not cutting: 0.008 mm, or what the cells cannot tell on a round wall. */
function touching(): f64 {
  return Math.max(0.008, (cx * cx) / (4 * rho));
}

function close(from: f64, to: f64, spanFrom: f64, spanTo: f64): void {
  const low: f64 = from < -reach + snap ? spanFrom : from;
  const high: f64 = to > reach - snap ? spanTo : to;
  const across: f64 = extent(low, high) * rho;
  if (across < touching()) return;
  arc += high - low;
  width += across;
  if (low < 0) climb += Math.min(0, high) - low;
  if (low < least) least = low;
  if (high > most) most = high;
}

/** Extent of the sine over low..high. */
function extent(low: f64, high: f64): f64 {
  const a: f64 = sine(low);
  const b: f64 = sine(high);
  const above: f64 = low <= quarter && high >= quarter ? 1 : Math.max(a, b);
  const below: f64 = low <= -quarter && high >= -quarter ? -1 : Math.min(a, b);
  return above - below;
}
