/** What the tool meets at one place of its path: read from the stock just before the tool gets there. */
import { circle, found, readArcs } from './arcs.ts';
import { type Cutter, profileHeight, radiusAtHeight } from './cutter.ts';
import { ask, askMetal, heightAt, holds, metalAt } from './probe.ts';
import { heightUnits, type Tile } from './tile.ts';

/** One place on the path. `rise` is the sine of the path's slope; `lead_mm` the distance from the start of its straight piece. */
export interface Station {
  index: number;
  x: number;
  y: number;
  z: number;
  /** Direction of the feed seen from above. */
  dirX: number;
  dirY: number;
  level: number;
  rise: number;
  lead_mm: number;
}

/** Numbers in a row of `Rows`. */
export const rowWidth = 10;
export const row = {
  station: 0,
  depth: 1,
  arc: 2,
  least: 3,
  most: 4,
  width: 5,
  climb: 6,
  bottom: 7,
  body: 8,
  centre: 9,
} as const;

/** Contacts found, one row a station and tile; stations in air have no row. */
export class Rows {
  data = new Float32Array(16 * rowWidth);
  count = 0;

  add(): number {
    const at = this.count++ * rowWidth;
    if (at + rowWidth > this.data.length) {
      const grown = new Float32Array(2 * this.data.length);
      grown.set(this.data);
      this.data = grown;
    }
    const data = this.data;
    for (let k = at; k < at + rowWidth; k++) data[k] = 0;
    return at;
  }
}

/** Metal less than this over the tool's underside is not a depth of cut. */
const skin_mm = 0.004;
/** Slopes down gentler than this (half a degree) are not read for plunging. */
const gentle = -0.0087;
/** Height at which round and pointed tools are read, as a share of the depth of contact. */
const readAt = 0.93;

/** Reads one station in one tile and adds a row when anything touches there. */
export function readStation(tile: Tile, tool: Cutter, at: Station, rows: Rows): void {
  const body = tool.body.length > 0 ? bodyContact(tile, tool, at) : 0;
  const r = tool.radius_mm;
  const bound = tile.boundIn(at.x - r, at.x + r, at.y - r, at.y + r) / heightUnits;
  const z = Math.max(at.z, tile.grid.block.low[2]);
  found.arc = 0;
  let bottom = 0;
  let centre = 0;
  let depth = 0;
  if (bound > z + skin_mm) {
    const down = at.rise < -1e-6;
    if (at.level > 0 || down) depth = readSides(tile, tool, at, z, bound);
    if (at.rise < gentle) {
      const under = readBottom(tile, tool, at, z);
      bottom = under.share;
      centre = under.centre;
      depth = Math.max(depth, under.depth);
    }
  }
  if (found.arc <= 0 && bottom <= 0 && body <= 0) return;
  const to = rows.add();
  const data = rows.data;
  data[to + row.station] = at.index;
  data[to + row.bottom] = bottom;
  data[to + row.centre] = centre;
  data[to + row.body] = body;
  data[to + row.depth] = depth;
  if (found.arc <= 0) return;
  data[to + row.arc] = found.arc;
  data[to + row.least] = found.least;
  data[to + row.most] = found.most;
  data[to + row.width] = found.width;
  data[to + row.climb] = found.climb;
}

/** Reads the arcs at the height that stands for the contact; returns the depth of contact in mm. */
function readSides(tile: Tile, tool: Cutter, at: Station, z: number, bound: number): number {
  if (tool.shape === 'flat' || bound - z > tool.edge_height_mm) {
    // straight down the circle is read a little inside: the wall of a hole of the same size is no contact
    const r = tool.radius_mm;
    const rho = at.level > 0 ? r : Math.max(r * 0.5, r - tile.grid.cx / 2);
    readCircle(tile, tool, at, rho, tool.edge_height_mm, z + skin_mm);
    found.width *= r / rho;
    if (found.arc > 0) return found.top_mm - z;
    if (tool.shape === 'flat') return 0;
  }
  const limit = Math.min(bound - z, tool.edge_height_mm);
  const contact = contactHeight(tile, tool, at, z, limit);
  if (contact <= 0) {
    found.arc = 0;
    return 0;
  }
  const height = contact * readAt;
  readCircle(tile, tool, at, radiusAtHeight(tool, height), height, z);
  return contact + skin_mm;
}

function readCircle(tile: Tile, tool: Cutter, at: Station, rho: number, height: number, z: number): void {
  circle.x = at.x;
  circle.y = at.y;
  circle.rho = rho;
  circle.z = (z + height) * heightUnits;
  circle.dirX = at.dirX;
  circle.dirY = at.dirY;
  circle.reach = reachAt(tool, at, height);
  // ends this near to the side of the tool cannot be told from it: 0.004 mm at the distance since the piece began
  circle.snap = at.level > 0 ? Math.min(0.14, 0.004 / Math.max(0.004, at.lead_mm)) : 0;
  readArcs(tile);
}

/** Cosine and sine of steps of 7.5 degrees, -180 to 180. */
const turns = 48;
const cosines = Float64Array.from({ length: turns + 1 }, (_, k) => Math.cos(((k - 24) * Math.PI) / 24));
const sines = Float64Array.from({ length: turns + 1 }, (_, k) => Math.sin(((k - 24) * Math.PI) / 24));

const perTurn = (2 * Math.PI) / turns;
const tiers = 9;
const tierHeight = new Float64Array(tiers);
const tierRadius = new Float64Array(tiers);
const tierReach = new Float64Array(tiers);

/**
 * Height over the tip up to which the leading side of the tool touches metal, at most `limit`, 0 when it does not. Directions of 15 degrees (7.5
 * where the circle leaves the tile), nine heights, then halving in the direction that touches highest.
 */
