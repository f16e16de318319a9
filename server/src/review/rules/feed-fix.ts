import { RUN } from '../../rs274/steps.ts';
import type { Fix, TextEdit } from '../finding.ts';
import type { Part } from '../part.ts';
import type { Program } from '../program.ts';

/**
 * Fixes that give a part another feed: for the tool from here on, and for this block alone, with the old feed
 * written back on the next block that inherited it, so that modal logic stays right.
 * `wanted` is in the run's feed mode: mm/min or mm/rev. Feeds are rounded down, or up where `up` says so.
 */
export function feedFixes(program: Program, part: Part, wanted: number, why: string, up = false): Fix[] {
  const line = program.lineOfWord('F', part.first_cut_line);
  if (line < 0) return [];
  const word = program.words(line).find(w => w.letter === 'F');
  if (!word || !/^F\s*[\d.]+$/i.test(word.text)) return [];
  const text = feedWord(part, wanted, word.text, up);
  const set = replace(line, word.start, word.end, text);
  const fixes: Fix[] = [{ title: `${text} for this tool from here on: ${why}`, grade: 'asks', edits: [set] }];
  const next = nextInheriting(program, line, part);
  if (next) {
    const end = program.blockPlace(next).end_column;
    const back: TextEdit = {
      line: next,
      column: end,
      end_line: next,
      end_column: end,
      text: `${gapBefore(program, next, line)}${word.text}`,
    };
    fixes.push({ title: `${text} for this block alone: ${why}`, grade: 'asks', edits: [set, back] });
  }
  return fixes;
}

/** The F word for a feed in program units, with a point as real programs write it. */
export function feedWord(part: Part, wanted: number, like: string, up: boolean): string {
  const inch = part.run[RUN.inch] === 1;
  const value = inch ? wanted / 25.4 : wanted;
  const perRev = part.run[RUN.feed_mode] === 95;
  const places = perRev ? (inch ? 4 : 3) : inch && value < 20 ? 1 : 0;
  const step = 10 ** -places;
  const rounded = (up ? Math.ceil(value / step - 1e-9) : Math.floor(value / step + 1e-9)) * step;
  const digits = rounded.toFixed(places);
  const letter = like[0];
  return `${letter}${places > 0 ? digits.replace(/0+$/, '') : `${digits}.`}`;
}

function nextInheriting(program: Program, line: number, part: Part): number | undefined {
  for (let next = line + 1; next <= part.last_cut_line && next <= line + 200; next++) {
    const words = program.words(next);
    if (words.some(w => w.letter === 'F')) return undefined;
    if (words.some(w => 'XYZIJKUVWABC'.includes(w.letter))) return next;
  }
  return undefined;
}

/** A blank where the block writes blanks between its words; a block of one word does as the block `like` does. */
function gapBefore(program: Program, line: number, like: number): string {
  const words = program.words(line).length > 1 ? program.words(line) : program.words(like);
  return words.some((w, i) => i > 0 && w.start > words[i - 1].end) ? ' ' : '';
}

function replace(line: number, start: number, end: number, text: string): TextEdit {
  return { line, column: start, end_line: line, end_column: end, text };
}
