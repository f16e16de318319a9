import { findJobFiles } from '../job/job-files.ts';
import { readOptions, reviewOf } from '../job/open-job.ts';
import { readSheets, type SheetReading } from '../job/sheet-reading.ts';
import { canCut } from '../review/cuts/cut-now.ts';
import type { Cuts } from '../review/program.ts';
import type { Review } from '../review/review.ts';
import { type Reading, readProgram } from '../rs274/index.ts';
import { EarlierStock, EarlierView } from './earlier-stock.ts';
import type { EditorFiles } from './editor-files.ts';
import type { OpenProgram } from './open-program.ts';
import { readOn, rightLines } from './read-on.ts';
import type { Settings } from './settings.ts';
import { nextTurn } from './turns.ts';
import { cutsOf, type StockWork } from './work/stock-work.ts';

/** A program in front with what stands beside it. */
export interface Job {
  readonly program: OpenProgram;
  readonly review: Review;
  readonly sheets: SheetReading;
  /** True while the stock is ordered or being worked out. */
  readonly busy: boolean;
  /** Lines from the first that are right while the rest is still to be read again; undefined when all is read. */
  readonly right_lines?: number;
}

/** A program in front with what is needed to read and review it. */
interface Opened {
  program: OpenProgram;
  settings: Settings;
  held: Held;
  sheets: SheetReading;
}

interface Held {
  sheets: Promise<SheetReading>;
  review?: {
    version: number;
    settings: Settings;
    sheets: SheetReading;
    review: Review;
    cuts: Held['cuts'];
  };
  /** Figures of moves as far as they are ready; those of unchanged moves stay while new ones are worked out. Or why there are none. */
  cuts?: Cuts | { why: string };
  /** What is known of the programs that the stock starts from. */
  earlier: EarlierView;
  /** Version of the program that `cuts` were ordered for. */
  ordered?: number;
  timer?: ReturnType<typeof setTimeout>;
  busy: boolean;
  /** Hints were given before the whole program was read. */
  early: boolean;
  tried_again?: boolean;
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
  private readonly earlier: EarlierStock;

  constructor(
    private readonly files: EditorFiles,
    private readonly open: (uri: string) => OpenProgram | undefined,
    private readonly settings: (uri: string) => Promise<Settings>,
    private readonly work: StockWork,
    private readonly changed: (uri: string, finished: boolean) => void,
    watch: (folder: string, uri: string) => void,
  ) {
    this.earlier = new EarlierStock(files, open, settings, work, watch);
  }

  /** The review of an open program; undefined when it is not open. */
  async job(uri: string): Promise<Job | undefined> {
    for (;;) {
      const opened = await this.opened(uri);
      if (!opened) return undefined;
      if (this.read(opened).whole) return this.reviewed(uri, opened);
      await nextTurn();
    }
  }

  /**
   * The review of an open program, right at least up to a line (0-based): after an edit that has a long program read again,
   * it does not wait for what stands further down. `given_up` ends the waiting.
   */
  async jobUpTo(uri: string, line: number, given_up: () => boolean): Promise<Job | undefined> {
    while (!given_up()) {
      const opened = await this.opened(uri);
      if (!opened) return undefined;
      const reading = this.read(opened, line);
      if (reading.whole) return this.reviewed(uri, opened);
      const { held, sheets, settings, program } = opened;
      // Figures of the stock belong to moves of the whole program.
      const right_lines = held.cuts && !('why' in held.cuts) ? 0 : rightLines(reading);
      if (right_lines > line) {
        held.early = true;
        const review = this.review(reading, sheets, settings, held);
        return { program, review, sheets, busy: held.busy, right_lines };
      }
      await nextTurn();
    }
    return undefined;
  }

  private async opened(uri: string): Promise<Opened | undefined> {
    const program = this.open(uri);
    if (!program) return undefined;
    const settings = await this.settings(uri);
    let held = this.held.get(uri);
    if (!held) {
      held = { sheets: this.sheets(uri, settings), earlier: new EarlierView(), busy: false, early: false };
      this.held.set(uri, held);
    }
    return { program, settings, held, sheets: await held.sheets };
  }

  private read({ program, sheets }: Opened, line?: number): Reading {
    program.reading ??= readProgram(program.text, readOptions(sheets, {}));
    readOn(program.reading, line);
    return program.reading;
  }

  private review(reading: Reading, sheets: SheetReading, settings: Settings, held: Held): Review {
    const { cuts, earlier } = held;
    return reviewOf(reading, sheets, {
      shown: settings.units,
      severities: settings.findings,
      cuts,
      earlier,
    });
  }

  /** The review of a program that has been read. */
  private reviewed(uri: string, { program, settings, held, sheets }: Opened): Job | undefined {
    const { reading, version } = program;
    if (!reading) return undefined;
    const { cuts } = held;
    let kept = held.review;
    if (
      !kept ||
      kept.version !== version ||
      kept.settings !== settings ||
      kept.sheets !== sheets ||
      kept.cuts !== cuts ||
      kept.review.program.reading !== reading
    ) {
      const review = this.review(reading, sheets, settings, held);
      kept = { version, settings, sheets, review, cuts };
      held.review = kept;
    }
    if (held.early) {
      held.early = false;
      this.changed(uri, false);
    }
    if (held.ordered !== version) this.orderStock(uri, held, program, kept.review);
    return { program, review: kept.review, sheets, busy: held.busy };
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
      if (this.isLatest(uri, held, program)) void this.cut(uri, held, program, review);
    }, STOCK_PAUSE_MS);
  }

  private isLatest(uri: string, held: Held, program: OpenProgram): boolean {
    return this.held.get(uri) === held && program.version === held.ordered;
  }

  private async cut(uri: string, held: Held, open: OpenProgram, review: Review): Promise<void> {
    const { program } = review;
    const { ordered } = held;
    const show = (cuts: Held['cuts'], finished = true) => {
      held.cuts = cuts;
      held.busy = !finished || held.ordered !== ordered;
      this.changed(uri, finished);
    };
    const plan = await this.earlier.plan(uri, program, held.earlier, MOST_MOVES_LIVE);
    if (!this.isLatest(uri, held, open)) return;
    if ('why' in plan) {
      show(plan);
      return;
    }
    let shown = 0;
    const run = this.work.cut(uri, plan, finished => {
      const now = performance.now();
      if (!finished && now - shown < STOCK_SHOW_MS) return;
      shown = now;
      if (run.lost !== undefined) {
        this.again(held, run.lost, show);
        return;
      }
      if (finished) held.tried_again = false;
      show(cutsOf(program, plan, run), finished);
    });
  }

  /** The worker has lost the stock: what programs before leave is cut anew with the next order; once, then it is said why. */
  private again(held: Held, why: string, show: (cuts: { why: string }) => void): void {
    this.earlier.forgetAll();
    if (!held.tried_again) held.ordered = undefined;
    held.tried_again = true;
    show({ why: `the stock could not be worked out: ${why}` });
  }

  /** A program has changed that the stock of others may rest on: theirs is worked out anew. */
  changedBeside(uri: string): void {
    for (const [own, held] of this.held) {
      if (own === uri || !held.earlier.rests_on.has(uri)) continue;
      held.ordered = undefined;
      this.changed(own, true);
    }
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
