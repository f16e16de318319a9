import { MOST_BEFORE, unreadWords } from '../job/earlier-programs.ts';
import { findJobFiles } from '../job/job-files.ts';
import { readOptions, reviewOf } from '../job/open-job.ts';
import { readSheets } from '../job/sheet-reading.ts';
import type { Earlier, FromStock, Left } from '../review/cuts/earlier.ts';
import { firstFrame, layOf } from '../review/cuts/left-by.ts';
import { type MillPlan, millPlan } from '../review/cuts/plan.ts';
import type { Program } from '../review/program.ts';
import { ProgramText, readProgram } from '../rs274/index.ts';
import type { EditorFiles } from './editor-files.ts';
import type { OpenProgram } from './open-program.ts';
import type { Settings } from './settings.ts';
import type { StockWork } from './work/stock-work.ts';

interface Ask {
  stock: FromStock;
  zero_mm: readonly number[] | undefined;
}

/** What one program knows of the programs before it; filled while its stock is planned. */
export class EarlierView implements Earlier {
  readonly asked = new Map<string, Ask>();
  readonly found = new Map<string, Left>();
  readonly unreadable = new Map<string, string>();
  /** Files that the stock rests on. */
  readonly rests_on = new Set<string>();

  unread(name: string): string | undefined {
    return this.unreadable.get(name);
  }

  left(stock: FromStock, zero_mm: readonly number[] | undefined): Left {
    const key = JSON.stringify([stock.from.value, stock.turn?.value, zero_mm]);
    this.asked.set(key, { stock, zero_mm });
    return this.found.get(key) ?? { why: `what ${stock.from.value} leaves is being worked out` };
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
  ): Promise<MillPlan | { why: string }> {
    await this.settle(uri, view, most, chain);
    for (;;) {
      const known = view.found.size;
      const plan = millPlan(program, most);
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
    for (const [key, ask] of view.asked) {
      const name = ask.stock.from.value;
      const { left, unread } = await this.left(uri, key, ask, view, most, chain);
      if (unread === undefined) view.unreadable.delete(name);
      else view.unreadable.set(name, unread);
      view.found.set(key, left);
      all.push(left);
    }
    return all;
  }

  private async left(
    uri: string,
    key: string,
    ask: Ask,
    view: EarlierView,
    most: number,
    chain: readonly string[],
  ): Promise<{ left: Left; unread?: string }> {
    const name = ask.stock.from.value;
    const not = (unread: string) => ({
      left: { why: `the stock is what ${name} leaves, and ${unread}` },
      unread,
    });
    const folder = this.files.parent(uri);
    if (folder === undefined) return not(unreadWords.program());
    const at = this.files.join(folder, name);
    if (chain.includes(at) || chain.length > MOST_BEFORE) return not(unreadWords.circle);
    const before = await this.before(at, folder, view);
    if (typeof before === 'string') return not(before);
    const on = [...chain, at];
    const lefts = await this.settle(at, before.view, most, on);
    const kept = before.lefts.get(key);
    if (!kept || !sameList(kept.before, lefts)) {
      const plan = await this.plan(at, before.program, before.view, most, on);
      const left = this.cut(at, key, before.program, plan, ask);
      before.lefts.set(key, { before: [...before.view.found.values()], left });
    }
    for (const file of before.view.rests_on) view.rests_on.add(file);
    return { left: (await before.lefts.get(key)?.left) ?? { why: 'given up' } };
  }

  private async cut(
    at: string,
    key: string,
    program: Program,
    plan: MillPlan | { why: string },
    { stock, zero_mm }: Ask,
  ): Promise<Left> {
    const lay = layOf(program, stock, zero_mm);
    if ('why' in lay) return lay;
    const first = firstFrame(plan);
    if ('why' in first) return first;
    return this.work.leave(orderName(at, key), first.frame, first.tools, lay);
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
