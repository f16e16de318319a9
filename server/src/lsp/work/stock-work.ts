import type { Left } from '../../review/cuts/earlier.ts';
import type { Lay } from '../../review/cuts/left-by.ts';
import type { FigureSource } from '../../review/cuts/mill-cuts.ts';
import type { FramePlan, MillPlan } from '../../review/cuts/plan.ts';
import type { Cutter } from '../../stock/cutter.ts';
import { type FigureName, figureNames, type MoveFigures } from '../../stock/figures.ts';
import type { StockAnswer, StockOrder } from './stock-messages.ts';

/** The other side of the worker: posts orders, hears answers. */
export interface Post {
  post(order: StockOrder): void;
  hear(listen: (answer: StockAnswer) => void): void;
}

const WIDTH = figureNames.length;

/** Figures of one frame as they come in. */
class Received implements FigureSource {
  done = 0;
  private rows = new Float64Array(0);

  take(from: number, to: number, total: number, rows: Float64Array): void {
    if (this.rows.length < total * WIDTH) {
      const grown = new Float64Array(total * WIDTH);
      grown.set(this.rows);
      this.rows = grown;
    }
    this.rows.set(rows, from * WIDTH);
    this.done = to;
  }

  at(move: number): MoveFigures {
    const figures = {} as MoveFigures;
    for (let column = 0; column < WIDTH; column++)
      figures[figureNames[column] as FigureName] = this.rows[move * WIDTH + column];
    return figures;
  }
}

/** One cutting in work. */
export interface StockRun {
  readonly sources: readonly FigureSource[];
  readonly finished: boolean;
  /** Why the work broke off. */
  readonly lost?: string;
}

interface Running extends StockRun {
  order: number;
  received: Received[];
  finished: boolean;
  lost?: string;
  changed: (finished: boolean) => void;
}

/** Long stock work of the open programs, one at a time for each, behind one small interface. */
export class StockWork {
  private readonly running = new Map<string, Running>();
  private readonly leaving = new Map<string, { order: number; settle: (left: Left) => void }>();
  private orders = 0;
  /** Tiles that the last finished order cut again after an edit; for tests. */
  tiles = 0;

  constructor(private readonly worker: Post) {
    worker.hear(answer => this.take(answer));
  }

  /** Cuts a plan; `changed` is called as figures come in and once at the end. A cutting of the same review that runs is given up. */
  cut(review: string, plan: MillPlan, changed: (finished: boolean) => void): StockRun {
    const received = plan.frames.map(() => new Received());
    const run: Running = { order: ++this.orders, sources: received, received, finished: false, changed };
    this.running.set(review, run);
    this.worker.post({
      ask: 'cut',
      review,
      order: run.order,
      tools: plan.tools,
      frames: plan.frames.map(({ block, moves }) => ({ block, moves })),
    });
    return run;
  }

  /** Cuts what a program before leaves; the worker keeps it under a name. A newer order for the same `review` ends this one. */
  leave(review: string, frame: FramePlan, tools: Cutter[], lay: Lay): Promise<Left> {
    const order = ++this.orders;
    this.leaving.get(review)?.settle({ why: 'given up' });
    const { block, moves } = frame;
    this.worker.post({ ask: 'leave', review, order, tools, frame: { block, moves }, ...lay });
    return new Promise(settle => this.leaving.set(review, { order, settle }));
  }

  cancel(review: string): void {
    if (this.running.delete(review)) this.worker.post({ ask: 'cancel', review });
  }

  forget(review: string): void {
    this.running.delete(review);
    this.worker.post({ ask: 'forget', review });
  }

  private take(answer: StockAnswer): void {
    if (this.takeLeft(answer)) return;
    const run = this.running.get(answer.review);
    if (!run || run.order !== answer.order) return;
    if (answer.tell === 'piece')
      run.received[answer.frame]?.take(answer.from, answer.to, answer.total, answer.rows);
    else {
      run.finished = true;
      if (answer.tell === 'end') this.tiles = answer.tiles;
      if (answer.tell === 'lost') run.lost = answer.why;
    }
    run.changed(run.finished);
  }

  private takeLeft(answer: StockAnswer): boolean {
    const waiting = this.leaving.get(answer.review);
    if (!waiting || waiting.order !== answer.order) return false;
    if (answer.tell !== 'left' && answer.tell !== 'lost') return false;
    this.leaving.delete(answer.review);
    waiting.settle(answer.tell === 'left' ? { kept: answer.kept } : { why: answer.why });
    return true;
  }
}
