/**
 * One tile of the height field. A cell holds two heights and where the wall between them stands: `floor` on the cut side,
 * `top` on the other, `side` the distance of the cell's centre from the wall, negative on the cut side, in units of the cell's
 * width across that wall. A share `0.5 - side` (held to 0..1) of the cell stands at `floor`. Cells without a wall
 * have floor = top; a `floor` over `top` tells of round tools, see `roundCut` and `besideRim`. Walls finer than a cell make narrow passes exact
 * and give the engagement sub-cell edges.
 *
 * Heights are whole numbers of 1/4096 mm, so that sums of removed height are exact in any order; sides are whole
 * numbers of 1/16384 cell. A tile has one column and one row more than it owns (its neighbours' first), so that it can be
 * read without them.
 */
import type { Grid, StartState } from './grid.ts';
import { cellHeight, heightUnits, mergeCell, sideUnits } from './kernel/cells.ts';
import { useCells } from './kernel/memory.ts';

export { cellHeight, heightUnits, sideUnits };

/** Cells along the side of a block whose bound is kept. */
const blockCells = 16;

/** Where a tile keeps its numbers; `cells` is asked for when the first cut comes. */
export interface TileRoom {
  cells(): { readonly floor: Int32Array; readonly top: Int32Array; readonly side: Int16Array };
  /** Upper bound of the heights in blocks of 16 x 16 cells, and cuts since it was looked up. */
  readonly blockTop: Int32Array;
  readonly blockAge: Uint8Array;
  /** End of the last piece swept here (x, y, z, tool): the next piece that starts there need not cut its start again. */
  readonly last: Float64Array;
}

/** Cells that a tile holds, its own and the neighbours' first, and blocks. */
export function tileCells(grid: Grid, tx: number, ty: number): { cells: number; blocks: number } {
  const nw = Math.min(grid.tile + 1, grid.columns - tx * grid.tile);
  const nh = Math.min(grid.tile + 1, grid.rows - ty * grid.tile);
  return { cells: nw * nh, blocks: Math.ceil(nw / blockCells) * Math.ceil(nh / blockCells) };
}

/** What a tile held at some time. */
export interface TileState {
  readonly floor: Int32Array | undefined;
  readonly top: Int32Array | undefined;
  readonly side: Int16Array | undefined;
  readonly blockTop: Int32Array;
  readonly blockAge: Uint8Array;
  readonly last: Float64Array;
}

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
  floor: Int32Array | undefined;
  top: Int32Array | undefined;
  side: Int16Array | undefined;
  readonly room: TileRoom;
  readonly grid: Grid;

  constructor(grid: Grid, tx: number, ty: number, room: TileRoom) {
    this.grid = grid;
    this.room = room;
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
    this.clear();
  }

  /** Back to the uncut stock. */
  clear(): void {
    this.floor = undefined;
    this.top = undefined;
    this.side = undefined;
    this.room.blockTop.fill(toUnits(this.grid.block.high[2]));
    this.room.blockAge.fill(0);
    this.room.last.fill(Number.NaN);
    if (this.grid.block.round !== undefined || this.grid.block.state !== undefined) this.fill();
  }

  /** Makes the arrays, filled with the uncut stock. */
  fill(): void {
    const block = this.grid.block;
    const high = toUnits(block.high[2]);
    const { floor, top, side } = this.room.cells();
    this.floor = floor.fill(high);
    this.top = top.fill(high);
    this.side = side.fill(0);
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
    this.use(() => undefined);
    const low = toUnits(this.grid.block.low[2]);
    for (let j = 0; j < this.nh; j++) {
      for (let i = 0; i < this.nw; i++) {
        const dx = this.ox + i * cx - x;
        const dy = this.oy + j * cy - y;
        const distance = Math.hypot(dx, dy);
        const across = distance > 0 ? (cx * Math.abs(dx) + cy * Math.abs(dy)) / distance : cx;
        mergeCell(j * this.stride + i, low, sideOf(sign * (radius - distance), across));
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

  /** Hands the cells to the plain kernel; `filled` is called when it finds none yet. */
  use(filled: () => void): void {
    const { blockTop, blockAge, last } = this.room;
    useCells(this.floor ?? none, this.top ?? none, this.side ?? noSide, blockTop, blockAge, last, filled);
  }

  /** A copy of what the tile holds. */
  keep(): TileState {
    return {
      floor: this.floor?.slice(),
      top: this.top?.slice(),
      side: this.side?.slice(),
      blockTop: this.room.blockTop.slice(),
      blockAge: this.room.blockAge.slice(),
      last: this.room.last.slice(),
    };
  }

  /** Back to what `keep` gave. */
  restore(state: TileState): void {
    const { floor, top, side } = state;
    if (floor === undefined || top === undefined || side === undefined) {
      this.clear();
      return;
    }
    const cells = this.room.cells();
    cells.floor.set(floor);
    cells.top.set(top);
    cells.side.set(side);
    this.floor = cells.floor;
    this.top = cells.top;
    this.side = cells.side;
    this.room.blockTop.set(state.blockTop);
    this.room.blockAge.set(state.blockAge);
    this.room.last.set(state.last);
  }
}

const none = new Int32Array(0);
const noSide = new Int16Array(0);

/** A distance from a wall as units of `side`, held to one cell either way. */
export function sideOf(distance: number, across: number): number {
  const cells = distance / across;
  return cells >= 1 ? sideUnits : cells <= -1 ? -sideUnits : Math.round(cells * sideUnits);
}
