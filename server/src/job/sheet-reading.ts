import { type Crib, readCrib, readSetupSheet, type SetupSheet, type SheetProblem } from '../setup/index.ts';
import type { JobFiles, JobText } from './job-files.ts';

/** Sheet and cribs as read, with their problems. */
export interface SheetReading {
  sheet?: SetupSheet;
  /** The text of the sheet. */
  from?: JobText;
  cribs: Crib[];
  problems: { path: string; text: string; problem: SheetProblem }[];
}

/** Reads the files beside a program. */
export function readSheets(files: JobFiles): SheetReading {
  const result: SheetReading = { cribs: [], problems: [] };
  if (files.sheet) {
    const { path, text } = files.sheet;
    const { sheet, problems } = readSetupSheet(text, path);
    result.sheet = sheet;
    result.from = files.sheet;
    result.problems.push(...problems.map(problem => ({ path, text, problem })));
  }
  for (const file of [files.crib, files.personal_crib]) {
    if (!file) continue;
    const { crib, problems } = readCrib(file.text, file.path);
    result.cribs.push(crib);
    result.problems.push(...problems.map(problem => ({ path: file.path, text: file.text, problem })));
  }
  return result;
}
