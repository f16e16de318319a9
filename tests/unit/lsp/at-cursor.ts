import type { Position } from 'vscode-languageserver';
import { ProgramText, type Reading, type ReadOptions, readProgram } from '../../../server/src/rs274/index.ts';

/** Reads a program whose cursor stands at `^`. */
export function atCursor(
  marked: string,
  options: ReadOptions = {},
): { reading: Reading; position: Position } {
  const at = marked.indexOf('^');
  const text = marked.replace('^', '');
  const before = marked.slice(0, Math.max(0, at)).split('\n');
  return {
    reading: readProgram(ProgramText.fromString(text), options),
    position: { line: before.length - 1, character: before[before.length - 1].length },
  };
}

/** All moves of a reading as text, without the lines they stand on. */
export function movesOf(reading: Reading): string {
  const rows: string[] = [];
  const cursor = reading.cursor();
  const number = (value: number): string => (Number.isNaN(value) ? '?' : value.toFixed(6));
  while (cursor.next()) {
    const run = [...cursor.runValues].map(number).join(',');
    rows.push(
      `${cursor.kind} ${number(cursor.x)} ${number(cursor.y)} ${number(cursor.z)} ${number(cursor.length_mm)} ${run}`,
    );
  }
  return rows.join('\n');
}
