import type { Cutter } from '../../stock/cutter.ts';
import type { KeptState, Turn } from '../../stock/end-state.ts';
import type { StockBlock } from '../../stock/grid.ts';
import type { MoveColumns } from '../../stock/moves.ts';

/** What the worker is asked to do. Buffers are copies; nothing is shared. */
export type StockOrder =
  | {
      ask: 'cut';
      review: string;
      order: number;
      tools: Cutter[];
      frames: { block: StockBlock; moves: MoveColumns }[];
    }
  | {
      /** Cuts one frame and keeps what is left, laid as the next set-up has it, under the name `review`/`order`. */
      ask: 'leave';
      review: string;
      order: number;
      tools: Cutter[];
      frame: { block: StockBlock; moves: MoveColumns };
      turn: Turn;
      zero_mm: readonly number[] | undefined;
    }
  | { ask: 'cancel'; review: string }
  | { ask: 'forget'; review: string };

export type CutOrder = Extract<StockOrder, { ask: 'cut' }>;
export type LeaveOrder = Extract<StockOrder, { ask: 'leave' }>;

/** Figures that are ready: rows `from` to `to` of a frame, `figureNames.length` numbers each. */
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
  | { tell: 'end'; review: string; order: number; tiles: number }
  | { tell: 'left'; review: string; order: number; kept: KeptState }
  /** The order cannot be carried out: what it starts from is not kept here, or the work broke off. */
  | { tell: 'lost'; review: string; order: number; why: string };
