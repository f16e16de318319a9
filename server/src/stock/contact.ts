/** Where a tool touches metal: how high its leading side does, and how much of its underside. */
import { type Cutter, profileHeight, radiusAtHeight } from './cutter.ts';
import { ask, askMetal, holds, metalAt } from './probe.ts';
import type { Station } from './rows.ts';
import { heightUnits, type Tile } from './tile.ts';

/** Metal less than this over the tool's underside is not a depth of cut. */
export const skin_mm = 0.004;

/** Cosine and sine of steps of 7.5 degrees, -180 to 180. */
const turns = 48;
const cosines = Float64Array.from({ length: turns + 1 }, (_, k) => Math.cos(((k - 24) * Math.PI) / 24));
const sines = Float64Array.from({ length: turns + 1 }, (_, k) => Math.sin(((k - 24) * Math.PI) / 24));

const tiers = 9;
const tierHeight = new Float64Array(tiers);
const tierRadius = new Float64Array(tiers);
/** Cosine of the reach at each height, going up; the reach grows with the height. */
const tierCosine = new Float64Array(tiers);
const tierLimit = new Float64Array(tiers);
const hitAt = new Uint8Array(turns + 1);

/**
 * Height over the tip up to which the leading side of the tool touches metal, at most `limit`, 0 when it does not. Directions of 15 degrees (7.5
 * where the circle leaves the tile), nine heights, then halving in the directions that touch highest.
 */
export function contactHeight(tile: Tile, tool: Cutter, at: Station, z: number, limit: number): number {
  const tops = tile.top;
  const floors = tile.floor as Int32Array;
  const sides = tile.side as Int16Array;
  const { x, y } = at;
  const c = at.dirX;
  const s = at.dirY;
  // going level or down every height reaches to both sides alike
  const even = at.rise <= 0;
  const base = (z + skin_mm) * heightUnits;
  for (let k = 0; k < tiers; k++) {
    // closer together near the tip
    const height = limit * ((k + 1) / tiers) ** 2;
    tierHeight[k] = height;
    tierRadius[k] = radiusAtHeight(tool, height);
    tierLimit[k] = base + height * heightUnits;
    if (!even) tierCosine[k] = reachCosine(tool, at, height) - 1e-7;
  }
  const rho = tierRadius[tiers - 1];
  const whole = x - rho >= tile.xLow && x + rho < tile.xHigh && y - rho >= tile.yLow && y + rho < tile.yHigh;
  const step = whole ? 2 : 1;
  const widest = reachAt(tool, at, limit);
  const most = Math.min(turns / 2, Math.floor((widest * turns) / (2 * Math.PI) + 1e-9));
  const perX = 1 / tile.grid.cx;
  const perY = 1 / tile.grid.cy;
  const { ox, oy, nw, nh, stride } = tile;
  const fallback = Math.round(tile.grid.block.high[2] * heightUnits) | 0;
  let best = -1;
  let hits = 0;
  // from straight ahead outwards: what touches highest is mostly met early, and the lower heights are not asked again
  const widestStep = most - (whole ? most & 1 : 0);
  for (let side = 0; side <= 2 * widestStep; side += step) {
    const away = whole ? ((side + 2) >> 2) << 1 : (side + 1) >> 1;
    const k = (whole ? side & 2 : side & 1) ? turns / 2 - away : turns / 2 + away;
    const dx = c * cosines[k] - s * sines[k];
    const dy = s * cosines[k] + c * sines[k];
    const ahead = cosines[k];
    for (let tier = tiers - 1; tier >= best && tier >= 0; tier--) {
      if (!even && ahead < tierCosine[tier]) break;
      const px = x + tierRadius[tier] * dx;
      const py = y + tierRadius[tier] * dy;
      if (!whole && (px < tile.xLow || px >= tile.xHigh || py < tile.yLow || py >= tile.yHigh)) continue;
      const height = tierLimit[tier];
      if (tops !== undefined) {
        let i = ((px - ox) * perX + 0.5) | 0;
        let j = ((py - oy) * perY + 0.5) | 0;
        if (i > nw - 1) i = nw - 1;
        if (j > nh - 1) j = nh - 1;
        const cell = (j * stride + i) | 0;
        if (tops[cell] <= height || (sides[cell] < 0 && floors[cell] <= height)) continue;
      } else if (fallback <= height) continue;
      if (tier > best) hits = 0;
      best = tier;
      hitAt[hits++] = k;
      break;
    }
    if (best === tiers - 1 && whole) break;
  }
  if (best < 0) return 0;
  let contact = tierHeight[best];
  let clear = best + 1 < tiers ? tierHeight[best + 1] : limit;
  for (let turn = 0; turn < 6 && clear > contact * 1.005; turn++) {
    const middle = (contact + clear) / 2;
    const out = radiusAtHeight(tool, middle);
    for (let k = 0; k < hits; k++) {
      ask.x[k] = x + out * (c * cosines[hitAt[k]] - s * sines[hitAt[k]]);
      ask.y[k] = y + out * (s * cosines[hitAt[k]] + c * sines[hitAt[k]]);
    }
    askMetal(tile, hits, base + middle * heightUnits);
    let touches = false;
    for (let k = 0; k < hits && !touches; k++) {
      touches = ask.value[k] > 0 && (whole || holds(tile, ask.x[k], ask.y[k]));
    }
    if (touches) contact = middle;
    else clear = middle;
  }
  return contact;
}

