/** The mill's stock: moves in, figures out, and what is left of the block. */

import { cutTile, type Place } from './cut-tile.ts';
import type { Cutter } from './cutter.ts';
import {
  addToFigures,
  beginFigures,
  endFigures,
  FigureTable,
  type MoveFigures,
  noteContacts,
} from './figures.ts';
import { type Grid, layGrid, type StockBlock } from './grid.ts';
import { type Kernel, kernelFor } from './kernel.ts';
import { emptyMoves, type Move, type MoveColumns, pushMove, spliceMoves } from './moves.ts';
import { MovePath } from './path.ts';
import { heightUnits, Tile, tileCells } from './tile.ts';
import { TileLog } from './tile-log.ts';

export interface MillOptions {
  /** Moves of a tile between states that are kept to start again from. */
  readonly snapshot_every?: number;
  /** What cuts; compiled when it can be. */
  readonly kernel?: (grid: Grid) => Kernel;
}

/** What an edit cost. */
export interface Replay {
  /** Tiles that were cut again. */
  readonly tiles: number;
  /** Moves cut again, counted once a tile. */
  readonly moves: number;
  /** First and last move whose figures may differ, -1 when none. */
  readonly first: number;
  readonly last: number;
}

/**
 * A block of metal and the moves that cut it, in order. Each tile of the field is cut on its own and remembers its moves,
 * so an edit cuts again only the tiles that the changed moves touch. Heights are counted in whole units: the removed volumes of
 * the moves add up exactly to what is missing from the block.
 *
 * Figures of a move are those of the stations along it (one at least each twentieth of the diameter): the engagement given as greatest is the one in the
 * middle of a twentieth of a diameter, not a peak that lasts an instant. In a sharp 90 degree corner at a side step of a tenth
 * that is 121.8 degrees, where the limit at the very corner would be 90 + 36.9.
 */
export class MillStock {
  readonly grid: Grid;
  readonly figures = new FigureTable();
  readonly moves: MoveColumns = emptyMoves();
  private readonly tools: readonly Cutter[];
  private readonly logs: TileLog[] = [];
  private readonly kernel: Kernel;
  private readonly path: MovePath;
  /** Tiles of the move in work, row by row: `nearCount` of them, of which `cutCount` are cut. */
  private readonly near: TileLog[] = [];
  private nearCount = 0;
  private cutCount = 0;
  private started = false;
  private readonly place: Place = { piece: 0, station: 0 };
  private readonly startUnits: number;
  /** Moves cut so far. */
  done = 0;

  constructor(block: StockBlock, tools: readonly Cutter[], options: MillOptions = {}) {
    this.grid = layGrid(block);
    this.kernel = (options.kernel ?? kernelFor)(this.grid);
    this.path = new MovePath(this.kernel);
    this.tools = tools;
    let units = 0;
    for (let ty = 0; ty < this.grid.tilesY; ty++) {
      for (let tx = 0; tx < this.grid.tilesX; tx++) {
        const { cells, blocks } = tileCells(this.grid, tx, ty);
        const tile = new Tile(this.grid, tx, ty, this.kernel.room(cells, blocks));
        const log = new TileLog(tile, options.snapshot_every ?? 512);
        units += log.tile.heightSum();
        this.logs.push(log);
      }
    }
    this.startUnits = units;
  }

  /** Cuts one move with tool `tool` of the list and returns its figures. */
  move(move: Move, tool = 0): MoveFigures {
    this.finish();
    pushMove(this.moves, move, tool);
    this.finish();
    return this.figures.at(this.done - 1);
  }

  /** Appends moves without cutting them yet. */
  append(moves: MoveColumns): void {
    spliceMoves(this.moves, this.moves.count, 0, moves);
  }

  /** Cuts all moves that wait. */
  finish(): void {
    while (this.step());
  }

