import type { Cutter } from '../../stock/cutter.ts';
import type { KeptState } from '../../stock/end-state.ts';
import type { StockBlock } from '../../stock/grid.ts';
import type { BarStock } from '../../stock/lathe-profile.ts';
import type { LatheTool } from '../../stock/lathe-run.ts';
import type { Lay } from '../../stock/left.ts';
import type { MoveColumns } from '../../stock/moves.ts';

/** Stocks with the moves that cut them: those of a mill's work offsets, or the bar of a lathe. */
export type StockLoad =
  | { kind: 'mill'; tools: Cutter[]; frames: { block: StockBlock; moves: MoveColumns }[] }
  | { kind: 'lathe'; tools: LatheTool[]; frames: { bar: BarStock; moves: MoveColumns }[] };

/** What the worker is asked to do. Buffers are copies; nothing is shared. */
export type StockOrder =
  | { ask: 'cut'; review: string; order: number; load: StockLoad }
  | {
      /** Cuts one frame and says what is left, laid as the next set-up has it; a block's cells are kept under the name `review`/`order`. */
      ask: 'leave';
      review: string;
      order: number;
      load: StockLoad;
      lay: Lay;
    }
  | { ask: 'cancel'; review: string }
  | { ask: 'forget'; review: string };

export type CutOrder = Extract<StockOrder, { ask: 'cut' }>;
export type LeaveOrder = Extract<StockOrder, { ask: 'leave' }>;

/** Figures that are ready: rows `from` to `to` of a frame, one after the other. */
export interface StockPiece {
  tell: 'piece';
  review: string;
  order: number;
  frame: number;
  from: number;
  to: number;
  total: number;
  rows: Float64Array;
}

export type StockAnswer =
  | StockPiece
  /** `cut_again`: tiles or bars that had to be cut again after an edit. */
  | { tell: 'end'; review: string; order: number; cut_again: number }
  | {
      tell: 'left';
      review: string;
      order: number;
      left: { kept: KeptState } | { bar: BarStock } | { why: string };
    }
  /** The order cannot be carried out: what it starts from is not kept here, or the work broke off. */
  | { tell: 'lost'; review: string; order: number; why: string };
