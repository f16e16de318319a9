import type { FoldingRange } from 'vscode-languageserver';
import { comments, type Reading } from '../rs274/index.ts';
import { FoldingRangeKind } from './library.ts';
import { sectionsOf } from './outline.ts';

const MOST_COMMENTS = 50_000;

/** Ranges that fold: tools, subroutines, O programs, loops, and runs of comment lines. */
export function foldingRanges(reading: Reading): FoldingRange[] {
  const sections = sectionsOf(reading)
    .filter(({ first, last }) => last > first)
    .map(
      ({ first, last }): FoldingRange => ({ startLine: first, endLine: lastWithText(reading, first, last) }),
    );
  return [...sections.filter(({ startLine, endLine }) => endLine > startLine), ...commentRuns(reading)];
}

/** Blank lines at the end stay visible. */
function lastWithText(reading: Reading, first: number, last: number): number {
  let line = last;
  while (line > first && reading.text.lineText(line).trim() === '') line -= 1;
  return line;
}

function commentRuns(reading: Reading): FoldingRange[] {
  const runs: FoldingRange[] = [];
  let first = -1;
  let last = -1;
  const close = (): void => {
    if (last > first) runs.push({ startLine: first, endLine: last, kind: FoldingRangeKind.Comment });
  };
  for (const { line, start, text } of comments(reading.text, MOST_COMMENTS)) {
    const whole = reading.text.lineText(line);
    if (
      line === last ||
      whole.slice(0, start).trim() !== '' ||
      whole.slice(start + text.length).trim() !== ''
    )
      continue;
    if (line !== last + 1 || first < 0) {
      close();
      first = line;
    }
    last = line;
  }
  close();
  return runs;
}
