/** Reading the height field between cell centres. */
import { heightUnits, sideUnits, type Tile } from './tile.ts';

/** Height in mm of the metal that the last `metalAt` with a positive answer saw. */
export const seen = { top_mm: 0 };

/**
 * Is there metal at (x, y) at height `z_mm`: positive inside, negative outside, zero at the edge, between cell centres
 * bilinear; about the distance in cells near a wall. The point must lie in the region of the tile.
 */
export function metalAt(tile: Tile, x: number, y: number, z_mm: number): number {
  const floors = tile.floor;
  const tops = tile.top;
  const sides = tile.side;
  const z = z_mm * heightUnits;
  if (floors === undefined || tops === undefined || sides === undefined) {
    const top = tile.grid.block.high[2];
    seen.top_mm = top;
    return top > z_mm ? 1 : -1;
  }
  let u = (x - tile.ox) / tile.grid.cx;
  let v = (y - tile.oy) / tile.grid.cy;
  if (u < 0) u = 0;
  else if (u > tile.nw - 1) u = tile.nw - 1;
  if (v < 0) v = 0;
  else if (v > tile.nh - 1) v = tile.nh - 1;
  const i = Math.min(Math.floor(u), tile.nw - 2) | 0;
  const j = Math.min(Math.floor(v), tile.nh - 2) | 0;
  const fu = u - i;
  const fv = v - j;
  const a = (j * tile.stride + i) | 0;
  const b = (a + 1) | 0;
  const c = (a + tile.stride) | 0;
  const d = (c + 1) | 0;
  const ta = tops[a];
  const tb = tops[b];
  const tc = tops[c];
  const td = tops[d];
  const highest = Math.max(ta, tb, tc, td);
  if (highest <= z) return -1;
  seen.top_mm = highest / heightUnits;
  if (floors[a] === ta && floors[b] === tb && floors[c] === tc && floors[d] === td) {
    const lowest = Math.min(ta, tb, tc, td);
    if (lowest > z) return 1;
    const low = ta + (tb - ta) * fu;
    const height = low + (tc + (td - tc) * fu - low) * fv;
    return (height - z) / (highest - lowest);
  }
  const perCell = 1 / (heightUnits * tile.grid.cx);
  const ga = corner(floors[a], ta, sides[a], z, perCell);
  const gb = corner(floors[b], tb, sides[b], z, perCell);
  const gc = corner(floors[c], tc, sides[c], z, perCell);
  const gd = corner(floors[d], td, sides[d], z, perCell);
  const low = ga + (gb - ga) * fu;
  return low + (gc + (gd - gc) * fu - low) * fv;
}

function corner(floor: number, top: number, side: number, z: number, perCell: number): number {
  if (floor === top || z >= top || z < floor) {
    const over = ((z >= top || floor === top ? top : floor) - z) * perCell;
    return over >= 1 ? 1 : Math.max(over, -1);
  }
  return side / sideUnits;
}

/** Height in mm of the cell nearest to (x, y): at its centre, on the side of the wall where the centre lies. */
export function heightAt(tile: Tile, x: number, y: number): number {
  if (tile.floor === undefined || tile.top === undefined || tile.side === undefined)
    return tile.grid.block.high[2];
  const i = Math.max(0, Math.min(tile.nw - 1, Math.round((x - tile.ox) / tile.grid.cx)));
  const j = Math.max(0, Math.min(tile.nh - 1, Math.round((y - tile.oy) / tile.grid.cy)));
  const at = j * tile.stride + i;
  return (tile.side[at] < 0 ? tile.floor[at] : tile.top[at]) / heightUnits;
}

/** Does the region of the tile hold the point; regions of all tiles together hold every point of the stock once. */
export function holds(tile: Tile, x: number, y: number): boolean {
  return x >= tile.xLow && x < tile.xHigh && y >= tile.yLow && y < tile.yHigh;
}
