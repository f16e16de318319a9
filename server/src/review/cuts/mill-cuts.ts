import type { StepCursor } from '../../rs274/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import type { StockBlock } from '../../stock/grid.ts';
import { type Collision, collisions } from '../../stock/keep-out.ts';
import { createMillStock, type MillStock } from '../../stock/mill.ts';
import type { MillPlan } from './plan.ts';

/** Figures of the steps of a mill program, as far as they are ready. */
export interface MillCuts {
  readonly kind: 'mill';
  readonly assumed: boolean;
  /** Why it is assumed, when not from the program's own cuts. */
  readonly assumed_why?: string;
  readonly left_out: readonly string[];
  /** What a step met; undefined for steps that are not cut or not ready. */
  figures(step: StepCursor): MoveFigures | undefined;
  /** First contacts of a step with jaws, clamps or chuck. */
  collisions(step: StepCursor): readonly Collision[];
  /** Name of a keep-out box at the step's work offset. */
  keepOutName(step: StepCursor, box: number): string;
  /** Height of the stock's top at the step's work offset, mm. */
  stockTop(step: StepCursor): number | undefined;
  /** The uncut stock at the step's work offset, mm. */
  block(step: StepCursor): StockBlock | undefined;
}

/** Where figures of moves come from: the stock itself, or columns that a worker sent. */
export interface FigureSource {
  readonly done: number;
  at(move: number): MoveFigures;
}

/** Cuts a plan whole, at once. */
export function cutPlan(plan: MillPlan): MillCuts {
  const stocks = plan.frames.map(frame => {
    const stock: MillStock = createMillStock(frame.block, plan.tools);
    stock.append(frame.moves);
    stock.finish();
    return stock;
  });
  return millCuts(
    plan,
    stocks.map(stock => ({ done: stock.done, at: (move: number) => stock.figures.at(move) })),
  );
}

/** Joins a plan with the figures of its moves. */
export function millCuts(plan: MillPlan, sources: readonly FigureSource[]): MillCuts {
  const place = (step: StepCursor): { frame: number; row: number } | undefined => {
    const rows = step.table && plan.rows.get(step.table);
    const frames = step.table && plan.frameOfTable.get(step.table);
    const row = rows?.[step.index] ?? -1;
    return row < 0 || !frames ? undefined : { frame: frames[step.index], row };
  };
  const assumed_why = plan.frames.find(frame => frame.assumed_why !== undefined)?.assumed_why;
  return {
    kind: 'mill',
    assumed: plan.frames.some(frame => frame.assumed),
    ...(assumed_why === undefined ? {} : { assumed_why }),
    left_out: plan.left_out,
    figures(step) {
      const at = place(step);
      const source = at && sources[at.frame];
      return at && source && at.row < source.done ? source.at(at.row) : undefined;
    },
    collisions(step) {
      const at = place(step);
      if (!at) return [];
      const { moves, keep_out } = plan.frames[at.frame];
      return collisions(moves, at.row, plan.tools[moves.tool[at.row]], keep_out);
    },
    keepOutName(step, box) {
      const at = place(step);
      return (at && plan.frames[at.frame].keep_out[box]?.what) ?? 'keep-out';
    },
    stockTop(step) {
      const at = place(step);
      return at && plan.frames[at.frame].block.high[2];
    },
    block(step) {
      const at = place(step);
      return at && plan.frames[at.frame].block;
    },
  };
}
