/** What the tool meets at one place of its path: read from the stock just before the tool gets there. */
import { arc, circle, climb, least, most, readArcs, scaleWidth, topFound, width } from './arcs.ts';
import { readBottom, underCentre, underDepth, underShare } from './bottom.ts';
import { heightUnits } from './cells.ts';
import { contactHeight, reachAt } from './contact.ts';
import { boundIn, cx, holds, lowest, xHigh, xLow, yHigh, yLow } from './field.ts';
import { exp, log, rowWidth, setRow, toInt, toSingle } from './memory.ts';
import { lead, level, place, rise, sx, sy, sz } from './place.ts';
import { heightNear } from './probe.ts';
import {
  bodies,
  body0Low,
  body0Radius,
  body1Low,
  body1Radius,
  edgeHeight,
  radius,
  radiusAt,
  shape,
  shapeFlat,
  skin,
} from './tool.ts';
import { cosineOf, sineOf } from './turns.ts';

/** Slopes down gentler than this (half a degree) are not read for plunging. */
const gentle: f64 = -0.0087;
/**
 * Levels at which round and pointed tools may be read: the edge height times 0.97^level; -1 is the flank. They are fixed so that
 * tiles that share a station read the same circle.
 */
const levelStep: f64 = -0.030459207484708574;

/** Rows found since `noRows`. */
export let rowCount: i32 = 0;

export function noRows(): void {
  rowCount = 0;
}

function addRow(): i32 {
  const at: i32 = rowCount * rowWidth;
  rowCount++;
  for (let k: i32 = 0; k < rowWidth; k++) setRow(at + k, 0);
  return at;
}

/** The level that stands for a contact up to `contact` mm over the tip: the highest one under 0.97 of it. */
export function levelOf(edge: f64, contact: f64): i32 {
  if (contact > edge + 0.5) return -1;
  return toInt(Math.max(0, Math.ceil(log((0.97 * contact) / edge) / levelStep - 1e-9)));
}

/** Reads the station set in `place.ts` and adds a row when anything touches there, more where the tile shares a round tool. */
export function readStation(): void {
  const deepBody: f64 = bodies > 0 ? bodyContact() : 0;
  const r: f64 = radius;
  const x: f64 = sx;
  const y: f64 = sy;
  const bound: f64 = boundIn(x - r, x + r, y - r, y + r) / heightUnits;
  const z: f64 = Math.max(sz, lowest / heightUnits);
  let contact: f64 = 0;
  let share: f64 = 0;
  let centre: f64 = 0;
  let depth: f64 = 0;
  if (bound > z + skin && (level > 0 || rise < 0)) {
    if (rise < gentle) {
      readBottom(z);
      share = underShare;
      centre = underCentre;
      depth = underDepth;
    }
    // as the row keeps it, so that level and row agree
    contact = toSingle(readSides(z, bound));
    if (contact > 0) depth = Math.max(depth, contact > edgeHeight + 0.5 ? topFound - z : contact);
  }
  if (contact <= 0 && share <= 0 && deepBody <= 0) return;
  const to: i32 = addRow();
  setRow(to, place);
  setRow(to + 1, depth);
  setRow(to + 7, share);
  setRow(to + 8, deepBody);
  setRow(to + 9, centre);
  setRow(to + 10, contact);
  if (contact <= 0) return;
  if (contact > edgeHeight + 0.5) {
    writeArcs(to, -1);
    return;
  }
  const at: i32 = levelOf(edgeHeight, contact);
  readLevel(z, at);
  writeArcs(to, at);
  // a neighbour may touch higher or lower: it decides the level
  const highest: i32 = at > 3 ? at - 3 : 0;
  const out: f64 = radiusAt(heightOf(highest));
  if (x - out >= xLow && x + out < xHigh && y - out >= yLow && y + out < yHigh) return;
  for (let other: i32 = highest; other <= at + 1; other++) {
    if (other === at) continue;
    readLevel(z, other);
    if (arc <= 0) continue;
    const more: i32 = addRow();
    setRow(more, place);
    setRow(more + 10, contact);
    writeArcs(more, other);
  }
}

function writeArcs(to: i32, at: i32): void {
  setRow(to + 11, at);
  if (arc <= 0) return;
  setRow(to + 2, arc);
  setRow(to + 3, least);
  setRow(to + 4, most);
  setRow(to + 5, width);
  setRow(to + 6, climb);
}

/** Height of contact of the leading side, mm; over the edge height when the flank touches, whose arcs are then read. */
function readSides(z: f64, bound: f64): f64 {
  if (shape === shapeFlat || bound - z > edgeHeight) {
    // straight down the circle is read a little inside: the wall of a hole of the same size is no contact
    const rho: f64 = level > 0 ? radius : Math.max(radius * 0.5, radius - cx / 2);
    readCircle(rho, edgeHeight, z + skin);
    scaleWidth(radius / rho);
    if (arc > 0) return edgeHeight + 1;
    if (shape === shapeFlat) return 0;
  }
  const contact: f64 = contactHeight(z, Math.min(bound - z, edgeHeight), bound);
  return contact > 0 ? Math.min(edgeHeight, contact + skin) : 0;
}

function readLevel(z: f64, at: i32): void {
  const height: f64 = heightOf(at);
  readCircle(radiusAt(height), height, z);
}

function heightOf(at: i32): f64 {
  return at < 0 ? edgeHeight : edgeHeight * exp(levelStep * at);
}

function readCircle(rho: f64, height: f64, z: f64): void {
  // ends this near to the side of the tool cannot be told from it: 0.004 mm at the distance since the piece began
  const snap: f64 = level > 0 ? Math.min(0.14, 0.004 / Math.max(0.004, lead)) : 0;
  circle(rho, (z + height) * heightUnits, reachAt(height), snap);
  readArcs();
}

/** How deep, in mm, shank or holder stands in metal. */
function bodyContact(): f64 {
  let deepest: f64 = inMetal(body0Radius, sz + body0Low);
  if (bodies > 1) deepest = Math.max(deepest, inMetal(body1Radius, sz + body1Low));
  return deepest > 0.01 ? deepest : 0;
}

function inMetal(r: f64, base: f64): f64 {
  // a shank no wider than the cutter runs where the cutter has been
  const clear: f64 = r > radius ? r : r - 2 * cx;
  if (clear <= 0) return 0;
  const bound: f64 = boundIn(sx - r, sx + r, sy - r, sy + r) / heightUnits;
  if (bound <= base) return 0;
  let deepest: f64 = 0;
  for (let ring: i32 = 0; ring < 3; ring++) {
    const rho: f64 = clear * (1 - 0.2 * ring) - 0.002;
    if (ring > 0 && rho < radius) break;
    for (let k: i32 = 0; k < 48; k++) {
      const x: f64 = sx + rho * cosineOf(k);
      const y: f64 = sy + rho * sineOf(k);
      if (holds(x, y)) deepest = Math.max(deepest, heightNear(x, y) / heightUnits - base);
    }
  }
  return deepest;
}
