/** The mill's stock: moves in, figures out, and what is left of the block. */

import { cutTile, type Place } from './cut-tile.ts';
import type { Cutter } from './cutter.ts';
import {
  addToFigures,
  beginFigures,
  endFigures,
  FigureTable,
  figureNames,
  type MoveFigures,
  noteContacts,
} from './figures.ts';
import { type Grid, layGrid, type StockBlock } from './grid.ts';
import { type Kernel, kernelFor } from './kernel.ts';
import { MillRedo, type Recutter } from './mill-redo.ts';
import { emptyMoves, type Move, type MoveColumns, pushMove, spliceMoves } from './moves.ts';
import { MovePath } from './path.ts';
import type { StockRun } from './stock-run.ts';
import { heightUnits, Tile, tileCells } from './tile.ts';
import { TileLog } from './tile-log.ts';
import { tilesNear } from './tiles-near.ts';

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
export class MillStock implements StockRun {
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
  private cutMoves = 0;
  private redo: MillRedo | undefined;
  private lastRedo: MillRedo | undefined;
  private readonly recutter: Recutter;
  readonly width = figureNames.length;

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
    this.recutter = {
      logs: this.logs,
      near: move => {
        if (!this.prepare(move)) return [];
        this.findTiles(move);
        return this.near.slice(0, this.nearCount);
      },
      prepare: move => this.prepare(move),
      cut: (move, log, from) => this.cut(move, log, from),
      fold: move => this.refold(move),
      forget: () => this.kernel.forget(),
    };
  }

  /** Moves from the first that are cut and have their figures. */
  get done(): number {
    return this.redo ? Math.min(this.redo.ready, this.cutMoves) : this.cutMoves;
  }

  /** Tiles that the last edit cut again. */
  get cut_again(): number {
    return this.lastRedo?.tiles.size ?? 0;
  }

  rows(from: number, to: number): Float64Array {
    return this.figures.rows(from, to);
  }

  /** Cuts one move with tool `tool` of the list and returns its figures. */
  move(move: Move, tool = 0): MoveFigures {
    this.finish();
    pushMove(this.moves, move, tool);
    this.finish();
    return this.figures.at(this.cutMoves - 1);
  }

  /** Appends moves without cutting them yet. */
  append(moves: MoveColumns): void {
    spliceMoves(this.moves, this.moves.count, 0, moves);
  }

  /** Cuts all moves that wait. */
  finish(): void {
    while (this.step());
  }

  /** Works on the next move that waits, a few milliseconds at most; false when there is none. After an edit first on what is to be cut again. */
  step(): boolean {
    if (this.redo) {
      if (this.redo.step()) return true;
      this.redo = undefined;
    }
    if (this.cutMoves >= this.moves.count) return false;
    const move = this.cutMoves;
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
    this.cutMoves++;
    this.figures.resize(this.cutMoves);
    this.fold(move);
    return true;
  }

  /**
   * Replaces `removed` moves from `at` on by `inserted` and lets the tiles wait that old or new ones touch; `step` cuts them again, from
   * their last kept state. The result equals a fresh run of the new list.
   */
  beginEdit(at: number, removed: number, inserted: MoveColumns): void {
    spliceMoves(this.moves, at, removed, inserted);
    if (at > this.cutMoves || (at === this.cutMoves && !this.started)) return;
    if (!this.redo) {
      this.redo = new MillRedo(this.recutter);
      this.lastRedo = this.redo;
    }
    if (this.started) {
      this.started = false;
      for (let k = 0; k < this.nearCount; k++)
        if (this.near[k].find(this.cutMoves) >= 0) this.near[k].takeBack();
    }
    // moves that have not been cut yet need no tiles put back
    const cut = Math.min(at + removed, this.cutMoves) - at;
    const now = at < this.cutMoves ? inserted.count : 0;
    this.figures.splice(at, cut, now);
    this.cutMoves += now - cut;
    this.redo.begin(at, cut, now);
  }

  /** Carries out an edit at once. */
  edit(at: number, removed: number, inserted: MoveColumns): Replay {
    this.beginEdit(at, removed, inserted);
    const { redo } = this;
    this.finish();
    return { tiles: this.cut_again, moves: redo?.moves ?? 0, ...(redo?.span ?? { first: -1, last: -1 }) };
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

  /** Lists in `near` the tiles that the prepared move comes to. */
  private findTiles(move: number): void {
    const tool = this.tools[this.moves.tool[move]];
    this.nearCount = tilesNear(this.path.chain, tool.widest_mm, this.grid, this.logs, this.near);
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
