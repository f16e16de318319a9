import { type Block, L } from '../block.ts';
import { CODES } from '../codes/table.ts';
import type { Machine } from '../machine.ts';
import { KIND } from '../steps.ts';
import { macroArguments } from './arguments.ts';
import type { Target } from './library.ts';
import { jumpToBlock } from './macro-words.ts';
import type { FlowRun } from './run.ts';
import { SAVED_CODES, type SavedCode, savedModes } from './saved-modes.ts';

/** A call, a return or a modal macro code of one block. */
export interface Call {
  code:
    | 'call'
    | 'local-call'
    | 'external-call'
    | 'return'
    | 'macro-call'
    | 'modal-macro-call'
    | 'modal-macro-off'
    | SavedCode;
  macro: boolean;
  word: number;
  start: number;
  end: number;
  p: number;
  /** Digits of P as written: more than four hold the repeats in front. */
  q: number;
  l: number;
  args: Map<number, number>;
}

const CALLS: ReadonlySet<string> = new Set([
  'call',
  'local-call',
  'external-call',
  'return',
  'macro-call',
  'modal-macro-call',
  'modal-macro-off',
  ...SAVED_CODES,
]);

/** The call that a block makes; undefined without one. */
export function callOf(machine: Machine, block: Block): Call | undefined {
  for (let at = 0; at < block.count; at += 1) {
    const letter = block.letter[at];
    if (letter !== L.G && letter !== L.M) continue;
    const ten = block.value[at] * 10;
    if (
      !(
        (ten >= 650 && ten <= 670) ||
        (ten >= 970 && ten <= 990) ||
        ten === 1980 ||
        (ten >= 700 && ten <= 730)
      )
    )
      continue;
    const row = (letter === L.G ? machine.g : machine.m)[ten] ?? -1;
    const effect = row < 0 ? '' : CODES[row].effect;
    if (!CALLS.has(effect)) continue;
    const macro = effect === 'macro-call' || effect === 'modal-macro-call';
    return {
      code: effect as Call['code'],
      macro,
      word: at,
      start: block.start[at],
      end: block.end[at],
      p: block.number(L.P),
      q: macro ? Number.NaN : firstBlock(block),
      l: block.number(L.L),
      args: macro ? macroArguments(machine, block, at + 1) : new Map<number, number>(),
    };
  }
  return undefined;
}

/** Q, and H where no program is named: the block number that a call begins at. */
function firstBlock(block: Block): number {
  return block.has(L.Q) || block.has(L.P) ? block.number(L.Q) : block.number(L.H);
}

/** Leaves only those words that are not the call's: with a macro call all words after it are its own. */
export function withoutCall(block: Block, call: Call): void {
  const kept: [number, number, number, number, number, number][] = [];
  for (let at = 0; at < block.count; at += 1) {
    const letter = block.letter[at];
    const own =
      at === call.word ||
      letter === L.P ||
      letter === L.L ||
      (letter === L.Q && call.code !== 'return') ||
      (call.macro && at > call.word && letter !== L.G);
    if (own && call.code !== 'modal-macro-off') continue;
    if (at === call.word) continue;
    kept.push([letter, block.value[at], block.start[at], block.end[at], block.marks[at], block.digits[at]]);
  }
  block.drop();
  for (const word of kept) block.add(...word);
}

/** Carries out a call after the rest of its block. */
export function makeCall(run: FlowRun, call: Call): void {
  switch (call.code) {
    case 'return':
      giveBack(run, call);
      break;
    case 'local-call':
      callBlock(run, call);
      break;
    case 'macro-call':
      callProgram(run, call, 'macro');
      break;
    case 'modal-macro-call':
      run.modal = call;
      break;
    case 'modal-macro-off':
      run.modal = undefined;
      break;
    case 'save-state':
    case 'discard-state':
    case 'restore-state':
    case 'save-and-restore-state':
      savedModes(run, call.code);
      break;
    default:
      if (Number.isNaN(call.p) && !Number.isNaN(call.q)) callBlock(run, { ...call, p: call.q });
      else callProgram(run, call, 'program');
  }
}

/** Whether a step from `from` on is a motion. */
export function movedSince({ table }: Machine, from: number): boolean {
  for (let at = from; at < table.count; at += 1) if (table.kind[at] <= KIND.tap) return true;
  return false;
}

/** Calls the modal macro after a block that moved. */
export function modalCall(run: FlowRun, call: Call): void {
  callProgram(run, call, 'macro', true);
}

function callProgram(run: FlowRun, call: Call, how: 'program' | 'macro', modal = false): void {
  if (!(call.p >= 0)) {
    const unknown = run.reader.block.count >= 0 && Number.isNaN(call.p);
    run.report(
      'call-without-program',
      call.start,
      call.end,
      unknown ? 'This call does not say which program: P is missing or not known.' : 'P cannot be negative.',
    );
    run.lose();
    return;
  }
  const found = programOf(run, call);
  if (found === undefined) {
    run.report(
      'subprogram-missing',
      call.start,
      call.end,
      `Program O${call.p} is not in this file or its folder; positions after this call are not known.`,
    );
    run.lose();
    return;
  }
  const times = Number.isNaN(call.l) ? found.times : Math.round(call.l);
  if (times <= 0) return;
  const { target } = found;
  let entry = target.line;
  if (how === 'program' && !Number.isNaN(call.q)) {
    entry = target.program.lineNumbered(call.q, target.part, target.part.first);
    if (entry < 0) {
      run.report(
        'jump-target-missing',
        call.start,
        call.end,
        `There is no block N${call.q} in O${target.part.number}.`,
      );
      entry = target.line;
    }
  }
  run.call(target, how, entry, times - 1, how === 'macro' ? call.args : undefined, modal);
}

/** P as a program, or as leading digits of repeats and four digits of a program. */
function programOf(run: FlowRun, call: Call): { target: Target; times: number } | undefined {
  const p = Math.round(call.p);
  const { program } = run.frame;
  const target = run.library.program(p, program);
  if (target !== undefined) return { target, times: 1 };
  if (p <= 9999) return undefined;
  const short = run.library.program(p % 10_000, program);
  return short === undefined ? undefined : { target: short, times: Math.floor(p / 10_000) };
}

function callBlock(run: FlowRun, call: Call): void {
  const { program, part } = run.frame;
  const line = program.lineNumbered(call.p, part, part.first);
  if (line < 0) {
    run.report('jump-target-missing', call.start, call.end, `There is no block N${call.p} in this program.`);
    run.lose();
    return;
  }
  const times = Number.isNaN(call.l) ? 1 : Math.round(call.l);
  if (times > 0) run.call({ program, part, line }, 'block', line, times - 1, undefined);
}

/** M99: back to the caller, with P to its block; in the main program the end of one pass, with P a jump. */
function giveBack(run: FlowRun, call: Call): void {
  const span = [call.start, call.end] as const;
  if (run.frame.how === 'main') {
    if (Number.isNaN(call.p) || repeatsForEver(run, call.p)) run.endPass();
    else jumpToBlock(run, call.p, span);
    return;
  }
  const last = run.frame.repeats === 0;
  run.leave();
  if (last && !Number.isNaN(call.p)) {
    run.machine.line = run.frame.next - 1;
    jumpToBlock(run, call.p, span);
  }
}

/** Whether a return to block `n` of the main program goes back while there is no parameter that could end it. */
function repeatsForEver({ frame, machine, parameters }: FlowRun, n: number): boolean {
  const line = frame.program.lineNumbered(n, frame.part, machine.line + 1);
  return line >= 0 && line <= machine.line && parameters.changes === 0;
}
