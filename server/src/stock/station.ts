/** What the tool meets at one place of its path: read from the stock just before the tool gets there. */
import { found, readArcs } from './arcs.ts';
import { type Cutter, profileHeight, radiusAtHeight } from './cutter.ts';
import { heightAt, holds, metalAt, seen } from './probe.ts';
import { heightUnits, type Tile } from './tile.ts';

/** One place on the path. `rise` is the sine of the path's slope; `lead_mm` the distance from the start of its straight piece. */
export interface Station {
  index: number;
  x: number;
  y: number;
  z: number;
  feed_rad: number;
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
    this.data.fill(0, at, at + rowWidth);
    return at;
  }
}

/** Metal less than this over the tool's underside is not a depth of cut. */
const skin_mm = 0.004;
/** Height at which round and pointed tools are read, as a share of the depth of contact. */
const readAt = 0.93;
const ladder = [1, 0.85, 0.7, 0.55, 0.4, 0.28, 0.18, 0.1, 0.05, 0.02];

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
    if (down) {
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
  const snap = at.level > 0 ? Math.min(0.14, Math.asin(Math.min(1, 0.004 / Math.max(0.004, at.lead_mm)))) : 0;
  if (tool.shape === 'flat' || bound - z > tool.edge_height_mm) {
    const height = tool.edge_height_mm;
    // straight down the circle is read a little inside: the wall of a hole of the same size is no contact
    const rho =
      at.level > 0 ? tool.radius_mm : Math.max(tool.radius_mm * 0.5, tool.radius_mm - tile.grid.cx / 2);
    readArcs(tile, at.x, at.y, rho, z + height + skin_mm, at.feed_rad, reachAt(tool, at, height), snap);
    found.width *= tool.radius_mm / rho;
    if (found.arc > 0) return found.top_mm - z;
    if (tool.shape === 'flat') return 0;
  }
  const limit = Math.min(bound - z, tool.edge_height_mm);
  let contact = 0;
  let clear = limit;
  let where = -1;
  for (let rung = 0; rung < ladder.length; rung++) {
    const height = limit * ladder[rung];
    where = touches(tile, tool, at, z, height);
    if (where >= 0) {
      contact = height;
      break;
    }
    clear = height;
  }
  if (contact <= 0) {
    found.arc = 0;
    return 0;
  }
  for (let turn = 0; turn < 7 && clear > contact; turn++) {
    const middle = (contact + clear) / 2;
    if (touchesAlong(tile, tool, at, z, middle, where)) contact = middle;
    else clear = middle;
  }
  const height = contact * readAt;
  readArcs(
    tile,
    at.x,
    at.y,
    radiusAtHeight(tool, height),
    z + height,
    at.feed_rad,
    reachAt(tool, at, height),
    snap,
  );
  return contact + skin_mm;
}

/** Cosine and sine of steps of 7.5 degrees, -180 to 180. */
const turns = 48;
const cosines = Float64Array.from({ length: turns + 1 }, (_, k) => Math.cos(((k - 24) * Math.PI) / 24));
const sines = Float64Array.from({ length: turns + 1 }, (_, k) => Math.sin(((k - 24) * Math.PI) / 24));

/** Index of a direction in which the tool touches metal at `height` over its tip, -1 when it does not. */
function touches(tile: Tile, tool: Cutter, at: Station, z: number, height: number): number {
  const rho = radiusAtHeight(tool, height);
  const reach = reachAt(tool, at, height);
  const { x, y } = at;
  const c = Math.cos(at.feed_rad) * rho;
  const s = Math.sin(at.feed_rad) * rho;
  // where the circle crosses into a neighbour the part in this tile may be short
  const whole = x - rho >= tile.xLow && x + rho < tile.xHigh && y - rho >= tile.yLow && y + rho < tile.yHigh;
  const step = whole ? 2 : 1;
  const most = Math.min(turns / 2, Math.floor((reach * turns) / (2 * Math.PI) + 1e-9));
  const from = turns / 2 - most + (whole ? most & 1 : 0);
  const tops = tile.top;
  if (tops === undefined) return whole ? turns / 2 : touchesUncut(tile, x, y, c, s, from, turns / 2 + most);
  const units = (z + height + skin_mm) * heightUnits;
  const perX = 1 / tile.grid.cx;
  const perY = 1 / tile.grid.cy;
  for (let k = from; k <= turns / 2 + most; k += step) {
    const px = x + c * cosines[k] - s * sines[k];
    const py = y + s * cosines[k] + c * sines[k];
    if (!whole && !holds(tile, px, py)) continue;
    const i = Math.min(tile.nw - 1, ((px - tile.ox) * perX + 0.5) | 0);
    const j = Math.min(tile.nh - 1, ((py - tile.oy) * perY + 0.5) | 0);
    if (tops[j * tile.stride + i] > units) return k;
  }
  return -1;
}

function touchesUncut(
  tile: Tile,
  x: number,
  y: number,
  c: number,
  s: number,
  from: number,
  to: number,
): number {
  for (let k = from; k <= to; k++) {
    if (holds(tile, x + c * cosines[k] - s * sines[k], y + s * cosines[k] + c * sines[k])) return k;
  }
  return -1;
}

/** The same in one direction, between cells. */
function touchesAlong(tile: Tile, tool: Cutter, at: Station, z: number, height: number, k: number): boolean {
  const angle = at.feed_rad + ((k - turns / 2) * 2 * Math.PI) / turns;
  const rho = radiusAtHeight(tool, height);
  const x = at.x + rho * Math.cos(angle);
  const y = at.y + rho * Math.sin(angle);
  return holds(tile, x, y) && metalAt(tile, x, y, z + height + skin_mm) > 0;
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
  for (let ring = 0; ring < rings; ring++) {
    const rho = tool.radius_mm * Math.sqrt((ring + 0.5) / rings);
    const height = z + profileHeight(tool, rho) + skin_mm;
    for (let spoke = 0; spoke < spokes; spoke++) {
      const k = (spoke * turns) / spokes + ring;
      const x = at.x + rho * cosines[k];
      const y = at.y + rho * sines[k];
      if (!holds(tile, x, y)) continue;
      const over = heightAt(tile, x, y);
      if (over <= height) continue;
      under.share += 1 / (rings * spokes);
      under.depth = Math.max(under.depth, over - z);
    }
  }
  if (holds(tile, at.x, at.y) && metalAt(tile, at.x, at.y, z + skin_mm) > 0) {
    under.centre = 1;
    under.depth = Math.max(under.depth, seen.top_mm - z);
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
