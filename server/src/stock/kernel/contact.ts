/** How high the leading side of a round or pointed tool touches metal. */
import { heightUnits } from './cells.ts';
import { filled, holds, uncut, xHigh, xLow, yHigh, yLow } from './field.ts';
import { acos, floorAt, scratchAt, setScratch, sideAt, toInt, topAt } from './memory.ts';
import { dirX, dirY, level, rise, sx, sy } from './place.ts';
import { metalAt, nearest } from './probe.ts';
import { corner, edgeHeight, flat, radiusAt, shape, shapeCone, skin, slope } from './tool.ts';
import { cosineOf, pi, quarter, scratchFree, sineOf, turns } from './turns.ts';

const tiers: i32 = 9;
const tierHeight: i32 = scratchFree;
const tierRadius: i32 = scratchFree + 9;
/** Cosine of the reach at each height, going up; the reach grows with the height. */
const tierCosine: i32 = scratchFree + 18;
const tierLimit: i32 = scratchFree + 27;
const hitAt: i32 = scratchFree + 36;
/** Steps from straight ahead to the side, where a strip narrower than a cell is met: 82.5 degrees; at 90 the tool only touches. */
const beside: i32 = 11;
/** Part of the height up to the highest metal there may be at which a contact counts as reaching it. */
const nearTop: f64 = 0.997;
/** First number of the scratch room after those of this file. */
export const afterContact: i32 = scratchFree + 36 + 51;

/**
 * Height over the tip up to which the leading side of the tool touches metal, at most `limit`, 0 when it does not. Directions of 15 degrees (7.5
 * where the circle leaves the tile), nine heights, then halving in the directions that touch highest.
 */
export function contactHeight(z: f64, limit: f64, bound: f64): f64 {
  const x: f64 = sx;
  const y: f64 = sy;
  const c: f64 = dirX;
  const s: f64 = dirY;
  // going level or down every height reaches to both sides alike
  const even: bool = rise <= 0;
  const base: f64 = (z + skin) * heightUnits;
  // no metal stands over the bound that the limit came from
  const bounded: bool = base + limit * heightUnits >= bound * heightUnits;
  const full: f64 = bounded ? nearTop * limit - skin : 0;
  if (even && full > 0 && touchesInFront(full, base)) return full;
  for (let k: i32 = 0; k < tiers; k++) {
    // closer together near the tip
    const part: f64 = k + 1;
    const height: f64 = (limit * (part * part)) / 81;
    setScratch(tierHeight + k, height);
    setScratch(tierRadius + k, radiusAt(height));
    setScratch(tierLimit + k, base + height * heightUnits);
    if (!even) setScratch(tierCosine + k, reachCosine(height) - 1e-7);
  }
  const rho: f64 = scratchAt(tierRadius + tiers - 1);
  const whole: bool = x - rho >= xLow && x + rho < xHigh && y - rho >= yLow && y + rho < yHigh;
  const step: i32 = whole ? 2 : 1;
  const most: i32 = toInt(Math.min(24, Math.floor((reachAt(limit) * 48) / 6.283185307179586 + 1e-9)));
  const highest: i32 = bounded ? tiers - 2 : tiers - 1;
  let best: i32 = -1;
  let hits: i32 = 0;
  // from straight ahead outwards: what touches highest is mostly met early, and the lower heights are not asked again
  const widestStep: i32 = most - (whole ? most & 1 : 0);
  for (let side: i32 = 0; side <= 2 * widestStep; side += step) {
    const away: i32 = whole ? ((side + 2) >> 2) << 1 : (side + 1) >> 1;
    const k: i32 = (whole ? side & 2 : side & 1) !== 0 ? turns / 2 - away : turns / 2 + away;
    const ahead: f64 = cosineOf(k);
    const dx: f64 = c * ahead - s * sineOf(k);
    const dy: f64 = s * ahead + c * sineOf(k);
    for (let tier: i32 = highest; tier >= best && tier >= 0; tier--) {
      if (!even && ahead < scratchAt(tierCosine + tier)) break;
      const px: f64 = x + scratchAt(tierRadius + tier) * dx;
      const py: f64 = y + scratchAt(tierRadius + tier) * dy;
      if (!whole && !holds(px, py)) continue;
      const height: f64 = scratchAt(tierLimit + tier);
      if (filled) {
        const cell: i32 = nearest(px, py);
        if (topAt(cell) <= height || (sideAt(cell) < 0 && floorAt(cell) <= height)) continue;
      } else if (uncut <= height) continue;
      if (tier > best) hits = 0;
      best = tier;
      setScratch(hitAt + hits, k);
      hits++;
      break;
    }
    if (best === highest && whole && highest === tiers - 1) break;
  }
  if (best < 0) return 0;
  if (even) {
    // a strip narrower than a cell stands beside the tool, where the cell nearest to it may be cut
    setScratch(hitAt + hits, turns / 2 + beside);
    setScratch(hitAt + hits + 1, turns / 2 - beside);
    hits += 2;
  }
  if (full > scratchAt(tierHeight + best) && touches(full, base, hits, whole)) return full;
  let contact: f64 = scratchAt(tierHeight + best);
  let clear: f64 = best + 1 < tiers ? scratchAt(tierHeight + best + 1) : limit;
  for (; best + 2 < tiers && touches(clear, base, hits, whole); best++) {
    contact = clear;
    clear = scratchAt(tierHeight + best + 2);
  }
  for (let turn: i32 = 0; turn < 6 && clear > contact * 1.005; turn++) {
    const middle: f64 = (contact + clear) / 2;
    if (touches(middle, base, hits, whole)) contact = middle;
    else clear = middle;
  }
  return contact;
}

