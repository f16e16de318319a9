import { asSentence } from '../review/engine.ts';
import type { Finding } from '../review/finding.ts';
import type { SheetReading } from './sheet-reading.ts';

/** Problems of the setup sheet and the cribs as findings at their place in that file. */
export function sheetFindings(sheets: SheetReading): Finding[] {
  return sheets.problems.map(({ path, text, problem }) => {
    const start = placeAt(text, problem.offset);
    const end = placeAt(text, problem.offset + problem.length);
    return {
      code: problem.code,
      severity: problem.severity,
      line: start.line,
      column: start.column,
      end_line: end.line,
      end_column: end.column,
      message: asSentence(problem.message),
      file: path,
    };
  });
}

function placeAt(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: before.length - 1, column: before[before.length - 1].length };
}
