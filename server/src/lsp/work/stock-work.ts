import type { Left } from '../../review/cuts/earlier.ts';
import { latheCuts } from '../../review/cuts/lathe-cuts.ts';
import type { StockPlan } from '../../review/cuts/left-by.ts';
import { millCuts } from '../../review/cuts/mill-cuts.ts';
import type { Cuts, Program } from '../../review/program.ts';
import { figuresAt } from '../../stock/figures.ts';
import { latheFiguresAt } from '../../stock/lathe-run.ts';
import type { Lay } from '../../stock/left.ts';
import type { StockAnswer, StockLoad, StockOrder } from './stock-messages.ts';

/** The other side of the worker: posts orders, hears answers. */
export interface Post {
  post(order: StockOrder): void;
  hear(listen: (answer: StockAnswer) => void): void;
}

/** Rows of one frame as they come in. */
export class Received {
  done = 0;
  data = new Float64Array(0);

  take(from: number, to: number, total: number, rows: Float64Array): void {
    const width = to > from ? rows.length / (to - from) : 0;
    if (this.data.length < total * width) {
      const grown = new Float64Array(total * width);
      grown.set(this.data);
      this.data = grown;
    }
    this.data.set(rows, from * width);
    this.done = to;
  }
}

/** One cutting in work. */
export interface Cutting {
  readonly received: readonly Received[];
  readonly finished: boolean;
  /** Why the work broke off. */
  readonly lost?: string;
}

interface Running extends Cutting {
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
  /** Tiles or bars that the last finished order cut again after an edit; for tests. */
  cut_again = 0;

  constructor(private readonly worker: Post) {
    worker.hear(answer => this.take(answer));
  }

  /** Cuts a plan; `changed` is called as figures come in and once at the end. A cutting of the same review that runs is given up. */
  cut(review: string, plan: StockPlan, changed: (finished: boolean) => void): Cutting {
    const load = loadOf(plan);
    const received = load.frames.map(() => new Received());
    const run: Running = { order: ++this.orders, received, finished: false, changed };
    this.running.set(review, run);
    this.worker.post({ ask: 'cut', review, order: run.order, load });
    return run;
  }

  /** Cuts what a program before leaves, at its first work offset; the worker keeps a block under a name. A newer order for the same `review` ends this one. */
  leave(review: string, plan: StockPlan, lay: Lay): Promise<Left> {
    const order = ++this.orders;
    this.leaving.get(review)?.settle({ why: 'given up' });
    this.worker.post({ ask: 'leave', review, order, load: firstOf(loadOf(plan)), lay });
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
      if (answer.tell === 'end') this.cut_again = answer.cut_again;
      if (answer.tell === 'lost') run.lost = answer.why;
    }
    run.changed(run.finished);
  }

  private takeLeft(answer: StockAnswer): boolean {
    const waiting = this.leaving.get(answer.review);
    if (!waiting || waiting.order !== answer.order) return false;
    if (answer.tell !== 'left' && answer.tell !== 'lost') return false;
    this.leaving.delete(answer.review);
    if (answer.tell === 'lost') waiting.settle({ why: answer.why });
    else waiting.settle('why' in answer.left ? { ...answer.left, at: 'from' } : answer.left);
    return true;
  }
}

/** Figures of a program's steps, as far as they have come in. */
export function cutsOf(program: Program, plan: StockPlan, { received }: Cutting): Cuts {
  if (plan.kind === 'lathe') {
    const [rows] = received;
    return latheCuts(program, plan, {
      get done() {
        return rows.done;
      },
      at: move => latheFiguresAt(rows.data, move),
    });
  }
  return millCuts(
    plan,
    received.map(rows => ({
      get done() {
        return rows.done;
      },
      at: move => figuresAt(rows.data, move),
    })),
  );
}

/** What the worker needs of a plan. */
function loadOf(plan: StockPlan): StockLoad {
  if (plan.kind === 'lathe')
    return { kind: plan.kind, tools: plan.tools, frames: [{ bar: plan.bar, moves: plan.moves }] };
  const frames = plan.frames.map(({ block, moves }) => ({ block, moves }));
  return { kind: plan.kind, tools: plan.tools, frames };
}

function firstOf(load: StockLoad): StockLoad {
  return load.kind === 'lathe' ? load : { ...load, frames: load.frames.slice(0, 1) };
}
