/**
 * One tile of the height field. A cell holds two heights and where the wall between them stands: `floor` on the cut side,
 * `top` on the other, `side` the distance of the cell's centre from the wall, negative on the cut side, in units of the cell's
 * width across that wall. A share `0.5 - side` (held to 0..1) of the cell stands at `floor`. Cells without a wall
 * have floor = top. Walls finer than a cell make narrow passes exact and give the engagement sub-cell edges.
 *
 * Heights are whole numbers of 1/4096 mm, so that sums of removed height are exact in any order; sides are whole
 * numbers of 1/16384 cell. A tile has one column and one row more than it owns (its neighbours' first), so that it can be
 * read without them.
 */
import type { Grid, StartState } from './grid.ts';

/** Units of height in a millimetre. */
export const heightUnits = 4096;
/** Units of `side` in a cell. */
export const sideUnits = 16384;
const sameHeight = 2;
const sameSide = 16;
export const blockCells = 16;
/** Cuts near a block after which its bound is looked up again. */
const renewEvery = 32;

/** A height in mm as units of the grid. Valid within +-500 m. */
export function toUnits(height_mm: number): number {
  return Math.round(height_mm * heightUnits);
}

export class Tile {
  readonly stride: number;
  /** Column and row of cell (0, 0) in the grid. */
  readonly i0: number;
  readonly j0: number;
  /** Cells that the tile owns. */
  readonly w: number;
  readonly h: number;
  /** Columns and rows held, with the neighbours' first. */
  readonly nw: number;
  readonly nh: number;
  /** Position of the centre of cell (0, 0). */
  readonly ox: number;
  readonly oy: number;
  /** Region in mm that this tile answers for when the stock is read between cell centres. */
  readonly xLow: number;
  readonly xHigh: number;
  readonly yLow: number;
  readonly yHigh: number;
  readonly blocksX: number;
  floor: Int32Array | undefined;
  top: Int32Array | undefined;
  side: Int16Array | undefined;
  /** Upper bound of the heights in blocks of 16 x 16 cells. */
  blockTop: Int32Array;
  blockAge: Uint8Array;
  /** End of the last piece swept here: the next piece that starts there need not cut its start again. */
  lastX = Number.NaN;
  lastY = Number.NaN;
  lastZ = Number.NaN;
  lastTool = -1;
  readonly grid: Grid;

  constructor(grid: Grid, tx: number, ty: number) {
    this.grid = grid;
    const i0 = tx * grid.tile;
    const j0 = ty * grid.tile;
    this.i0 = i0;
    this.j0 = j0;
    const low = grid.block.low;
    const high = grid.block.high;
    this.w = Math.min(grid.tile, grid.columns - i0);
    this.h = Math.min(grid.tile, grid.rows - j0);
    const lastColumn = i0 + this.w === grid.columns;
    const lastRow = j0 + this.h === grid.rows;
    this.nw = this.w + (lastColumn ? 0 : 1);
    this.nh = this.h + (lastRow ? 0 : 1);
    this.stride = this.nw;
    this.ox = low[0] + (i0 + 0.5) * grid.cx;
    this.oy = low[1] + (j0 + 0.5) * grid.cy;
    this.xLow = i0 === 0 ? low[0] : this.ox;
    this.yLow = j0 === 0 ? low[1] : this.oy;
    this.xHigh = lastColumn ? high[0] : this.ox + this.w * grid.cx;
    this.yHigh = lastRow ? high[1] : this.oy + this.h * grid.cy;
    this.blocksX = Math.ceil(this.nw / blockCells);
    const blocks = this.blocksX * Math.ceil(this.nh / blockCells);
    this.blockTop = new Int32Array(blocks).fill(toUnits(high[2]));
    this.blockAge = new Uint8Array(blocks);
    this.clear();
  }

  /** Back to the uncut stock. */
  clear(): void {
    this.floor = undefined;
    this.top = undefined;
    this.side = undefined;
    this.blockTop.fill(toUnits(this.grid.block.high[2]));
    this.blockAge.fill(0);
    this.lastX = Number.NaN;
    this.lastY = Number.NaN;
    this.lastZ = Number.NaN;
    this.lastTool = -1;
    if (this.grid.block.round !== undefined || this.grid.block.state !== undefined) this.fill();
  }