/** How far to each side of the feed the surface at `height` faces the way the tool goes. */
export function reachAt(tool: Cutter, at: Station, height: number): number {
  if (at.level <= 0) return at.rise < 0 ? Math.PI : 0;
  if (at.rise === 0 || height >= tool.edge_height_mm) return Math.PI / 2;
  // going down the back of the tip touches too: counted as underside, not as engagement
  return at.rise <= 0 ? Math.PI / 2 : Math.acos(reachCosine(tool, at, height));
}

/** Cosine of the reach of a tool that goes up. */
function reachCosine(tool: Cutter, at: Station, height: number): number {
  if (at.level <= 0) return 1;
  if (height >= tool.edge_height_mm) return 0;
  if (tool.shape === 'cone') return Math.min(1, at.rise / at.level / tool.slope);
  const out = radiusAtHeight(tool, height) - tool.flat_mm;
  const steep = (tool.corner_mm - height) / Math.max(1e-9, out);
  return Math.min(1, steep * (at.rise / at.level));
}

const under = { share: 0, centre: 0, depth: 0 };
const rings = 3;
const spokes = 12;

/** Share of the tool's underside that stands in metal, from samples of equal area. */
export function readBottom(tile: Tile, tool: Cutter, at: Station, z: number): typeof under {
  under.share = 0;
  under.centre = 0;
  under.depth = 0;
  const { ox, oy, nw, nh, stride, grid } = tile;
  const tops = tile.top;
  const floors = tile.floor as Int32Array;
  const sides = tile.side as Int16Array;
  const perX = 1 / grid.cx;
  const perY = 1 / grid.cy;
  const fallback = Math.round(grid.block.high[2] * heightUnits) | 0;
  let highest = -0x80000000;
  let hits = 0;
  for (let ring = 0; ring < rings; ring++) {
    const rho = tool.radius_mm * Math.sqrt((ring + 0.5) / rings);
    const limit = (z + profileHeight(tool, rho) + skin_mm) * heightUnits;
    for (let spoke = 0; spoke < spokes; spoke++) {
      const k = (spoke * turns) / spokes + ring;
      const x = at.x + rho * cosines[k];
      const y = at.y + rho * sines[k];
      if (x < tile.xLow || x >= tile.xHigh || y < tile.yLow || y >= tile.yHigh) continue;
      let top = fallback;
      if (tops !== undefined) {
        let i = ((x - ox) * perX + 0.5) | 0;
        let j = ((y - oy) * perY + 0.5) | 0;
        if (i > nw - 1) i = nw - 1;
        if (j > nh - 1) j = nh - 1;
        const cell = (j * stride + i) | 0;
        top = tops[cell];
        if (top <= limit) continue;
        if (sides[cell] < 0) top = floors[cell];
      }
      if (top <= limit) continue;
      hits++;
      if (top > highest) highest = top;
    }
  }
  if (hits > 0) {
    under.share = hits / (rings * spokes);
    under.depth = highest / heightUnits - z;
  }
  if (holds(tile, at.x, at.y) && metalAt(tile, at.x, at.y, z + skin_mm) > 0) {
    under.centre = 1;
    under.depth = Math.max(under.depth, ask.top / heightUnits - z);
  }
  return under;
}
