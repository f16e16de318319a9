/** What happened to one tile: its moves in order, what each took there, and states to start again from. */
import { Rows } from './rows.ts';
import type { Tile, TileState } from './tile.ts';

interface Snapshot {
  readonly records: number;
  readonly state: TileState;
}

const mostSnapshots = 6;

export class TileLog {
  readonly tile: Tile;
  readonly rows = new Rows();
  count = 0;
  steps = new Uint32Array(16);
  /** Height taken by each record, in units. */
  removed = new Float64Array(16);
  private rowStart = new Uint32Array(16);
  private snapshots: Snapshot[] = [];
  private every: number;
  /** Moves to be cut after the records, rising; those before `next` have been. */
  private waiting: number[] = [];
  private next = 0;
  /** The cells hold more than the records. */
  private stale = false;

  constructor(tile: Tile, snapshotEvery: number) {
    this.tile = tile;
    this.every = snapshotEvery;
  }

  /** Starts the record of `step`; everything until the next start belongs to it. */
  begin(step: number): void {
    if (this.count > 0 && this.count % this.every === 0) this.keep();
    if (this.count === this.steps.length) {
      this.steps = grow(this.steps, new Uint32Array(2 * this.count));
      this.removed = grow(this.removed, new Float64Array(2 * this.count));
      this.rowStart = grow(this.rowStart, new Uint32Array(2 * this.count));
    }
    this.steps[this.count] = step;
    this.removed[this.count] = 0;
    this.rowStart[this.count] = this.rows.count;
    this.count++;
  }

  addRemoved(units: number): void {
    this.removed[this.count - 1] += units;
  }

  rowsFrom(record: number): number {
    return this.rowStart[record];
  }

  rowsTo(record: number): number {
    return record + 1 < this.count ? this.rowStart[record + 1] : this.rows.count;
  }

  /** Record of `step`, or -1. */
  find(step: number): number {
    if (this.count > 0 && this.steps[this.count - 1] === step) return this.count - 1;
    const at = this.firstFrom(step);
    return at < this.count && this.steps[at] === step ? at : -1;
  }

  /** First record whose step is `step` or later. */
  firstFrom(step: number): number {
    let low = 0;
    let high = this.count;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.steps[middle] < step) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** True when there is something to be cut again here. */
  get waits(): boolean {
    return this.stale || this.next < this.waiting.length;
  }

  /** The next move to be cut here. */
  get waitingMove(): number {
    return this.waiting[this.next];
  }

  /** The move that waited has been cut. */
  isCut(): void {
    this.next++;
  }

  /** The last record is of a move that was not cut to its end: it waits again. */
  takeBack(): void {
    this.truncate(this.count - 1);
  }

  /** Takes `removed` moves at `at` out and moves the numbers after them by `shift`. Cells stay until `putBack`. */
  splice(at: number, removed: number, shift: number): void {
    const end = at + removed;
    const first = this.firstFrom(at);
    if (first < this.firstFrom(end)) this.reopen(first);
    else if (shift !== 0) this.renumber(end, shift);
    if (this.next >= this.waiting.length) return;
    const left: number[] = [];
    for (let k = this.next; k < this.waiting.length; k++) {
      const move = this.waiting[k];
      if (move < at || move >= end) left.push(move < at ? move : move + shift);
    }
    this.waiting = left;
    this.next = 0;
  }

  /** Lets a move wait to be cut here. */
  need(move: number): void {
    const first = this.firstFrom(move);
    if (first < this.count) this.reopen(first);
    let low = this.next;
    let high = this.waiting.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.waiting[middle] < move) low = middle + 1;
      else high = middle;
    }
    this.waiting.splice(low, 0, move);
  }

  /** Puts the cells back to a kept state where they hold more than the records; false when they do not. */
  putBack(): boolean {
    if (!this.stale) return false;
    const before = this.steps.slice(0, this.count);
    const kept = this.rewind(this.count);
    this.waiting = [...before.subarray(kept), ...this.waiting.slice(this.next)];
    this.next = 0;
    this.stale = false;
    return true;
  }

  private reopen(first: number): void {
    this.waiting = [...this.steps.subarray(first, this.count), ...this.waiting.slice(this.next)];
    this.next = 0;
    this.truncate(first);
  }

  private truncate(records: number): void {
    if (records < this.count) this.rows.count = this.rowStart[records];
    this.count = records;
    this.stale = true;
  }

  /** Goes back to the last kept state with at most `records` records; returns how many are left. */
  private rewind(records: number): number {
    while (this.snapshots.length > 0 && this.snapshots[this.snapshots.length - 1].records > records)
      this.snapshots.pop();
    const to = this.snapshots[this.snapshots.length - 1];
    const tile = this.tile;
    if (to === undefined) {
      tile.clear();
      this.rows.count = 0;
      this.count = 0;
      return 0;
    }
    tile.restore(to.state);
    this.rows.count = to.records < this.count ? this.rowStart[to.records] : this.rows.count;
    this.count = to.records;
    return this.count;
  }

  /** Moves the step numbers at or after `from` by `shift`. */
  private renumber(from: number, shift: number): void {
    for (let at = this.firstFrom(from); at < this.count; at++) this.steps[at] += shift;
  }

  private keep(): void {
    const tile = this.tile;
    const last = this.snapshots[this.snapshots.length - 1];
    if (last !== undefined && last.records >= this.count) return;
    this.snapshots.push({ records: this.count, state: tile.keep() });
    if (this.snapshots.length > mostSnapshots) {
      this.snapshots = this.snapshots.filter((_, at) => at % 2 === 1);
      this.every *= 2;
    }
  }
}

function grow<T extends Uint32Array | Float64Array>(from: T, into: T): T {
  into.set(from);
  return into;
}
