import type { Earlier } from '../review/cuts/earlier.ts';
import type { Finding } from '../review/finding.ts';
import { asSentence } from '../review/problem-findings.ts';
import type { MachineKind } from '../review/working.ts';
import { sheetProblems } from '../setup/index.ts';
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
      // a key keeps its spelling
      message: /^\w+[.:]/.test(problem.message) ? problem.message : asSentence(problem.message),
      file: path,
    };
  });
}

/** Programs that the stock starts from and that cannot be used, at the place where the sheet is to be corrected. */
export function earlierFindings(
  { sheet, from }: SheetReading,
  kind: MachineKind | undefined,
  earlier: Earlier | undefined,
): Finding[] {
  if (!sheet || !from || !earlier || !kind) return [];
  const stocks = [sheet.workpiece?.stock, ...[...(sheet.setups?.values() ?? [])].map(({ stock }) => stock)];
  return stocks.flatMap(stock => {
    if (stock?.shape !== 'from') return [];
    const wrong = earlier.wrong({ stock, kind });
    if (!wrong?.at) return [];
    const { origin } = stock[wrong.at] ?? stock.from;
    const offset = origin.offset ?? 0;
    const start = placeAt(from.text, offset);
    const end = placeAt(from.text, offset + (origin.length ?? 0));
    return [
      {
        code: 'setup-reference',
        severity: sheetProblems['setup-reference'].severity,
        line: start.line,
        column: start.column,
        end_line: end.line,
        end_column: end.column,
        message: asSentence(wrong.why),
        file: from.path,
      },
    ];
  });
}

function placeAt(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: before.length - 1, column: before[before.length - 1].length };
}