  /** Makes the arrays, filled with the uncut stock. */
  fill(): void {
    const cells = this.nw * this.nh;
    const block = this.grid.block;
    const high = toUnits(block.high[2]);
    this.floor = new Int32Array(cells).fill(high);
    this.top = new Int32Array(cells).fill(high);
    this.side = new Int16Array(cells);
    if (block.state !== undefined) {
      this.copyIn(block.state);
      return;
    }
    const round = block.round;
    if (round === undefined) return;
    this.cutOutside(round.x_mm, round.y_mm, round.radius_mm, 1);
    if (round.bore_mm !== undefined && round.bore_mm > 0)
      this.cutOutside(round.x_mm, round.y_mm, round.bore_mm / 2, -1);
  }

  private copyIn(state: StartState): void {
    const { floor, top, side } = this;
    if (floor === undefined || top === undefined || side === undefined) return;
    for (let j = 0; j < this.nh; j++) {
      const from = (this.j0 + j) * state.columns + this.i0;
      floor.set(state.floor.subarray(from, from + this.nw), j * this.stride);
      top.set(state.top.subarray(from, from + this.nw), j * this.stride);
      side.set(state.side.subarray(from, from + this.nw), j * this.stride);
    }
  }

  private cutOutside(x: number, y: number, radius: number, sign: 1 | -1): void {
    const { cx, cy } = this.grid;
    const low = toUnits(this.grid.block.low[2]);
    for (let j = 0; j < this.nh; j++) {
      for (let i = 0; i < this.nw; i++) {
        const dx = this.ox + i * cx - x;
        const dy = this.oy + j * cy - y;
        const distance = Math.hypot(dx, dy);
        const across = distance > 0 ? (cx * Math.abs(dx) + cy * Math.abs(dy)) / distance : cx;
        mergeCell(this, j * this.stride + i, low, sideOf(sign * (radius - distance), across));
      }
    }
  }

  /** Sum of the heights of the cells that the tile owns, in units, exact. */
  heightSum(): number {
    if (this.floor === undefined || this.top === undefined || this.side === undefined) {
      return this.w * this.h * toUnits(this.grid.block.high[2]);
    }
    let sum = 0;
    for (let j = 0; j < this.h; j++) {
      for (let i = 0; i < this.w; i++) {
        const at = j * this.stride + i;
        sum += cellHeight(this.floor[at], this.top[at], this.side[at]);
      }
    }
    return sum;
  }

  /** Highest metal that may stand in the box, in units; an upper bound, -Infinity when the box misses the tile. */
  boundIn(xLow: number, xHigh: number, yLow: number, yHigh: number): number {
    const { cx, cy } = this.grid;
    const bi0 = Math.max(0, Math.floor((xLow - this.ox) / cx - 1)) >> 4;
    const bi1 = Math.min(this.nw - 1, Math.ceil((xHigh - this.ox) / cx + 1)) >> 4;
    const bj0 = Math.max(0, Math.floor((yLow - this.oy) / cy - 1)) >> 4;
    const bj1 = Math.min(this.nh - 1, Math.ceil((yHigh - this.oy) / cy + 1)) >> 4;
    let bound = Number.NEGATIVE_INFINITY;
    for (let bj = bj0; bj <= bj1; bj++) {
      for (let bi = bi0; bi <= bi1; bi++) {
        const value = this.blockTop[bj * this.blocksX + bi];
        if (value > bound) bound = value;
      }
    }
    return bound;
  }

  /** The same for columns `first` to `last` of one row of blocks. */
  boundInRow(bj: number, first: number, last: number): number {
    const { blockTop } = this;
    let bound = -0x80000000;
    const to = (bj * this.blocksX + (last >> 4)) | 0;
    for (let at = (bj * this.blocksX + (first >> 4)) | 0; at <= to; at++) {
      if (blockTop[at] > bound) bound = blockTop[at];
    }
    return bound;
  }

  /** Tells the tile that cells in the box were cut; bounds are renewed now and then. */
  cutIn(xLow: number, xHigh: number, yLow: number, yHigh: number): void {
    const { cx, cy } = this.grid;
    const bi0 = Math.max(0, Math.floor((xLow - this.ox) / cx)) >> 4;
    const bi1 = Math.min(this.nw - 1, Math.ceil((xHigh - this.ox) / cx)) >> 4;
    const bj0 = Math.max(0, Math.floor((yLow - this.oy) / cy)) >> 4;
    const bj1 = Math.min(this.nh - 1, Math.ceil((yHigh - this.oy) / cy)) >> 4;
    for (let bj = bj0; bj <= bj1; bj++) {
      for (let bi = bi0; bi <= bi1; bi++) {
        const block = bj * this.blocksX + bi;
        if (++this.blockAge[block] >= renewEvery) this.renewBound(bi, bj);
      }
    }
  }

