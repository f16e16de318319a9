import { RUN } from '../rs274/steps.ts';
import type { Severity } from './finding.ts';
import { wordsAt } from './line-words.ts';
import type { Part } from './part.ts';
import type { Program, WordAt } from './program.ts';
import type { ToolUse } from './tool-use.ts';

/** Lines that are searched for a word at most. */
const REACH = 400;

/** The last line from `from` to `to` (both in it) with one of these codes; -1 when there is none, or the way is too long. */
export function lineOfCode(
  program: Program,
  letter: string,
  values: readonly number[],
  from: number,
  to: number,
): number {
  return lastLineWhere(program, letter, from, to, word => values.includes(word.value));
}

/** The last line from `from` to `to` with a word of this letter; -1 when there is none. */
export function lineOfLetter(program: Program, letter: string, from: number, to: number): number {
  return lastLineWhere(program, letter, from, to, () => true);
}

/** Looks back through the bytes, chunk by chunk: only lines that hold the letter are cut into words. */
function lastLineWhere(
  program: Program,
  letter: string,
  from: number,
  to: number,
  wanted: (word: WordAt) => boolean,
): number {
  const code = letter.charCodeAt(0);
  const last = Math.max(from, to - REACH + 1);
  let line = Math.min(to, program.lineCount - 1);
  const { text, settled } = program.reading;
  while (line >= last) {
    const { chunk, end } = text.linePlace(line);
    const { bytes } = chunk;
    let line_end = end;
    let holds = false;
    for (let p = end - 1; p >= -1; p--) {
      const c = p < 0 ? LINE_FEED : bytes[p];
      if ((c & 0xdf) === code) holds = true;
      else if (c === LINE_FEED || (c === CARRIAGE_RETURN && bytes[p + 1] !== LINE_FEED)) {
        if (holds) {
          const words = wordsAt({ chunk, start: p + 1, end: line_end }, settled);
          if (words.some(word => word.letter === letter && wanted(word))) return line;
        }
        if (--line < last) return -1;
        holds = false;
        line_end = p > 0 && c === LINE_FEED && bytes[p - 1] === CARRIAGE_RETURN ? p - 1 : p;
      }
    }
  }
  return -1;
}

const LINE_FEED = 10;
const CARRIAGE_RETURN = 13;

/** Whether all lines between were within reach of the searches above. */
export function withinReach(from: number, to: number): boolean {
  return to - from < REACH;
}

/**
 * Whether the lines from `from` to `to` run one after another: no call, jump or loop stands between. Only programs with
 * control flow are looked into.
 */
export function runsStraight(program: Program, from: number, to: number): boolean {
  if (!program.reading.needs_flow) return true;
  if (to < from || !withinReach(from, to)) return false;
  for (let line = from; line < to; line++)
    if (FLOW.test(program.reading.text.lineText(line).replace(/\([^)]*\)?/g, ''))) return false;
  return true;
}

const FLOW = /M\s*0*(?:9[789]|198)|G\s*6[56]|GOTO|WHILE|IF|^\s*O|:/i;

/** An error where a setup sheet was written for this program, a warning where only the program speaks. */
export function errorWithSheet(program: Program): Severity {
  return program.sheet ? 'error' : 'warning';
}

/** The part of a use that cuts first: where parts are folded it need not be the one that begins first. */
export function firstCut(use: ToolUse): Part | undefined {
  let first: Part | undefined;
  for (const part of use.parts)
    if (part.cut_steps > 0 && !(first && first.first_cut_line <= part.first_cut_line)) first = part;
  return first;
}

/** Uses that have a tool and cut. */
export function cuttingUses(program: Program): ToolUse[] {
  return program.uses.filter(use => use.cuts && use.number >= 0);
}

/** The use before this one that has a tool. */
export function useBefore(program: Program, use: ToolUse): ToolUse | undefined {
  const at = program.uses.indexOf(use);
  for (let i = at - 1; i >= 0; i--) if (program.uses[i].number >= 0) return program.uses[i];
  return undefined;
}

/** State in force at the end of a use. */
export function lastRun(use: ToolUse): Float64Array {
  return use.parts[use.parts.length - 1].run;
}

/** The spindle turns in this part, one way or the other. */
export function isTurning(part: Part): boolean {
  return part.run[RUN.direction] === 1 || part.run[RUN.direction] === -1;
}