function contactHeight(tile: Tile, tool: Cutter, at: Station, z: number, limit: number): number {
  const tops = tile.top;
  const floors = tile.floor as Int32Array;
  const sides = tile.side as Int16Array;
  const { x, y } = at;
  const c = at.dirX;
  const s = at.dirY;
  for (let k = 0; k < tiers; k++) {
    // closer together near the tip
    const height = limit * ((k + 1) / tiers) ** 2;
    tierHeight[k] = height;
    tierRadius[k] = radiusAtHeight(tool, height);
    tierReach[k] = reachAt(tool, at, height);
  }
  const rho = tierRadius[tiers - 1];
  const whole = x - rho >= tile.xLow && x + rho < tile.xHigh && y - rho >= tile.yLow && y + rho < tile.yHigh;
  const step = whole ? 2 : 1;
  const widest = Math.max(tierReach[0], tierReach[tiers - 1]);
  const most = Math.min(turns / 2, Math.floor((widest * turns) / (2 * Math.PI) + 1e-9));
  const perX = 1 / tile.grid.cx;
  const perY = 1 / tile.grid.cy;
  const { ox, oy, nw, nh, stride } = tile;
  const fallback = Math.round(tile.grid.block.high[2] * heightUnits) | 0;
  const base = (z + skin_mm) * heightUnits;
  // going level or down every height reaches to both sides alike
  const even = at.rise <= 0;
  let best = -1;
  let where = -1;
  for (let k = turns / 2 - most + (whole ? most & 1 : 0); k <= turns / 2 + most; k += step) {
    const dx = c * cosines[k] - s * sines[k];
    const dy = s * cosines[k] + c * sines[k];
    const turn = Math.abs(k - turns / 2) * perTurn;
    for (let tier = tiers - 1; tier > best; tier--) {
      if (!even && turn > tierReach[tier] + 1e-6) continue;
      const px = x + tierRadius[tier] * dx;
      const py = y + tierRadius[tier] * dy;
      if (!whole && (px < tile.xLow || px >= tile.xHigh || py < tile.yLow || py >= tile.yHigh)) continue;
      let top = fallback;
      if (tops !== undefined) {
        let i = ((px - ox) * perX + 0.5) | 0;
        let j = ((py - oy) * perY + 0.5) | 0;
        if (i > nw - 1) i = nw - 1;
        if (j > nh - 1) j = nh - 1;
        const cell = (j * stride + i) | 0;
        top = sides[cell] < 0 ? floors[cell] : tops[cell];
      }
      if (top > base + tierHeight[tier] * heightUnits) {
        best = tier;
        where = k;
        break;
      }
    }
    if (best === tiers - 1) break;
  }
  if (best < 0) return 0;
  let contact = tierHeight[best];
  let clear = best + 1 < tiers ? tierHeight[best + 1] : limit;
  const dx = c * cosines[where] - s * sines[where];
  const dy = s * cosines[where] + c * sines[where];
  for (let turn = 0; turn < 6 && clear > contact * 1.005; turn++) {
    const middle = (contact + clear) / 2;
    const out = radiusAtHeight(tool, middle);
    ask.x[0] = x + out * dx;
    ask.y[0] = y + out * dy;
    askMetal(tile, 1, base + middle * heightUnits);
    if (ask.value[0] > 0 && holds(tile, ask.x[0], ask.y[0])) contact = middle;
    else clear = middle;
  }
  return contact;
}

/** How far to each side of the feed the surface at `height` faces the way the tool goes. */
function reachAt(tool: Cutter, at: Station, height: number): number {
  if (at.level <= 0) return at.rise < 0 ? Math.PI : 0;
  if (at.rise === 0 || height >= tool.edge_height_mm) return Math.PI / 2;
  let steep: number;
  if (tool.shape === 'cone') {
    steep = 1 / tool.slope;
  } else {
    const out = radiusAtHeight(tool, height) - tool.flat_mm;
    steep = (tool.corner_mm - height) / Math.max(1e-9, out);
  }
  // going down the back of the tip touches too: counted as underside, not as engagement
  return at.rise <= 0 ? Math.PI / 2 : Math.acos(Math.min(1, steep * (at.rise / at.level)));
}

const under = { share: 0, centre: 0, depth: 0 };
const rings = 3;
const spokes = 12;

/** Share of the tool's underside that stands in metal, from samples of equal area. */
function readBottom(tile: Tile, tool: Cutter, at: Station, z: number): typeof under {
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
        top = sides[cell] < 0 ? floors[cell] : tops[cell];
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

/** How deep, in mm, shank or holder stands in metal. */
function bodyContact(tile: Tile, tool: Cutter, at: Station): number {
  let deepest = 0;
  for (const part of tool.body) {
    const base = at.z + part.low_mm;
    const r = part.radius_mm;
    // a shank no wider than the cutter runs where the cutter has been
    const clear = r > tool.radius_mm ? r : r - 2 * tile.grid.cx;
    if (clear <= 0) continue;
    const bound = tile.boundIn(at.x - r, at.x + r, at.y - r, at.y + r) / heightUnits;
    if (bound <= base) continue;
    for (let ring = 0; ring < 3; ring++) {
      const rho = clear * (1 - 0.2 * ring) - 0.002;
      if (ring > 0 && rho < tool.radius_mm) break;
      for (let k = 0; k < 48; k++) {
        const x = at.x + rho * Math.cos((k * Math.PI) / 24);
        const y = at.y + rho * Math.sin((k * Math.PI) / 24);
        if (holds(tile, x, y)) deepest = Math.max(deepest, heightAt(tile, x, y) - base);
      }
    }
  }
  return deepest > 0.01 ? deepest : 0;
}
