import type { Cutter } from '../../stock/cutter.ts';
import { endState, laid, type StockState } from '../../stock/end-state.ts';
import { figureNames } from '../../stock/figures.ts';
import type { StockBlock } from '../../stock/grid.ts';
import { createMillStock, type MillStock } from '../../stock/mill.ts';
import { emptyMoves, type MoveColumns, numbersPerMove, spliceMoves } from '../../stock/moves.ts';
import type { CutOrder, LeaveOrder, StockAnswer, StockOrder } from './stock-messages.ts';

/** Milliseconds of work between two looks at the messages. */
const PIECE_MS = 20;
const WIDTH = figureNames.length;

interface Kept {
  key: string;
  stocks: MillStock[];
}

/** An order in work, and what is done when its stocks are cut. */
interface Working {
  order: CutOrder | LeaveOrder;
  stocks: MillStock[];
  end: () => void;
}

/**
 * The worker's side: keeps the stock of each open program, cuts in pieces of at most 20 ms, and after an edit
 * cuts again only the tiles of changed moves.
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
    const key = JSON.stringify([
      order.tools,
      order.frames.map(frame => ({ ...frame.block, state: undefined })),
    ]);
    const before = this.kept.get(order.review);
    if (before?.key === key && before.stocks.every(stock => stock.done === stock.moves.count)) {
      this.edit(order, before);
      return;
    }
    const stocks = order.frames.map(frame => this.stockOf(frame, order.tools));
    this.kept.set(order.review, { key, stocks });
    const end = () => this.tell({ tell: 'end', review: order.review, order: order.order, tiles: 0 });
    this.advance({ order, stocks, end }, 0);
  }

  private leave(order: LeaveOrder): void {
    const stock = this.stockOf(order.frame, order.tools);
    const end = () => {
      const key = `${order.review}/${order.order}`;
      const state = laid(endState(stock), order.turn, order.zero_mm);
      this.states.set(order.review, { key, state });
      const { floor: _floor, top: _top, side: _side, ...head } = state;
      this.tell({ tell: 'left', review: order.review, order: order.order, kept: { ...head, key } });
    };
    this.advance({ order, stocks: [stock], end }, 0);
  }

  /** A stock ready to be cut, with the cells of the state that it starts from. */
  private stockOf(frame: { block: StockBlock; moves: MoveColumns }, tools: readonly Cutter[]): MillStock {
    const { kept, ...bare } = frame.block;
    let block: StockBlock = bare;
    if (kept !== undefined) {
      const held = [...this.states.values()].find(({ key }) => key === kept);
      if (!held) throw new RangeError(`what the stock starts from (${kept}) is not here any more`);
      block = { ...bare, state: held.state };
    }
    const stock = createMillStock(block, tools);
    stock.append(frame.moves);
    return stock;
  }

  private lost({ review, order }: CutOrder | LeaveOrder, why: string): void {
    this.kept.delete(review);
    this.current.delete(review);
    this.tell({ tell: 'lost', review, order, why });
  }

  private advance(work: Working, frame: number): void {
    const { order, stocks } = work;
    if (this.current.get(order.review) !== order.order) return;
    try {
      if (frame >= stocks.length) {
        work.end();
        return;
      }
      const stock = stocks[frame];
      const from = stock.done;
      const end = this.now() + PIECE_MS;
      let more = true;
      while (more && this.now() < end) more = stock.step();
      if (order.ask === 'cut') this.send(order, frame, stock, from, stock.done);
      this.later(() => this.advance(work, more ? frame : frame + 1));
    } catch (error) {
      this.lost(order, String(error));
    }
  }

  /** The same stock and tools: only what the edit touches is cut again. */
  private edit(order: CutOrder, kept: Kept): void {
    let tiles = 0;
    order.frames.forEach((frame, index) => {
      const stock = kept.stocks[index];
      const { at, removed, inserted } = difference(stock.moves, frame.moves);
      if (removed > 0 || inserted.count > 0) tiles += stock.edit(at, removed, inserted).tiles;
      this.send(order, index, stock, 0, stock.done);
    });
    this.tell({ tell: 'end', review: order.review, order: order.order, tiles });
  }

  private send(order: CutOrder, frame: number, stock: MillStock, from: number, to: number): void {
    const rows = new Float64Array((to - from) * WIDTH);
    for (let move = from; move < to; move++)
      for (let column = 0; column < WIDTH; column++)
        rows[(move - from) * WIDTH + column] = stock.figures.get(move, figureNames[column]);
    this.tell({
      tell: 'piece',
      review: order.review,
      order: order.order,
      frame,
      from,
      to,
      total: stock.moves.count,
      rows,
    });
  }
}

/** The one stretch in which two lists of moves differ. */
export function difference(
  before: MoveColumns,
  after: MoveColumns,
): { at: number; removed: number; inserted: MoveColumns } {
  const most = Math.min(before.count, after.count);
  let at = 0;
  while (at < most && sameMove(before, at, after, at)) at++;
  let tail = 0;
  while (tail < most - at && sameMove(before, before.count - 1 - tail, after, after.count - 1 - tail)) tail++;
  return { at, removed: before.count - at - tail, inserted: sliceMoves(after, at, after.count - tail) };
}

function sameMove(a: MoveColumns, i: number, b: MoveColumns, j: number): boolean {
  if (a.kind[i] !== b.kind[j] || a.plane[i] !== b.plane[j] || a.tool[i] !== b.tool[j]) return false;
  for (let k = 0; k < numbersPerMove; k++)
    if (a.numbers[i * numbersPerMove + k] !== b.numbers[j * numbersPerMove + k]) return false;
  return true;
}

function sliceMoves(from: MoveColumns, start: number, end: number): MoveColumns {
  const part: MoveColumns = {
    count: end - start,
    numbers: from.numbers.slice(start * numbersPerMove, end * numbersPerMove),
    kind: from.kind.slice(start, end),
    plane: from.plane.slice(start, end),
    tool: from.tool.slice(start, end),
  };
  const own = emptyMoves(Math.max(1, part.count));
  spliceMoves(own, 0, 0, part);
  return own;
}
