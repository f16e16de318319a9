/** What the tool meets at one place of its path: read from the stock just before the tool gets there. */
import { circle, found, readArcs } from './arcs.ts';
import { contactHeight, reachAt, readBottom, skin_mm } from './contact.ts';
import { type Cutter, radiusAtHeight } from './cutter.ts';
import { heightAt, holds } from './probe.ts';
import { type Rows, row, type Station } from './rows.ts';
import { heightUnits, type Tile } from './tile.ts';

/** Slopes down gentler than this (half a degree) are not read for plunging. */
const gentle = -0.0087;

/**
 * Levels at which round and pointed tools may be read: the edge height times 0.95^level; -1 is the flank. They are fixed so that
 * tiles that share a station read the same circle.
 */
const levelStep = Math.log(0.95);

function levelHeight(tool: Cutter, level: number): number {
  return level < 0 ? tool.edge_height_mm : tool.edge_height_mm * Math.exp(levelStep * level);
}

/** The level that stands for a contact up to `contact` mm over the tip: the highest one under 0.97 of it. */
export function levelOf(tool: Cutter, contact: number): number {
  if (contact > tool.edge_height_mm + 0.5) return -1;
  return Math.max(0, Math.ceil(Math.log((0.97 * contact) / tool.edge_height_mm) / levelStep - 1e-9));
}

/** Reads one station in one tile and adds a row when anything touches there, more where the tile shares a round tool. */
export function readStation(tile: Tile, tool: Cutter, at: Station, rows: Rows): void {
  const body = tool.body.length > 0 ? bodyContact(tile, tool, at) : 0;
  const r = tool.radius_mm;
  const bound = tile.boundIn(at.x - r, at.x + r, at.y - r, at.y + r) / heightUnits;
  const z = Math.max(at.z, tile.grid.block.low[2]);
  found.arc = 0;
  let contact = 0;
  let bottom = 0;
  let centre = 0;
  let depth = 0;
  if (bound > z + skin_mm && (at.level > 0 || at.rise < 0)) {
    if (at.rise < gentle) {
      const under = readBottom(tile, tool, at, z);
      bottom = under.share;
      centre = under.centre;
      depth = under.depth;
    }
    // as the row keeps it, so that level and row agree
    contact = Math.fround(readSides(tile, tool, at, z, bound));
    if (contact > 0)
      depth = Math.max(depth, contact > tool.edge_height_mm + 0.5 ? found.top_mm - z : contact);
  }
  if (contact <= 0 && bottom <= 0 && body <= 0) return;
  const to = rows.add();
  rows.data[to + row.station] = at.index;
  rows.data[to + row.bottom] = bottom;
  rows.data[to + row.centre] = centre;
  rows.data[to + row.body] = body;
  rows.data[to + row.depth] = depth;
  rows.data[to + row.contact] = contact;
  if (contact <= 0) return;
  if (contact > tool.edge_height_mm + 0.5) {
    writeArcs(rows.data, to, -1);
    return;
  }
  const level = levelOf(tool, contact);
  const whole =
    at.x - r >= tile.xLow && at.x + r < tile.xHigh && at.y - r >= tile.yLow && at.y + r < tile.yHigh;
  readLevel(tile, tool, at, z, level);
  writeArcs(rows.data, to, level);
  if (whole) return;
  // a neighbour may touch higher or lower: it decides the level
  for (let other = Math.max(0, level - 2); other <= level + 1; other++) {
    if (other === level) continue;
    readLevel(tile, tool, at, z, other);
    if (found.arc <= 0) continue;
    const more = rows.add();
    rows.data[more + row.station] = at.index;
    rows.data[more + row.contact] = contact;
    writeArcs(rows.data, more, other);
  }
}

function writeArcs(data: Float32Array, to: number, level: number): void {
  data[to + row.level] = level;
  if (found.arc <= 0) return;
  data[to + row.arc] = found.arc;
  data[to + row.least] = found.least;
  data[to + row.most] = found.most;
  data[to + row.width] = found.width;
  data[to + row.climb] = found.climb;
}

/** Height of contact of the leading side, mm; over the edge height when the flank touches, whose arcs are then read. */
function readSides(tile: Tile, tool: Cutter, at: Station, z: number, bound: number): number {
  if (tool.shape === 'flat' || bound - z > tool.edge_height_mm) {
    // straight down the circle is read a little inside: the wall of a hole of the same size is no contact
    const r = tool.radius_mm;
    const rho = at.level > 0 ? r : Math.max(r * 0.5, r - tile.grid.cx / 2);
    readCircle(tile, tool, at, rho, tool.edge_height_mm, z + skin_mm);
    found.width *= r / rho;
    if (found.arc > 0) return tool.edge_height_mm + 1;
    if (tool.shape === 'flat') return 0;
  }
  const contact = contactHeight(tile, tool, at, z, Math.min(bound - z, tool.edge_height_mm));
  return contact > 0 ? Math.min(tool.edge_height_mm, contact + skin_mm) : 0;
}

function readLevel(tile: Tile, tool: Cutter, at: Station, z: number, level: number): void {
  const height = levelHeight(tool, level);
  readCircle(tile, tool, at, radiusAtHeight(tool, height), height, z);
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
