import type { Position, Range, SelectionRange } from 'vscode-languageserver';
import type { Reading } from '../rs274/index.ts';
import { lineTokens, tokenAt } from './line-tokens.ts';
import { sectionsOf } from './outline.ts';

/** Growing selections at each position: number, word, block without N and comment, line, tool or subroutine, whole program. */
export function selectionRanges(reading: Reading, positions: readonly Position[]): SelectionRange[] {
  const sections = sectionsOf(reading);
  return positions.map(position => {
    const { line } = position;
    const source = reading.text.lineText(line);
    const around = sections
      .filter(({ first, last }) => first <= line && line <= last)
      .sort((a, b) => a.last - a.first - (b.last - b.first));
    const last_line = reading.text.lineCount - 1;
    const ranges: Range[] = [
      ...insideLine(source, line, position.character),
      span(line, 0, line, source.length),
      ...around.map(({ first, last }) => span(first, 0, last, reading.text.lineText(last).length)),
      span(0, 0, last_line, reading.text.lineText(last_line).length),
    ];
    return chain(ranges, position);
  });
}

function insideLine(source: string, line: number, character: number): Range[] {
  const tokens = lineTokens(source);
  const token = tokenAt(tokens, character);
  const ranges: Range[] = [];
  if (token !== undefined) {
    const digits = token.kind === 'word' ? source.slice(token.start + 1, token.end) : '';
    const number_start = token.end - digits.trimStart().length;
    if (digits.trim() !== '' && character >= number_start)
      ranges.push(span(line, number_start, line, token.end));
    ranges.push(span(line, token.start, line, token.end));
  }
  const words = tokens.filter(
    ({ kind, letter }) => kind !== 'comment' && kind !== 'block-delete' && letter !== 'N',
  );
  if (words.length > 0) ranges.push(span(line, words[0].start, line, words[words.length - 1].end));
  return ranges;
}

function span(first: number, start: number, last: number, end: number): Range {
  return { start: { line: first, character: start }, end: { line: last, character: end } };
}

/** Only ranges that hold the position and are larger than the one before. */
function chain(ranges: readonly Range[], position: Position): SelectionRange {
  let made: Range[] = [{ start: position, end: position }];
  for (const range of ranges) {
    const inner = made[made.length - 1];
    if (before(range.start, inner.start) && before(inner.end, range.end) && !same(range, inner))
      made = [...made, range];
  }
  const outer_first = made.reverse();
  let parent: SelectionRange | undefined;
  for (const range of outer_first) parent = parent === undefined ? { range } : { range, parent };
  return parent ?? { range: { start: position, end: position } };
}

const before = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character <= b.character);
const same = (a: Range, b: Range): boolean =>
  before(a.start, b.start) && before(b.start, a.start) && before(a.end, b.end) && before(b.end, a.end);
