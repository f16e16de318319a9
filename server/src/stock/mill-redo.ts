/** What has to be cut again after edits of a mill's moves, worked off step by step; a further edit may come between. */
import type { Place } from './cut-tile.ts';
import type { TileLog } from './tile-log.ts';

/** What the stock does for it with one move. */
export interface Recutter {
  readonly logs: readonly TileLog[];
  /** Tiles that a move comes to; it is the prepared one then. */
  near(move: number): readonly TileLog[];
  prepare(move: number): void;
  /** Cuts a bounded part of the prepared move in one tile; true when the tile is finished. */
  cut(move: number, log: TileLog, from: Place): boolean;
  /** Joins what the tiles saw of a move into its figures. */
  fold(move: number): void;
  /** To be called when a tile was put back. */
  forget(): void;
}

export class MillRedo {
  /** Tiles cut again. */
  readonly tiles = new Set<TileLog>();
  /** Moves cut again, counted once a tile. */
  moves = 0;
  /** Moves from the first whose figures are right. */
  ready = Number.POSITIVE_INFINITY;
  /** Moves whose figures are made anew. */
  private changed = new Set<number>();
  /** Inserted moves whose tiles are not known yet, rising: `from <= move < to`. */
  private unplaced: [from: number, to: number][] = [];
  private log = 0;
  private readonly place: Place = { piece: 0, station: 0 };
  private cutting = false;
  /** `changed` in order, once all tiles are cut, and how many of them have their figures. */
  private order: number[] | undefined;
  private folded = 0;

  constructor(private readonly stock: Recutter) {}

  /** First and last move whose figures are made anew, -1 when none. */
  get span(): { first: number; last: number } {
    const order = this.order ?? [];
    return { first: order[0] ?? -1, last: order[order.length - 1] ?? -1 };
  }

  /** Takes up an edit: `removed` moves at `at` have been replaced by `inserted` ones. Cuts nothing. */
  begin(at: number, removed: number, inserted: number): void {
    const { logs } = this.stock;
    if (this.cutting) logs[this.log].takeBack();
    const end = at + removed;
    const shift = inserted - removed;
    const moved = (move: number) => (move < end ? move : move + shift);
    for (const log of logs) log.splice(at, removed, shift);
    const left: [number, number][] = [];
    for (const [from, to] of this.unplaced) {
      if (from < at) left.push([from, Math.min(to, at)]);
      if (to > end) left.push([moved(Math.max(from, end)), moved(to)]);
    }
    if (inserted > 0) left.push([at, at + inserted]);
    this.unplaced = left.sort((a, b) => a[0] - b[0]);
    const changed = new Set<number>();
    for (const move of this.changed) if (move < at || move >= end) changed.add(moved(move));
    this.changed = changed;
    this.ready = Math.min(this.ready, at);
    this.log = 0;
    this.cutting = false;
    this.order = undefined;
    this.folded = 0;
  }

  /** Looks for the tiles of one move, or puts one tile back, or cuts or folds a bounded part; false when all is done. */
  step(): boolean {
    return this.findTiles() || this.cutTile() || this.foldMove();
  }

  private findTiles(): boolean {
    const [range] = this.unplaced;
    if (!range) return false;
    const move = range[0]++;
    if (range[0] >= range[1]) this.unplaced.shift();
    this.changed.add(move);
    for (const log of this.stock.near(move)) log.need(move);
    return true;
  }

  private cutTile(): boolean {
    const { logs } = this.stock;
    while (this.log < logs.length && !logs[this.log].waits) this.log++;
    const log = logs[this.log];
    if (!log) return false;
    this.tiles.add(log);
    if (log.putBack()) {
      this.stock.forget();
      return true;
    }
    const move = log.waitingMove;
    if (!this.cutting) {
      this.cutting = true;
      this.place.piece = 0;
      this.place.station = 0;
      this.stock.prepare(move);
    }
    if (!this.stock.cut(move, log, this.place)) return true;
    this.cutting = false;
    log.isCut();
    this.moves++;
    if (move >= this.ready) this.changed.add(move);
    return true;
  }

  private foldMove(): boolean {
    this.order ??= [...this.changed].sort((a, b) => a - b);
    const { order } = this;
    if (this.folded >= order.length) return false;
    this.stock.fold(order[this.folded++]);
    if (this.folded < order.length) this.ready = order[this.folded];
    return true;
  }
}