  /** Works on the next move that waits, a few milliseconds at most; false when there is none. `done` counts finished moves. */
  step(): boolean {
    if (this.done >= this.moves.count) return false;
    const move = this.done;
    if (!this.started) {
      this.started = true;
      this.cutCount = 0;
      this.place.piece = 0;
      this.place.station = 0;
      if (this.prepare(move)) this.findTiles(move);
      else this.nearCount = 0;
    }
    if (this.cutCount < this.nearCount) {
      if (!this.cut(move, this.near[this.cutCount], this.place)) return true;
      this.place.piece = 0;
      this.place.station = 0;
      if (++this.cutCount < this.nearCount) return true;
    }
    this.started = false;
    this.done++;
    this.figures.resize(this.done);
    this.fold(move);
    return true;
  }

  /**
   * Replaces `removed` moves from `at` on by `inserted` and cuts again the tiles that old or new ones touch, from their last kept
   * state. The result equals a fresh run of the new list.
   */
  edit(at: number, removed: number, inserted: MoveColumns): Replay {
    this.finish();
    const dirty = new Set<TileLog>();
    for (let move = at; move < at + removed; move++) {
      for (const log of this.logs) if (log.find(move) >= 0) dirty.add(log);
    }
    spliceMoves(this.moves, at, removed, inserted);
    this.figures.splice(at, removed, inserted.count);
    this.done = this.moves.count;
    const fresh = new Map<TileLog, number[]>();
    for (let move = at; move < at + inserted.count; move++) {
      if (!this.prepare(move)) continue;
      this.findTiles(move);
      for (let k = 0; k < this.nearCount; k++) {
        const log = this.near[k];
        dirty.add(log);
        const own = fresh.get(log);
        if (own === undefined) fresh.set(log, [move]);
        else own.push(move);
      }
    }
    const shift = inserted.count - removed;
    const again = new Set<number>();
    let cuts = 0;
    for (const log of this.logs) {
      if (!dirty.has(log)) {
        if (shift !== 0) log.renumber(at + removed, shift);
        continue;
      }
      const first = log.firstFrom(at);
      const rest = log.firstFrom(at + removed);
      const old = log.steps.slice(0, log.count);
      const kept = log.rewind(first);
      this.kernel.forget();
      const steps: number[] = [...old.subarray(kept, first), ...(fresh.get(log) ?? [])];
      for (let k = rest; k < old.length; k++) steps.push(old[k] + shift);
      for (const move of steps) {
        this.prepare(move);
        this.cutAll(move, log);
        if (move >= at) again.add(move);
      }
      cuts += steps.length;
    }
    for (let move = at; move < at + inserted.count; move++) again.add(move);
    const changed = [...again].sort((a, b) => a - b);
    for (const move of changed) this.refold(move);
    return {
      tiles: dirty.size,
      moves: cuts,
      first: changed[0] ?? -1,
      last: changed[changed.length - 1] ?? -1,
    };
  }

  /** Volume of the uncut stock, mm3. */
  startVolume_mm3(): number {
    return this.volume(this.startUnits);
  }

  /** Volume that is left, mm3. */
  volume_mm3(): number {
    return this.volume(this.heightUnitsLeft());
  }

  /** Sum of all cell heights over the bottom, in units of 1/4096 mm: exact. */
  heightUnitsLeft(): number {
    let units = 0;
    for (const log of this.logs) units += log.tile.heightSum();
    return units;
  }

  /** Sum of the heights that the moves took, in the same units: exact. */
  heightUnitsRemoved(): number {
    let units = 0;
    for (const log of this.logs) for (let k = 0; k < log.count; k++) units += log.removed[k];
    return units;
  }

  heightUnitsAtStart(): number {
    return this.startUnits;
  }

  /** The tiles, row by row; read only. */
  tiles(): readonly Tile[] {
    return this.logs.map(log => log.tile);
  }

  /** How many moves each tile lists, row by row. */
  tileMoves(): number[] {
    return this.logs.map(log => log.count);
  }

  private volume(units: number): number {
    const { columns, rows, cx, cy, block } = this.grid;
    return (units / heightUnits - columns * rows * block.low[2]) * cx * cy;
  }

  private prepare(move: number): boolean {
    const tool = this.tools[this.moves.tool[move]];
    if (tool === undefined)
      throw new RangeError(`move ${move} names tool ${this.moves.tool[move]}, which is not in the list`);
    return this.path.prepare(this.moves, move, tool, this.grid);
  }

