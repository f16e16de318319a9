/** Any tool moved along a straight line in any direction: the general case, a few times slower than the fast ones. */
import { heightUnits, mergeCell, roundCut, sideUnits } from './cells.ts';
import { cx, cy, h, least, lowest, most, needCells, nh, nw, ox, oy, w } from './field.ts';
import { floorAt, roundInt, setFloor, setTop, topAt } from './memory.ts';
import { noteCut, sizesWanted } from './sizes.ts';
import { columnFrom, columnTo, leftEdge, rightEdge, rowFrom, rowTo, setCapsule } from './sweep-flat.ts';
import { edgeHeight, isBall, profileAt, radius, shape, shapeFlat } from './tool.ts';

/**
 * Cuts the tile with the tool, its tip moving from (x0, y0, z0) to (x1, y1, z1) in mm. Each cell goes down to the lowest height that
 * the profile reaches over it during the move; the flank leaves a wall. Returns the removed height in units, summed
 * over the cells the tile owns.
 */
export function sweepAny(x0: f64, y0: f64, z0: f64, x1: f64, y1: f64, z1: f64): f64 {
  needCells();
  const low: i32 = lowest;
  const r: f64 = radius;
  const r2: f64 = r * r;
  const isFlat: bool = shape === shapeFlat;
  const length: f64 = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
  const ux: f64 = length > 0 ? (x1 - x0) / length : 1;
  const uy: f64 = length > 0 ? (y1 - y0) / length : 0;
  const m: f64 = length > 0 ? (z1 - z0) / length : 0;
  const base: f64 = length > 0 ? z0 : Math.min(z0, z1);
  setCapsule(x0, y0, x1, y1, ux, uy);
  const outer: f64 = r + Math.sqrt(cx * cx + cy * cy);
  const perSide: f64 = 1 / (cx * Math.abs(uy) + cy * Math.abs(ux));
  const jLow: i32 = most(0, rowFrom(Math.min(y0, y1) - outer));
  const jHigh: i32 = least(nh - 1, rowTo(Math.max(y0, y1) + outer));
  const width: f64 = sideUnits;
  let removed: f64 = 0;
  for (let j: i32 = jLow; j <= jHigh; j++) {
    const y: f64 = oy + j * cy;
    const right: f64 = rightEdge(y, outer);
    const left: f64 = leftEdge(y, outer);
    if (!(left <= right)) continue;
    const first: i32 = most(0, columnFrom(left));
    const last: i32 = least(nw - 1, columnTo(right));
    let sum: i32 = 0;
    for (let i: i32 = first; i <= last; i++) {
      const at: i32 = j * nw + i;
      const x: f64 = ox + i * cx;
      const along: f64 = (x - x0) * ux + (y - y0) * uy;
      const across: f64 = Math.abs((x - x0) * uy - (y - y0) * ux);
      const past: f64 = along < 0 ? along : along > length ? along - length : 0;
      let side: f64 = 0;
      if (past === 0) {
        side = (across - r) * perSide;
      } else {
        const dx: f64 = past < 0 ? x - x0 : x - x1;
        const dy: f64 = past < 0 ? y - y0 : y - y1;
        const distance: f64 = Math.sqrt(dx * dx + dy * dy);
        const span: f64 = cx * Math.abs(dx) + cy * Math.abs(dy);
        side = span > 0 ? ((distance - r) * distance) / span : -r / cx;
      }
      if (side >= 1) continue;
      const top: i32 = topAt(at);
      if (top <= low) continue;
      if (isFlat && side <= -1) {
        // the whole cell goes under the disc: its lowest place is where the disc leaves it, or comes to it
        const reach: f64 = Math.sqrt(r2 - across * across);
        const t: f64 = m < 0 ? Math.min(length, along + reach) : Math.max(0, along - reach);
        let z: i32 = roundInt((base + m * t) * heightUnits);
        if (z < low) z = low;
        if (top <= z) continue;
        let cut: i32 = 0;
        if (floorAt(at) === top) {
          setFloor(at, z);
          setTop(at, z);
          cut = top - z;
        } else {
          cut = mergeCell(at, z, -sideUnits);
        }
        if (i < w) sum += cut;
        if (sizesWanted) noteCut(i, j, cut);
        continue;
      }
      let height: f64 = 0;
      if (isFlat) {
        height = (base + lowestOver(along, across, length, m)) * heightUnits;
      } else {
        // a slope that ends inside the cell: mean of four points, none above what stands there
        const stands: f64 = top;
        for (let part: i32 = 0; part < 4; part++) {
          const dx: f64 = (part & 1) !== 0 ? 0.25 * cx : -0.25 * cx;
          const dy: f64 = (part & 2) !== 0 ? 0.25 * cy : -0.25 * cy;
          const off: f64 = Math.abs((x + dx - x0) * uy - (y + dy - y0) * ux);
          const one: f64 = (base + lowestOver(along + dx * ux + dy * uy, off, length, m)) * heightUnits;
          height += Math.min(one, stands);
        }
        height /= 4;
      }
      let z: i32 = roundInt(height);
      if (z < low) z = low;
      if (top <= z) continue;
      const at16: i32 = side <= -1 ? -sideUnits : roundInt(side * width);
      const cut: i32 = mergeCell(at, z, at16);
      if (!isFlat && floorAt(at) === topAt(at)) setFloor(at, topAt(at) + roundCut);
      if (i < w) sum += cut;
      if (sizesWanted) noteCut(i, j, cut);
    }
    if (j < h) removed += sum;
  }
  return removed;
}

/**
 * Least of m t + profile(distance) for t in 0..length, at a point `along` and `across` the line; convex in t. Outside the reach of the tool: its edge
 * at the nearest point of the line.
 */
function lowestOver(along: f64, across: f64, length: f64, m: f64): f64 {
  const nearest: f64 = along < 0 ? 0 : Math.min(along, length);
  if (m === 0) return profileOff(across, along - nearest);
  const r: f64 = radius;
  const reach2: f64 = r * r - across * across;
  if (reach2 <= 0) return m * nearest + edgeHeight;
  const reach: f64 = Math.sqrt(reach2);
  let from: f64 = Math.max(0, along - reach);
  let to: f64 = Math.min(length, along + reach);
  if (from > to) return m * nearest + edgeHeight;
  if (shape === shapeFlat) return m * (m < 0 ? to : from);
  if (isBall) {
    const touch: f64 = along - (m * reach) / Math.sqrt(1 + m * m);
    const at: f64 = touch < from ? from : Math.min(touch, to);
    return m * at + profileOff(across, along - at);
  }
  const tiny: f64 = r * 1e-6;
  for (let turn: i32 = 0; turn < 40 && to - from > tiny; turn++) {
    const a: f64 = from + (to - from) * 0.45;
    const b: f64 = from + (to - from) * 0.55;
    const atA: f64 = m * a + profileOff(across, along - a);
    const atB: f64 = m * b + profileOff(across, along - b);
    if (atA <= atB) to = b;
    else from = a;
  }
  const t: f64 = (from + to) / 2;
  return m * t + profileOff(across, along - t);
}

function profileOff(across: f64, along: f64): f64 {
  return profileAt(Math.sqrt(across * across + along * along));
}
