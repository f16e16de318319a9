import type { Location } from 'vscode-languageserver';
import type { Reading } from '../rs274/index.ts';
import { placesOf, symbolAt } from './program-symbols.ts';

/**
 * Where the thing under the cursor is made: the O word of a program, SUB of a subroutine, the N of a block, the setting
 * of a parameter, the change of a tool. Of a parameter the settings above the cursor come first, the nearest first.
 */
export function definitions(
  reading: Reading,
  uri: string,
  position: { line: number; character: number },
): Location[] {
  const lines = reading.lineCount;
  const symbol = symbolAt(reading, position);
  if (symbol === undefined) return [];
  const makers = placesOf(reading, symbol).filter(place => place.makes);
  if (symbol.kind === 'block')
    makers.sort(
      (a, b) =>
        ahead(a.range.start.line, position.line, lines) - ahead(b.range.start.line, position.line, lines),
    );
  if (symbol.kind === 'parameter')
    makers.sort(
      (a, b) =>
        above(a.range.start.line, position.line, lines) - above(b.range.start.line, position.line, lines),
    );
  const most = symbol.kind === 'parameter' ? 20 : 1;
  return makers.slice(0, most).map(({ range }) => ({ uri, range }));
}

/** A jump looks forward first and then from the start. */
const ahead = (line: number, from: number, lines: number): number =>
  line > from ? line - from : line - from + lines;
const above = (line: number, from: number, lines: number): number =>
  line <= from ? from - line : line - from + lines;
