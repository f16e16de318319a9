/** Any tool moved along a straight line in any direction: the general case, a few times slower than the fast ones. */
import { type Cutter, profileHeight } from './cutter.ts';
import { rightEdge } from './sweep-flat.ts';
import { heightUnits, mergeCell, sideUnits, type Tile } from './tile.ts';

/**
 * Cuts the tile with `tool`, its tip moving from (x0, y0, z0) to (x1, y1, z1) in mm. Each cell goes down to the lowest height that
 * the profile reaches over it during the move; the flank leaves a wall. Returns the removed height in units, summed
 * over the cells the tile owns.
 */
export function sweepAny(
  tile: Tile,
  tool: Cutter,
  x0: number,
  y0: number,
  z0: number,
  x1: number,
  y1: number,
  z1: number,
): number {
  if (tile.top === undefined) tile.fill();
  const tops = tile.top as Int32Array;
  const floors = tile.floor as Int32Array;
  const { ox, oy, w, h, nw, nh, stride } = tile;
  const { cx, cy } = tile.grid;
  const low = Math.round(tile.grid.block.low[2] * heightUnits) | 0;
  const r = tool.radius_mm;
  const r2 = r * r;
  const flat = tool.shape === 'flat';
  const length = Math.hypot(x1 - x0, y1 - y0);
  const ux = length > 0 ? (x1 - x0) / length : 1;
  const uy = length > 0 ? (y1 - y0) / length : 0;
  const m = length > 0 ? (z1 - z0) / length : 0;
  const base = length > 0 ? z0 : Math.min(z0, z1);
  const flip = y0 > y1;
  const xa = flip ? x1 : x0;
  const ya = flip ? y1 : y0;
  const xb = flip ? x0 : x1;
  const yb = flip ? y0 : y1;
  const vx = flip ? -ux : ux;
  const vy = flip ? -uy : uy;
  const slope = vy > 1e-12 ? vx / vy : 0;
  const outer = r + Math.hypot(cx, cy);
  const perSide = 1 / (cx * vy + cy * Math.abs(vx));
  const jLow = Math.max(0, Math.ceil((ya - outer - oy) / cy)) | 0;
  const jHigh = Math.min(nh - 1, Math.floor((yb + outer - oy) / cy)) | 0;
  let removed = 0;
  for (let j = jLow; j <= jHigh; j++) {
    const y = oy + j * cy;
    const right = rightEdge(y, xa, ya, xb, yb, vx, vy, slope, outer);
    const left = -rightEdge(y, -xa, ya, -xb, yb, -vx, vy, -slope, outer);
    if (!(left <= right)) continue;
    const first = Math.max(0, Math.ceil((left - ox) / cx)) | 0;
    const last = Math.min(nw - 1, Math.floor((right - ox) / cx)) | 0;
    let sum = 0;
    for (let i = first; i <= last; i++) {
      const at = (j * stride + i) | 0;
      const x = ox + i * cx;
      const along = (x - x0) * ux + (y - y0) * uy;
      const across = Math.abs((x - x0) * uy - (y - y0) * ux);
      const past = along < 0 ? along : along > length ? along - length : 0;
      let side: number;
      if (past === 0) {
        side = (across - r) * perSide;
      } else {
        const dx = past < 0 ? x - x0 : x - x1;
        const dy = past < 0 ? y - y0 : y - y1;
        const distance = Math.sqrt(dx * dx + dy * dy);
        const width = cx * Math.abs(dx) + cy * Math.abs(dy);
        side = width > 0 ? ((distance - r) * distance) / width : -r / cx;
      }
      if (side >= 1) continue;
      const top = tops[at];
      if (top <= low) continue;
      if (flat && side <= -1) {
        // the whole cell goes under the disc: its lowest place is where the disc leaves it, or comes to it
        const reach = Math.sqrt(r2 - across * across);
        const t = m < 0 ? Math.min(length, along + reach) : Math.max(0, along - reach);
        let z = ((base + m * t) * heightUnits + 1073741824.5) | 0;
        z -= 1073741824;
        if (z < low) z = low;
        if (top <= z) continue;
        let cut: number;
        if (floors[at] === top) {
          floors[at] = z;
          tops[at] = z;
          cut = (top - z) | 0;
        } else {
          cut = mergeCell(tile, at, z, -sideUnits);
        }
        if (i < w) sum += cut;
        continue;
      }
      let z: number;
      if (flat) {
        z = Math.round((base + lowestOver(tool, along, across, length, m)) * heightUnits) | 0;
      } else {
        // a slope that ends inside the cell: mean of four points, none above what stands there
        let sum = 0;
        for (let part = 0; part < 4; part++) {
          const dx = (part & 1 ? 0.25 : -0.25) * cx;
          const dy = (part & 2 ? 0.25 : -0.25) * cy;
          const off = Math.abs((x + dx - x0) * uy - (y + dy - y0) * ux);
          const height = (base + lowestOver(tool, along + dx * ux + dy * uy, off, length, m)) * heightUnits;
          sum += height < top ? height : top;
        }
        z = Math.round(sum / 4) | 0;
      }
      if (z < low) z = low;
      if (top <= z) continue;
      const cut = mergeCell(tile, at, z, side <= -1 ? -sideUnits : Math.round(side * sideUnits) | 0);
      if (i < w) sum += cut;
    }
    if (j < h) removed += sum;
  }
  return removed;
}

/**
 * Least of m t + profile(distance) for t in 0..length, at a point `along` and `across` the line; convex in t. Outside the reach of the tool: its edge
 * at the nearest point of the line.
 */
function lowestOver(tool: Cutter, along: number, across: number, length: number, m: number): number {
  const nearest = along < 0 ? 0 : Math.min(along, length);
  if (m === 0) return profileHeight(tool, Math.hypot(across, along - nearest));
  const r = tool.radius_mm;
  const reach2 = r * r - across * across;
  if (reach2 <= 0) return m * nearest + tool.edge_height_mm;
  const reach = Math.sqrt(reach2);
  let from = Math.max(0, along - reach);
  let to = Math.min(length, along + reach);
  if (from > to) return m * nearest + tool.edge_height_mm;
  if (tool.shape === 'flat') return m * (m < 0 ? to : from);
  if (tool.shape === 'round' && tool.flat_mm === 0 && tool.corner_mm >= r) {
    const touch = along - (m * reach) / Math.sqrt(1 + m * m);
    const t = touch < from ? from : Math.min(touch, to);
    return m * t + profileHeight(tool, Math.hypot(across, along - t));
  }
  const tiny = r * 1e-6;
  for (let turn = 0; turn < 40 && to - from > tiny; turn++) {
    const a = from + (to - from) * 0.45;
    const b = from + (to - from) * 0.55;
    const atA = m * a + profileHeight(tool, Math.hypot(across, along - a));
    const atB = m * b + profileHeight(tool, Math.hypot(across, along - b));
    if (atA <= atB) to = b;
    else from = a;
  }
  const t = (from + to) / 2;
  return m * t + profileHeight(tool, Math.hypot(across, along - t));
}
