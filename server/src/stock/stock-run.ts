import type { MoveColumns } from './moves.ts';

/** A stock with the moves that cut it, worked off step by step: that of a mill or of a lathe. */
export interface StockRun {
  readonly moves: MoveColumns;
  /** Moves from the first whose figures are ready. */
  readonly done: number;
  /** Works for a few milliseconds at most; false when there is nothing left to do. */
  step(): boolean;
  /** Appends moves without cutting them yet. */
  append(moves: MoveColumns): void;
  /** Replaces moves; what has to be cut again is cut by `step`. May come before the first cutting or an earlier edit is worked off. */
  beginEdit(at: number, removed: number, inserted: MoveColumns): void;
  /** Tiles, or bars, that the last edit cut again. */
  readonly cut_again: number;
  /** Numbers that a row of figures has. */
  readonly width: number;
  /** Copies the rows `from <= move < to` one after the other. */
  rows(from: number, to: number): Float64Array;
}