/** Does the tool touch at `height` straight ahead or at its sides: the common case. */
function touchesInFront(height: f64, base: f64): bool {
  const out: f64 = radiusAt(height);
  const ahead: f64 = out * cosineOf(turns / 2 + beside);
  const aside: f64 = out * sineOf(turns / 2 + beside);
  const z: f64 = base + height * heightUnits;
  return (
    stands(sx + out * dirX, sy + out * dirY, z) ||
    stands(sx + ahead * dirX - aside * dirY, sy + ahead * dirY + aside * dirX, z) ||
    stands(sx + ahead * dirX + aside * dirY, sy + ahead * dirY - aside * dirX, z)
  );
}

function stands(x: f64, y: f64, z: f64): bool {
  return holds(x, y) && metalAt(x, y, z) > 0;
}

/** Does any of the directions that touched stand in metal at `height` over the tip. */
function touches(height: f64, base: f64, hits: i32, whole: bool): bool {
  const out: f64 = radiusAt(height);
  for (let k: i32 = 0; k < hits; k++) {
    const turn: i32 = toInt(scratchAt(hitAt + k));
    const px: f64 = sx + out * (dirX * cosineOf(turn) - dirY * sineOf(turn));
    const py: f64 = sy + out * (dirY * cosineOf(turn) + dirX * sineOf(turn));
    if ((whole || holds(px, py)) && metalAt(px, py, base + height * heightUnits) > 0) return true;
  }
  return false;
}

/** How far to each side of the feed the surface at `height` faces the way the tool goes. */
export function reachAt(height: f64): f64 {
  if (level <= 0) return rise < 0 ? pi : 0;
  if (rise === 0 || height >= edgeHeight) return quarter;
  // going down the back of the tip touches too: counted as underside, not as engagement
  return rise <= 0 ? quarter : acos(reachCosine(height));
}

/** Cosine of the reach of a tool that goes up. */
function reachCosine(height: f64): f64 {
  if (level <= 0) return 1;
  if (height >= edgeHeight) return 0;
  if (shape === shapeCone) return Math.min(1, rise / level / slope);
  const out: f64 = radiusAt(height) - flat;
  const steep: f64 = (corner - height) / Math.max(1e-9, out);
  return Math.min(1, steep * (rise / level));
}
