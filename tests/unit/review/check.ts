import { openJob } from '../../../server/src/job/open-job.ts';
import type { Review } from '../../../server/src/review/review.ts';
import type { RuleCase } from '../../../server/src/review/rule.ts';

/** A place that a case marks with `^^^` under the program's line. */
export interface Mark {
  line: number;
  column: number;
  end_column: number;
}

/** Splits a case's text into the program and the places marked under its lines. */
export function splitMarks(text: string): { program: string; marks: Mark[] } {
  const lines: string[] = [];
  const marks: Mark[] = [];
  for (const line of text.split('\n')) {
    if (/^\s*\^+[\s^]*$/.test(line) && lines.length > 0) {
      for (const match of line.matchAll(/\^+/g))
        marks.push({
          line: lines.length - 1,
          column: match.index,
          end_column: match.index + match[0].length,
        });
    } else lines.push(line);
  }
  return { program: lines.join('\n'), marks };
}

/** Reviews program text with a setup sheet given as text, stock and all. */
export function reviewText(
  program: string,
  given: Pick<RuleCase, 'sheet' | 'options'> & { crib?: string } = {},
): Review {
  return openJob({
    bytes: new TextEncoder().encode(program),
    name: 'case.nc',
    files: {
      ...(given.sheet ? { sheet: { path: 'case.setup.json', text: given.sheet } } : {}),
      ...(given.crib ? { crib: { path: 'crib.json', text: given.crib } } : {}),
    },
    dialect: given.options?.dialect,
    kind: given.options?.kind,
    cut: true,
  }).review;
}