  private renewBound(bi: number, bj: number): void {
    const top = this.top;
    if (top === undefined) return;
    const iEnd = Math.min(this.nw, (bi + 1) * blockCells);
    const jEnd = Math.min(this.nh, (bj + 1) * blockCells);
    let bound = Number.NEGATIVE_INFINITY;
    for (let j = bj * blockCells; j < jEnd; j++) {
      for (let at = j * this.stride + bi * blockCells, end = j * this.stride + iEnd; at < end; at++) {
        if (top[at] > bound) bound = top[at];
      }
    }
    this.blockTop[bj * this.blocksX + bi] = bound;
    this.blockAge[bj * this.blocksX + bi] = 0;
  }
}

/** A distance from a wall as units of `side`, held to one cell either way. */
export function sideOf(distance: number, across: number): number {
  const cells = distance / across;
  return cells >= 1 ? sideUnits : cells <= -1 ? -sideUnits : Math.round(cells * sideUnits);
}

const half = sideUnits / 2;

/** Share of a cell on the cut side of a wall at `side`, in units of 1/16384. */
function cutShare(side: number): number {
  return side >= half ? 0 : side <= -half ? sideUnits : half - side;
}

/** Mean height of a cell, in units. */
export function cellHeight(floor: number, top: number, side: number): number {
  if (floor === top) return floor;
  return top - cutHeight(top - floor, side);
}

/** Mean height that is missing from a cell whose wall is `height` high and stands at `side`, in units. */
export function cutHeight(height: number, side: number): number {
  const cut = side >= half ? 0 : side <= -half ? sideUnits : half - side;
  return (height * cut * (1 / sideUnits) + 0.5) | 0;
}

/**
 * Cuts cell `at` down to `z` on the side of a wall at `side` (-16384 and less: the whole cell). Returns the mean height that was
 * removed, an exact difference of what the cell held before and after. Of three heights in one cell two become
 * one at equal volume.
 */
export function mergeCell(tile: Tile, at: number, z: number, side: number): number {
  const floors = tile.floor as Int32Array;
  const tops = tile.top as Int32Array;
  const sides = tile.side as Int16Array;
  let top = tops[at];
  if (z >= top || side >= sideUnits) return 0;
  let floor = floors[at];
  if (floor === top) {
    floors[at] = z;
    if (side <= -sideUnits) {
      tops[at] = z;
      return top - z;
    }
    sides[at] = side;
    return top - cellHeight(z, top, side);
  }
  const old = sides[at];
  const before = cellHeight(floor, top, old);
  let kept = old;
  if (side <= -sideUnits) {
    top = z;
    if (z <= floor + sameHeight) floor = z;
  } else if (z >= floor - sameHeight && z <= floor + sameHeight) {
    if (side >= old) return 0;
    kept = side;
  } else {
    const was = cutShare(old);
    const cut = cutShare(side);
    if (z < floor) {
      if (side > old + sameSide && was > 0) {
        // three heights: cut at z, was - cut at floor, the rest at top; the pair that is nearer in volume becomes one
        if (cut === 0) return 0;
        if (cut === sideUnits) {
          floors[at] = z;
          sides[at] = side;
          return before - z;
        }
        const lower = ((floor - z) * cut) / was;
        const upper = ((top - floor) * (sideUnits - was)) / (sideUnits - cut);
        if (lower < upper) {
          floor = Math.round((cut * z + (was - cut) * floor) / was);
        } else {
          top = Math.round(((was - cut) * floor + (sideUnits - was) * top) / (sideUnits - cut));
          floor = z;
          kept = side;
        }
      } else {
        floor = z;
        kept = side;
      }
    } else {
      if (side >= old || was === sideUnits || cut <= was) return 0;
      const lower = ((z - floor) * was) / cut;
      const upper = ((top - z) * (sideUnits - cut)) / (sideUnits - was);
      if (lower < upper) {
        floor = Math.round((was * floor + (cut - was) * z) / cut);
        kept = side;
      } else {
        top = Math.round(((cut - was) * z + (sideUnits - cut) * top) / (sideUnits - was));
      }
    }
  }
  if (floor > top) top = floor;
  floors[at] = floor;
  tops[at] = top;
  sides[at] = kept;
  return before - cellHeight(floor, top, kept);
}