  private cut(move: number, log: TileLog, from: Place): boolean {
    const toolIndex = this.moves.tool[move];
    return cutTile(this.kernel, this.path, move, this.tools[toolIndex], toolIndex, log, from);
  }

  private cutAll(move: number, log: TileLog): void {
    const from = { piece: 0, station: 0 };
    while (!this.cut(move, log, from));
  }

  /** Lists in `near` the tiles that the prepared move comes to. */
  private findTiles(move: number): void {
    this.nearCount = 0;
    const tool = this.tools[this.moves.tool[move]];
    const { grid } = this;
    const { chain } = this.path;
    const margin = tool.widest_mm + 2 * Math.max(grid.cx, grid.cy);
    const p = chain.points;
    let x0 = Number.POSITIVE_INFINITY;
    let x1 = Number.NEGATIVE_INFINITY;
    let y0 = Number.POSITIVE_INFINITY;
    let y1 = Number.NEGATIVE_INFINITY;
    for (let k = 0; k <= chain.pieces; k++) {
      x0 = Math.min(x0, p[3 * k]);
      x1 = Math.max(x1, p[3 * k]);
      y0 = Math.min(y0, p[3 * k + 1]);
      y1 = Math.max(y1, p[3 * k + 1]);
    }
    const { low } = grid.block;
    const spanX = grid.tile * grid.cx;
    const spanY = grid.tile * grid.cy;
    const tx0 = Math.max(0, Math.floor((x0 - margin - low[0]) / spanX));
    const tx1 = Math.min(grid.tilesX - 1, Math.floor((x1 + margin - low[0]) / spanX));
    const ty0 = Math.max(0, Math.floor((y0 - margin - low[1]) / spanY));
    const ty1 = Math.min(grid.tilesY - 1, Math.floor((y1 + margin - low[1]) / spanY));
    for (let ty = ty0; ty <= ty1; ty++) {
      for (let tx = tx0; tx <= tx1; tx++) {
        const log = this.logs[ty * grid.tilesX + tx];
        if (chain.pieces > 1 || tx0 === tx1 || ty0 === ty1 || nearTile(log.tile, p, margin))
          this.near[this.nearCount++] = log;
      }
    }
  }

  private refold(move: number): void {
    if (this.prepare(move)) this.findTiles(move);
    else this.path.list.count = 0;
    this.fold(move);
  }

  /** Joins what the tiles saw of the prepared move into its figures. */
  private fold(move: number): void {
    beginFigures(this.path.list.count);
    const tool = this.tools[this.moves.tool[move]];
    const cell = this.grid.cx * this.grid.cy;
    if (this.path.list.count > 0) {
      if (tool.shape !== 'flat') {
        for (let k = 0; k < this.nearCount; k++) {
          const log = this.near[k];
          const record = log.find(move);
          if (record >= 0) noteContacts(log.rows, log.rowsFrom(record), log.rowsTo(record));
        }
      }
      for (let k = 0; k < this.nearCount; k++) {
        const log = this.near[k];
        const record = log.find(move);
        if (record < 0) continue;
        const removed = (log.removed[record] / heightUnits) * cell;
        addToFigures(log.rows, log.rowsFrom(record), log.rowsTo(record), removed, tool);
      }
    }
    this.figures.write(move, endFigures(this.path.list, 2 * tool.radius_mm));
  }
}

/** Makes the stock of a mill; `tools` is the list that the moves' tool index points into. */
export function createMillStock(
  block: StockBlock,
  tools: readonly Cutter[],
  options: MillOptions = {},
): MillStock {
  return new MillStock(block, tools, options);
}

/** Does the line come within `margin` of the tile, measured across the line. */
function nearTile(tile: Tile, p: Float64Array, margin: number): boolean {
  const dx = p[3] - p[0];
  const dy = p[4] - p[1];
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return true;
  const mx = (tile.xLow + tile.xHigh) / 2 - p[0];
  const my = (tile.yLow + tile.yHigh) / 2 - p[1];
  const across = Math.abs(mx * dy - my * dx) / length;
  const half =
    (Math.abs(dx) * (tile.yHigh - tile.yLow) + Math.abs(dy) * (tile.xHigh - tile.xLow)) / (2 * length);
  return across <= half + margin;
}
