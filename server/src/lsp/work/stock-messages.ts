import type { Cutter } from '../../stock/cutter.ts';
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
  | { ask: 'cancel'; review: string }
  | { ask: 'forget'; review: string };

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

export type StockAnswer = StockPiece | { tell: 'end'; review: string; order: number; tiles: number };
