import { keyOf, MOST_BEFORE, unreadLeft, unreadWords } from '../job/earlier-programs.ts';
import { findJobFiles } from '../job/job-files.ts';
import { readOptions, reviewOf } from '../job/open-job.ts';
import { readSheets } from '../job/sheet-reading.ts';
import type { Asked, Earlier, Left, NotLeft } from '../review/cuts/earlier.ts';
import { layOf, notCut, notesOf, otherKind, planOf, type StockPlan } from '../review/cuts/left-by.ts';
import type { Program } from '../review/program.ts';
import { ProgramText, readProgram } from '../rs274/index.ts';
import type { EditorFiles } from './editor-files.ts';
import type { OpenProgram } from './open-program.ts';
import type { Settings } from './settings.ts';
import type { StockWork } from './work/stock-work.ts';

/** What one program knows of the programs before it; filled while its stock is planned. */
export class EarlierView implements Earlier {
  readonly asked = new Map<string, Asked>();
  readonly found = new Map<string, Left>();
  /** What is wrong in the sheet, by stock. */
  readonly wrongs = new Map<string, NotLeft>();
  /** Files that the stock rests on. */
  readonly rests_on = new Set<string>();

  wrong(asked: Asked): NotLeft | undefined {
    return this.wrongs.get(keyOf(asked));
  }

  left(asked: Asked): Left {
    const key = JSON.stringify([keyOf(asked), asked.zero_mm]);
    this.asked.set(key, asked);
    return this.found.get(key) ?? { why: `what ${asked.stock.from.value} leaves is being worked out` };
  }
}

interface Before {
  /** Texts that it was read from; equal texts are the same program. */
  stamp: readonly unknown[];
  program: Program;
  view: EarlierView;
  lefts: Map<string, { before: readonly Left[]; left: Promise<Left> }>;
}

/** Programs beside the open ones, whose stock goes on in them: read through the editor, cut in the worker, kept while nothing changed. */
export class EarlierStock {
  private readonly held = new Map<string, Before>();

  constructor(
    private readonly files: EditorFiles,
    private readonly open: (uri: string) => OpenProgram | undefined,
    private readonly settings: (uri: string) => Promise<Settings>,
    private readonly work: StockWork,
    /** Told each file that a stock rests on, to be watched. */
    private readonly watch: (folder: string, uri: string) => void,
  ) {}

  /** Plans a program's stock, with what the programs before it leave. */
  async plan(
    uri: string,
    program: Program,
    view: EarlierView,
    most: number,
    chain: readonly string[] = [uri],
  ): Promise<StockPlan | { why: string }> {
    await this.settle(uri, view, most, chain);
    for (;;) {
      const known = view.found.size;
      const plan = planOf(program, most);
      if (view.asked.size === known) return plan;
      await this.settle(uri, view, most, chain);
    }
  }

  /** Forgets all, in the worker too. */
  forgetAll(): void {
    for (const [at, { lefts }] of this.held)
      for (const key of lefts.keys()) this.work.forget(orderName(at, key));
    this.held.clear();
  }

  /** Answers what the view was asked, anew where a file has changed. */
  private async settle(
    uri: string,
    view: EarlierView,
    most: number,
    chain: readonly string[],
  ): Promise<Left[]> {
    const all: Left[] = [];
    for (const [key, asked] of view.asked) {
      const left = await this.left(uri, key, asked, view, most, chain);
      if ('why' in left && left.at) view.wrongs.set(keyOf(asked), left);
      else view.wrongs.delete(keyOf(asked));
      view.found.set(key, left);
      all.push(left);
    }
    return all;
  }

  private async left(
    uri: string,
    key: string,
    asked: Asked,
    view: EarlierView,
    most: number,
    chain: readonly string[],
  ): Promise<Left> {
    const folder = this.files.parent(uri);
    if (folder === undefined) return unreadLeft(asked, unreadWords.program());
    const at = this.files.join(folder, asked.stock.from.value);
    if (chain.includes(at) || chain.length > MOST_BEFORE) return unreadLeft(asked, unreadWords.circle);
    const before = await this.before(at, folder, view);
    if (typeof before === 'string') return unreadLeft(asked, before);
    const on = [...chain, at];
    const lefts = await this.settle(at, before.view, most, on);
    const kept = before.lefts.get(key);
    if (!kept || !sameList(kept.before, lefts)) {
      const plan = await this.plan(at, before.program, before.view, most, on);
      const left = this.cut(orderName(at, key), before.program, plan, asked);
      before.lefts.set(key, { before: [...before.view.found.values()], left });
    }
    for (const file of before.view.rests_on) view.rests_on.add(file);
    return (await before.lefts.get(key)?.left) ?? { why: 'given up' };
  }

  private async cut(
    order: string,
    program: Program,
    plan: StockPlan | { why: string },
    asked: Asked,
  ): Promise<Left> {
    const other = otherKind(asked, program);
    if (other) return other;
    const lay = layOf(asked);
    if ('why' in lay) return lay;
    const name = asked.stock.from.value;
    if ('why' in plan) return notCut(name, plan);
    const left = await this.work.leave(order, plan, lay);
    if ('why' in left) return left.at ? notCut(name, left) : left;
    return { ...left, ...notesOf(name, program, plan) };
  }

  /** The program at an address with its sheet, or why it cannot be read. */
  private async before(at: string, folder: string, view: EarlierView): Promise<Before | string> {
    view.rests_on.add(at);
    this.watch(folder, at);
    const open = this.open(at);
    const read = open ? { text: '' } : await this.files.program(at);
    if ('missing' in read) return unreadWords.program(read.detail ?? read.missing);
    const { crib } = await this.settings(at);
    const files = await findJobFiles(this.files, at, crib ? { personal_crib: crib } : {});
    if (!files.sheet) return unreadWords.sheet(this.files.name(at));
    const stamp = [
      open ? open.version : read.text,
      files.sheet.text,
      files.crib?.text,
      files.personal_crib?.text,
    ];
    const kept = this.held.get(at);
    if (kept && sameList(kept.stamp, stamp)) return kept;
    const sheets = readSheets(files);
    const text = ProgramText.fromString(open ? open.getText() : read.text);
    const earlier = new EarlierView();
    const { program } = reviewOf(readProgram(text, readOptions(sheets, {})), sheets, { earlier });
    const made: Before = { stamp, program, view: earlier, lefts: new Map() };
    this.held.set(at, made);
    return made;
  }
}

/** What the worker calls the work on one program before. */
function orderName(at: string, key: string): string {
  return `before ${at} ${key}`;
}

function sameList(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}
