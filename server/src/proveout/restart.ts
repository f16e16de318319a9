import { frameName } from '../review/frame-name.ts';
import { firstCut } from '../review/lookup.ts';
import type { Program } from '../review/program.ts';
import type { Review } from '../review/review.ts';
import { clampWord } from '../review/rules/words.ts';
import type { ToolUse } from '../review/tool-use.ts';
import { CODES, type CodeRow, codeFor, codeName, type Effect, RUN } from '../rs274/index.ts';

/** A line to start again at, with the state that its first cut relies on. */
export interface RestartPoint {
  tool: number;
  /** 0-based line of the tool change. */
  line: number;
  /** 0-based line of the first cut after it. */
  first_cut_line: number;
  /** Words that a start here must restore by hand: the program states them only before this line. */
  restore: string[];
  /** Words that the program states itself between this line and the first cut. */
  stated: string[];
}

/** One thing that a cut relies on: the word for it, and how to see that a block states it. */
interface Need {
  word: string;
  states: (row: CodeRow | undefined, letter: string, value: number) => boolean;
}

const MOST_POINTS = 60;
/** Lines between tool change and first cut that are read for what they state. */
const REACH = 500;

/** One point for each use of a tool that cuts. */
export function restartsOf({ program }: Review): { points: RestartPoint[]; more: number } {
  const uses = program.uses.filter(use => use.cuts);
  return {
    points: uses.slice(0, MOST_POINTS).map(use => pointOf(program, use)),
    more: Math.max(0, uses.length - MOST_POINTS),
  };
}

function pointOf(program: Program, use: ToolUse): RestartPoint {
  const part = firstCut(use) ?? use.parts[0];
  const first_cut_line = Math.max(part.first_cut_line, use.change_line);
  const point: RestartPoint = {
    tool: use.number,
    line: use.change_line,
    first_cut_line,
    restore: [],
    stated: [],
  };
  for (const need of needsOf(program, use, part.run))
    (isStated(program, need, use.change_line, first_cut_line) ? point.stated : point.restore).push(need.word);
  return point;
}

function isStated(program: Program, need: Need, from: number, to: number): boolean {
  const { dialect, kind } = program.reading.settled;
  for (let line = from; line <= Math.min(to, from + REACH); line++) {
    for (const { letter, value } of program.words(line)) {
      const row =
        letter === 'G' || letter === 'M' ? codeFor(letter, value, dialect.value, kind.value) : undefined;
      if (need.states(row, letter, value)) return true;
    }
  }
  return false;
}

const byEffect =
  (...effects: Effect[]): Need['states'] =>
  row =>
    row !== undefined && effects.includes(row.effect);
const byLetter =
  (letter: string): Need['states'] =>
  (_row, written) =>
    written === letter;

function needsOf(program: Program, use: ToolUse, run: Float64Array): Need[] {
  const { dialect } = program;
  const code = (effect: Effect) => wordFor(program, effect);
  const needs: Need[] = [];
  const add = (word: string | undefined, states: Need['states']) => {
    if (word !== undefined && word !== '') needs.push({ word, states });
  };
  if (use.number >= 0) add(`T${use.number}`, byLetter('T'));
  add(code(run[RUN.inch] === 1 ? 'inch' : 'millimetre'), byEffect('inch', 'millimetre'));
  add(`G${run[RUN.plane]}`, byEffect('plane'));
  add(code(run[RUN.distance] === 91 ? 'incremental' : 'absolute'), byEffect('absolute', 'incremental'));
  add(feedMode(run, code), byEffect('inverse-time', 'feed-per-minute', 'feed-per-revolution'));
  add(code('compensation-off'), byEffect('compensation-off', 'compensation-left', 'compensation-right'));
  add(frameName(run[RUN.frame]), byEffect('work-offset', 'extra-work-offset'));
  if (program.kind !== 'lathe' && run[RUN.length_offset] > 0)
    add(
      `${code('length-offset') ?? ''} H${run[RUN.length_offset]}`.trim(),
      byEffect('length-offset', 'length-offset-minus'),
    );
  if (run[RUN.css] === 1 && run[RUN.clamp_rpm] > 0)
    add(`${clampWord(dialect)}${run[RUN.clamp_rpm]}`, statesClamp);
  if (run[RUN.spindle] > 0) add(spindleWords(run, code), byLetter('S'));
  add(
    turnWord(run, code),
    byEffect(
      'spindle-clockwise',
      'spindle-counter-clockwise',
      'spindle-clockwise-coolant',
      'spindle-counter-clockwise-coolant',
    ),
  );
  add(
    coolantWords(run, code),
    byEffect(
      'coolant-flood',
      'coolant-mist',
      'spindle-clockwise-coolant',
      'spindle-counter-clockwise-coolant',
    ),
  );
  if (run[RUN.feed] > 0) add(`F${feedNumber(run)}`, byLetter('F'));
  return needs;
}

/** The clamp's word: G50 or G92 with S, or D beside G96. */
const statesClamp: Need['states'] = (row, letter) =>
  row?.effect === 'set-position' || row?.effect === 'clamp-or-position' || letter === 'D';

function feedMode(run: Float64Array, code: (effect: Effect) => string | undefined): string | undefined {
  if (run[RUN.feed_mode] === 93) return code('inverse-time');
  return code(run[RUN.feed_mode] === 95 ? 'feed-per-revolution' : 'feed-per-minute');
}

function spindleWords(run: Float64Array, code: (effect: Effect) => string | undefined): string {
  const css = run[RUN.css] === 1;
  const inch = run[RUN.inch] === 1;
  const value = css && inch ? run[RUN.spindle] / 0.3048 : run[RUN.spindle];
  return `${css ? `${code('surface-speed') ?? ''} ` : ''}S${Number(value.toFixed(css ? 0 : 1))}`.trim();
}

function turnWord(run: Float64Array, code: (effect: Effect) => string | undefined): string | undefined {
  const direction = run[RUN.direction];
  if (direction === 1) return code('spindle-clockwise');
  return direction === -1 ? code('spindle-counter-clockwise') : undefined;
}

function coolantWords(run: Float64Array, code: (effect: Effect) => string | undefined): string {
  const bits = run[RUN.coolant];
  const words = [bits & 1 ? code('coolant-mist') : undefined, bits & 2 ? code('coolant-flood') : undefined];
  return words.filter(word => word !== undefined).join(' ');
}

function feedNumber(run: Float64Array): number {
  const value = run[RUN.inch] === 1 && run[RUN.feed_mode] !== 93 ? run[RUN.feed] / 25.4 : run[RUN.feed];
  return Number(value.toFixed(4));
}

/** The code that has an effect in the program's dialect; undefined where it is written otherwise. */
function wordFor(program: Program, effect: Effect): string | undefined {
  const { dialect, kind } = program.reading.settled;
  const row = CODES.find(
    each =>
      each.effect === effect &&
      each.dialects.includes(dialect.value) &&
      (each.kind === undefined || each.kind === kind.value),
  );
  return row && codeName(row);
}
