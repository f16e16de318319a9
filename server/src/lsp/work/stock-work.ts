import type { FigureSource } from '../../review/cuts/mill-cuts.ts';
import type { MillPlan } from '../../review/cuts/plan.ts';
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
}

interface Running extends StockRun {
  order: number;
  received: Received[];
  finished: boolean;
  changed: (finished: boolean) => void;
}

/** Long stock work of the open programs, one at a time for each, behind one small interface. */
export class StockWork {
  private readonly running = new Map<string, Running>();
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

  cancel(review: string): void {
    if (this.running.delete(review)) this.worker.post({ ask: 'cancel', review });
  }

  forget(review: string): void {
    this.running.delete(review);
    this.worker.post({ ask: 'forget', review });
  }

  private take(answer: StockAnswer): void {
    const run = this.running.get(answer.review);
    if (!run || run.order !== answer.order) return;
    if (answer.tell === 'piece')
      run.received[answer.frame]?.take(answer.from, answer.to, answer.total, answer.rows);
    else {
      run.finished = true;
      this.tiles = answer.tiles;
    }
    run.changed(run.finished);
  }
}
