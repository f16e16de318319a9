import { findJobFiles } from '../job/job-files.ts';
import { readOptions, reviewOf } from '../job/open-job.ts';
import { readSheets, type SheetReading } from '../job/sheet-reading.ts';
import { canCut } from '../review/cuts/cut-now.ts';
import { latheCuts } from '../review/cuts/lathe-cuts.ts';
import { millCuts } from '../review/cuts/mill-cuts.ts';
import { millPlan } from '../review/cuts/plan.ts';
import type { Cuts } from '../review/program.ts';
import type { Review } from '../review/review.ts';
import { readProgram } from '../rs274/index.ts';
import type { EditorFiles } from './editor-files.ts';
import type { OpenProgram } from './open-program.ts';
import type { Settings } from './settings.ts';
import type { StockWork } from './work/stock-work.ts';

/** A program in front with what stands beside it. */
export interface Job {
  readonly program: OpenProgram;
  readonly review: Review;
  readonly sheets: SheetReading;
  /** True while the stock is ordered or being worked out. */
  readonly busy: boolean;
}

interface Held {
  sheets: Promise<SheetReading>;
  review?: {
    version: number;
    settings: Settings;
    sheets: SheetReading;
    review: Review;
    cuts: Cuts | undefined;
  };
  /** Figures of moves as far as they are ready; those of unchanged moves stay while new ones are worked out. */
  cuts?: Cuts;
  /** Version of the program that `cuts` were ordered for. */
  ordered?: number;
  timer?: ReturnType<typeof setTimeout>;
  busy: boolean;
}

/** A pause in typing before the stock is worked out again, milliseconds. */
const STOCK_PAUSE_MS = 300;
/** More moves than this are not cut while the program is open; the terminal cuts all. */
const MOST_MOVES_LIVE = 200_000;
/** At most this often is the review made anew while figures come in, milliseconds. */
const STOCK_SHOW_MS = 400;

/** Reviews of the open programs, made when asked for and kept while nothing changed. */
export class Jobs {
  private readonly held = new Map<string, Held>();

  constructor(
    private readonly files: EditorFiles,
    private readonly open: (uri: string) => OpenProgram | undefined,
    private readonly settings: (uri: string) => Promise<Settings>,
    private readonly work: StockWork,
    private readonly changed: (uri: string, finished: boolean) => void,
  ) {}

  /** The review of an open program; undefined when it is not open. */
  async job(uri: string): Promise<Job | undefined> {
    const program = this.open(uri);
    if (!program) return undefined;
    const settings = await this.settings(uri);
    let held = this.held.get(uri);
    if (!held) {
      held = { sheets: this.sheets(uri, settings), busy: false };
      this.held.set(uri, held);
    }
    const sheets = await held.sheets;
    const kept = held.review;
    const fresh =
      kept &&
      kept.version === program.version &&
      kept.settings === settings &&
      kept.sheets === sheets &&
      kept.cuts === held.cuts;
    if (kept && fresh && program.reading) return { program, review: kept.review, sheets, busy: held.busy };
    program.reading ??= readProgram(program.text, readOptions(sheets, {}));
    const { cuts } = held;
    const review = reviewOf(program.reading, sheets, {
      shown: settings.units,
      severities: settings.findings,
      cuts,
    });
    held.review = { version: program.version, settings, sheets, review, cuts };
    if (held.ordered !== program.version) this.orderStock(uri, held, program, review);
    return { program, review, sheets, busy: held.busy };
  }

  /** The sheet and cribs of a file that need not be open. */
  async sheetsOf(uri: string): Promise<SheetReading> {
    return this.sheets(uri, await this.settings(uri));
  }

  private async sheets(uri: string, settings: Settings): Promise<SheetReading> {
    return readSheets(
      await findJobFiles(this.files, uri, settings.crib ? { personal_crib: settings.crib } : {}),
    );
  }

  /** Orders the stock of a program a moment after the last key. */
  private orderStock(uri: string, held: Held, program: OpenProgram, review: Review): void {
    held.ordered = program.version;
    clearTimeout(held.timer);
    held.busy = review.program.sheet !== undefined && canCut(review.program);
    if (!held.busy) return;
    held.timer = setTimeout(() => {
      if (this.held.get(uri) === held && program.version === held.ordered) this.cut(uri, held, review);
    }, STOCK_PAUSE_MS);
  }

  private cut(uri: string, held: Held, review: Review): void {
    const { program } = review;
    const { ordered } = held;
    const show = (cuts: Cuts | undefined, finished = true) => {
      held.cuts = cuts;
      held.busy = !finished || held.ordered !== ordered;
      this.changed(uri, finished);
    };
    if (program.kind === 'lathe') {
      const cuts = latheCuts(program);
      show('why' in cuts ? undefined : cuts);
      return;
    }
    const plan = millPlan(program, MOST_MOVES_LIVE);
    if ('why' in plan) {
      show(undefined);
      return;
    }
    let shown = 0;
    const run = this.work.cut(uri, plan, finished => {
      const now = performance.now();
      if (!finished && now - shown < STOCK_SHOW_MS) return;
      shown = now;
      show(millCuts(plan, run.sources), finished);
    });
  }

  /** Sheets and cribs may have changed: reads them again and settles the programs anew. */
  refresh(): void {
    for (const [uri, held] of this.held) {
      const program = this.open(uri);
      if (program) program.reading = undefined;
      clearTimeout(held.timer);
      this.work.cancel(uri);
    }
    this.held.clear();
  }

  forget(uri: string): void {
    clearTimeout(this.held.get(uri)?.timer);
    this.held.delete(uri);
    this.work.forget(uri);
  }
}
