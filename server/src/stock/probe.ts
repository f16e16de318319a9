/** Reading the height field between cell centres. */
import { heightUnits, sideUnits, type Tile } from './tile.ts';

/** Room for places asked about together; the answers stand in `value`, positive in metal. */
export const ask = {
  x: new Float64Array(512),
  y: new Float64Array(512),
  value: new Float64Array(512),
  /** Greatest height, in units, of the metal round the places that stand in metal. */
  top: 0,
  /** A wall runs through a cell next to such a place: `top` may be the wall's, not the metal's. */
  wall: false,
};

/**
 * Is there metal at the first `count` places of `ask` at height `z` (units): positive inside, negative outside, zero at the edge. Between
 * cell centres bilinear; about the distance in cells near a wall. The places must lie in the region of the tile.
 * Asked in lots because the places need no boxing then.
 */
export function askMetal(tile: Tile, count: number, z: number): void {
  const { x, y, value } = ask;
  const floors = tile.floor;
  const tops = tile.top;
  const sides = tile.side;
  let seen = -0x80000000;
  ask.wall = false;
  if (floors === undefined || tops === undefined || sides === undefined) {
    const top = Math.round(tile.grid.block.high[2] * heightUnits) | 0;
    for (let k = 0; k < count; k++) value[k] = top > z ? 1 : -1;
    ask.top = top;
    return;
  }
  const { ox, oy, nw, nh, stride } = tile;
  const perX = 1 / tile.grid.cx;
  const perY = 1 / tile.grid.cy;
  const perCell = perX / heightUnits;
  for (let k = 0; k < count; k++) {
    let u = (x[k] - ox) * perX;
    let v = (y[k] - oy) * perY;
    if (u < 0) u = 0;
    else if (u > nw - 1) u = nw - 1;
    if (v < 0) v = 0;
    else if (v > nh - 1) v = nh - 1;
    let i = u | 0;
    let j = v | 0;
    if (i > nw - 2) i = nw - 2;
    if (j > nh - 2) j = nh - 2;
    const fu = u - i;
    const fv = v - j;
    const a = (j * stride + i) | 0;
    const c = (a + stride) | 0;
    const ta = tops[a];
    const tb = tops[a + 1];
    const tc = tops[c];
    const td = tops[c + 1];
    const ab = ta > tb ? ta : tb;
    const cd = tc > td ? tc : td;
    const highest = ab > cd ? ab : cd;
    if (highest <= z) {
      value[k] = -1;
      continue;
    }
    const fa = floors[a];
    const fb = floors[a + 1];
    const fc = floors[c];
    const fd = floors[c + 1];
    if (fa > z && fb > z && fc > z && fd > z) {
      value[k] = 1;
      if (highest > seen) seen = highest;
      if (fa !== ta || fb !== tb || fc !== tc || fd !== td) ask.wall = true;
      continue;
    }
    let answer: number;
    if (fa === ta && fb === tb && fc === tc && fd === td) {
      const low = ta + (tb - ta) * fu;
      const lowest = Math.min(ta, tb, tc, td);
      answer = (low + (tc + (td - tc) * fu - low) * fv - z) / (highest - lowest);
    } else {
      const ga = corner(fa, ta, sides[a], z, perCell);
      const gb = corner(fb, tb, sides[a + 1], z, perCell);
      const gc = corner(fc, tc, sides[c], z, perCell);
      const gd = corner(fd, td, sides[c + 1], z, perCell);
      const low = ga + (gb - ga) * fu;
      answer = low + (gc + (gd - gc) * fu - low) * fv;
    }
    value[k] = answer;
    if (answer > 0) {
      if (highest > seen) seen = highest;
      if (fa !== ta || fb !== tb || fc !== tc || fd !== td) ask.wall = true;
    }
  }
  ask.top = seen;
}

/** One place: see `askMetal`. */
export function metalAt(tile: Tile, x: number, y: number, z_mm: number): number {
  ask.x[0] = x;
  ask.y[0] = y;
  askMetal(tile, 1, z_mm * heightUnits);
  return ask.value[0];
}

function corner(floor: number, top: number, side: number, z: number, perCell: number): number {
  if (floor === top || z >= top || z < floor) {
    const over = ((z >= top || floor === top ? top : floor) - z) * perCell;
    return over >= 1 ? 1 : over <= -1 ? -1 : over;
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
