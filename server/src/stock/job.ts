/** Long stock work in pieces, so that a worker can report, answer and be stopped between them. */

/** Anything that is worked off step by step: `MillStock` is. */
export interface Steps {
  readonly done: number;
  readonly moves: { readonly count: number };
  step(): boolean;
}

export interface Progress {
  /** Moves cut in this piece: `from <= move < to`. Their figures are ready. */
  readonly from: number;
  readonly to: number;
  readonly total: number;
  readonly finished: boolean;
}

export interface Job {
  /** Works for about `budget_ms` and says what is ready: no move, when one takes longer. */
  advance(budget_ms: number): Progress;
  /** No further move is cut; what is ready stays. */
  cancel(): void;
  readonly cancelled: boolean;
}

/**
 * Makes a job of the moves that wait in `stock`. `now` is the clock in ms, given so that this stays free of
 * it. The clock is read every four steps; long moves are divided into steps.
 */
export function stockJob(stock: Steps, now: () => number): Job {
  let cancelled = false;
  return {
    advance(budget_ms: number): Progress {
      const from = stock.done;
      const end = now() + budget_ms;
      for (let turn = 1; !cancelled && stock.step(); turn++) {
        if ((turn & 3) === 0 && now() >= end) break;
      }
      const total = stock.moves.count;
      return { from, to: stock.done, total, finished: cancelled || stock.done >= total };
    },
    cancel(): void {
      cancelled = true;
    },
    get cancelled(): boolean {
      return cancelled;
    },
  };
}
