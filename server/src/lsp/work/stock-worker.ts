import { sameBar } from '../../stock/bar-left.ts';
import type { StockState } from '../../stock/end-state.ts';
import type { StockBlock } from '../../stock/grid.ts';
import { LatheRun } from '../../stock/lathe-run.ts';
import { leftOf } from '../../stock/left.ts';
import { createMillStock } from '../../stock/mill.ts';
import { difference, emptyMoves } from '../../stock/moves.ts';
import type { StockRun } from '../../stock/stock-run.ts';
import type { CutOrder, LeaveOrder, StockAnswer, StockLoad, StockOrder } from './stock-messages.ts';

/** Milliseconds of work between two looks at the messages. */
const PIECE_MS = 20;
/** Rows of figures sent at once. */
const MOST_ROWS = 8192;

interface Kept {
  /** Without the moves, which the stocks hold. */
  load: StockLoad;
  stocks: StockRun[];
}

/** An order in work, and what is done when its stocks are cut. */
interface Working {
  order: CutOrder | LeaveOrder;
  stocks: StockRun[];
  end: () => void;
}

/**
 * The worker's side: keeps the stock of each open program, cuts in pieces of at most 20 ms, and after an edit
 * cuts again only what changed moves touch. A newer order for the same program ends the one in work.
 */
export class StockWorker {
  private readonly kept = new Map<string, Kept>();
  private readonly current = new Map<string, number>();
  /** What programs before leave, by the name that orders use; one of each. */
  private readonly states = new Map<string, { key: string; state: StockState }>();

  constructor(
    private readonly tell: (answer: StockAnswer) => void,
    private readonly now: () => number,
    /** Runs a piece later, so that messages come through between. */
    private readonly later: (piece: () => void) => void,
  ) {}

  take(order: StockOrder): void {
    if (order.ask === 'cancel' || order.ask === 'forget') {
      this.current.delete(order.review);
      if (order.ask === 'forget') {
        this.kept.delete(order.review);
        this.states.delete(order.review);
      }
      return;
    }
    this.current.set(order.review, order.order);
    try {
      if (order.ask === 'leave') this.leave(order);
      else this.cut(order);
    } catch (error) {
      this.lost(order, String(error));
    }
  }

  private cut(order: CutOrder): void {
    const { review, load } = order;
    const before = this.kept.get(review);
    const stocks =
      before && sameStocks(before.load, load) ? edited(before.stocks, load) : this.stocksOf(load);
    this.kept.set(review, { load: withoutMoves(load), stocks });
    const end = () => {
      const cut_again = stocks.reduce((sum, stock) => sum + stock.cut_again, 0);
      this.tell({ tell: 'end', review, order: order.order, cut_again });
    };
    this.advance({ order, stocks, end }, 0, 0);
  }

  private leave(order: LeaveOrder): void {
    const { review } = order;
    const stocks = this.stocksOf(order.load);
    const end = () => {
      const left = leftOf(stocks[0], order.lay);
      if (!('state' in left)) {
        this.tell({ tell: 'left', review, order: order.order, left });
        return;
      }
      const key = `${review}/${order.order}`;
      this.states.set(review, { key, state: left.state });
      const { floor: _floor, top: _top, side: _side, ...head } = left.state;
      this.tell({ tell: 'left', review, order: order.order, left: { kept: { ...head, key } } });
    };
    this.advance({ order, stocks, end }, 0, 0);
  }

  /** Stocks ready to be cut, with the cells of the states that they start from. */
  private stocksOf(load: StockLoad): StockRun[] {
    const stocks =
      load.kind === 'lathe'
        ? load.frames.map(({ bar }) => new LatheRun(bar, load.tools))
        : load.frames.map(({ block }) => createMillStock(this.withCells(block), load.tools));
    stocks.forEach((stock, index) => {
      stock.append(load.frames[index].moves);
    });
    return stocks;
  }

  private withCells({ kept, ...bare }: StockBlock): StockBlock {
    if (kept === undefined) return bare;
    const held = [...this.states.values()].find(({ key }) => key === kept);
    if (!held) throw new RangeError(`what the stock starts from (${kept}) is not here any more`);
    return { ...bare, state: held.state };
  }

  private lost({ review, order }: CutOrder | LeaveOrder, why: string): void {
    this.kept.delete(review);
    this.current.delete(review);
    this.tell({ tell: 'lost', review, order, why });
  }

  /** Works one piece of the stock number `frame`, of which `sent` rows have been sent. */
  private advance(work: Working, frame: number, sent: number): void {
    const { order, stocks } = work;
    if (this.current.get(order.review) !== order.order) return;
    try {
      if (frame >= stocks.length) {
        work.end();
        return;
      }
      const stock = stocks[frame];
      const end = this.now() + PIECE_MS;
      let more = true;
      while (more && this.now() < end) more = stock.step();
      const to = order.ask === 'cut' ? Math.min(stock.done, sent + MOST_ROWS) : stock.done;
      if (order.ask === 'cut') this.send(order, frame, stock, sent, to);
      const finished = !more && to >= stock.done;
      this.later(() => this.advance(work, finished ? frame + 1 : frame, finished ? 0 : to));
    } catch (error) {
      this.lost(order, String(error));
    }
  }

  private send({ review, order }: CutOrder, frame: number, stock: StockRun, from: number, to: number): void {
    const rows = stock.rows(from, to);
    this.tell({ tell: 'piece', review, order, frame, from, to, total: stock.moves.count, rows });
  }
}

function withoutMoves(load: StockLoad): StockLoad {
  const moves = emptyMoves(0);
  return load.kind === 'lathe'
    ? { ...load, frames: load.frames.map(({ bar }) => ({ bar, moves })) }
    : { ...load, frames: load.frames.map(({ block }) => ({ block, moves })) };
}

/** True when only moves differ. */
function sameStocks(before: StockLoad, after: StockLoad): boolean {
  if (JSON.stringify(before.tools) !== JSON.stringify(after.tools)) return false;
  if (before.frames.length !== after.frames.length) return false;
  if (before.kind === 'lathe' && after.kind === 'lathe')
    return before.frames.every(({ bar }, index) => sameBar(bar, after.frames[index].bar));
  if (before.kind !== 'mill' || after.kind !== 'mill') return false;
  const words = ({ state: _cells, ...block }: StockBlock) => JSON.stringify(block);
  return before.frames.every(({ block }, index) => words(block) === words(after.frames[index].block));
}

/** The stocks that stand, with what an edit touches waiting to be cut again. */
function edited(stocks: StockRun[], load: StockLoad): StockRun[] {
  stocks.forEach((stock, index) => {
    const { at, removed, inserted } = difference(stock.moves, load.frames[index].moves);
    if (removed > 0 || inserted.count > 0) stock.beginEdit(at, removed, inserted);
  });
  return stocks;
}
