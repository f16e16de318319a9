import { findJobFiles } from '../job/job-files.ts';
import { readOptions, readSheets, reviewOf, type SheetReading } from '../job/open-job.ts';
import type { Review } from '../review/review.ts';
import { readProgram } from '../rs274/index.ts';
import type { EditorFiles } from './editor-files.ts';
import type { OpenProgram } from './open-program.ts';
import type { Settings } from './settings.ts';

/** A program in front with what stands beside it. */
export interface Job {
  readonly program: OpenProgram;
  readonly review: Review;
  readonly sheets: SheetReading;
}

interface Held {
  sheets: Promise<SheetReading>;
  review?: { version: number; settings: Settings; sheets: SheetReading; review: Review };
}

/** Reviews of the open programs, made when asked for and kept while nothing changed. */
export class Jobs {
  private readonly held = new Map<string, Held>();

  constructor(
    private readonly files: EditorFiles,
    private readonly open: (uri: string) => OpenProgram | undefined,
    private readonly settings: (uri: string) => Promise<Settings>,
  ) {}

  /** The review of an open program; undefined when it is not open. */
  async job(uri: string): Promise<Job | undefined> {
    const program = this.open(uri);
    if (!program) return undefined;
    const settings = await this.settings(uri);
    let held = this.held.get(uri);
    if (!held) {
      held = { sheets: this.sheets(uri, settings) };
      this.held.set(uri, held);
    }
    const sheets = await held.sheets;
    const kept = held.review;
    if (
      kept &&
      kept.version === program.version &&
      kept.settings === settings &&
      kept.sheets === sheets &&
      program.reading
    )
      return { program, review: kept.review, sheets };
    program.reading ??= readProgram(program.text, readOptions(sheets, {}));
    const { reading } = program;
    const review = reviewOf(reading, sheets, { shown: settings.units, severities: settings.findings });
    held.review = { version: program.version, settings, sheets, review };
    return { program, review, sheets };
  }

  private async sheets(uri: string, settings: Settings): Promise<SheetReading> {
    return readSheets(
      await findJobFiles(this.files, uri, settings.crib ? { personal_crib: settings.crib } : {}),
    );
  }

  /** Sheets and cribs may have changed: reads them again and settles the programs anew. */
  refresh(): void {
    for (const uri of this.held.keys()) {
      const program = this.open(uri);
      if (program) program.reading = undefined;
    }
    this.held.clear();
  }

  forget(uri: string): void {
    this.held.delete(uri);
  }
}
