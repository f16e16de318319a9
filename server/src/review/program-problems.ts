import type { Reading } from '../rs274/index.ts';
import type { Problem } from '../rs274/problems.ts';
import { blocksOf, keptByBlock } from './blocks.ts';

/** What the reader found, lines of the program. */
export function problemsOf(reading: Reading): Problem[] {
  const all: Problem[] = [];
  for (const { block, first_line } of blocksOf(reading))
    for (const problem of problemsOfBlock(block)) all.push({ ...problem, line: problem.line + first_line });
  return all;
}

const problemsOfBlock = keptByBlock(({ stretches }): readonly Problem[] => {
  const all: Problem[] = [];
  let first_line = 0;
  for (const { problems, lineCount } of stretches) {
    for (const problem of problems) all.push({ ...problem, line: problem.line + first_line });
    first_line += lineCount;
  }
  return all;
});
