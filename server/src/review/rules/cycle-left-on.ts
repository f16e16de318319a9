import { KIND, RUN } from '../../rs274/steps.ts';
import { lineOfCode } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { scanOf } from '../scan-program.ts';
import { holeCode } from '../scan-table.ts';
import { hasCycle } from './holes-at.ts';
import { ISO, MILL_MM } from './sample-programs.ts';

const CHANGE = 1 << KIND.toolchange;
const HEAD = `${MILL_MM}T1 M6\nS1000 M3\nG0 X0 Y0\nG43 H1 Z20.\nG99 G81 X5. Y5. Z-10. R2. F100.\nX15.\n`;

/** A cycle that still drills where only a position was meant, or that is on at the tool change. */
export const cycleLeftOn: Rule = {
  code: 'cycle-left-on',
  title: 'Cycle is never cancelled',
  family: 'state',
  severity: 'warning',
  means: 'The cycle is still on: the next X and Y are drilled too, where only a position was meant.',
  cure: 'Write G80 after the last hole.',
  fine_when: 'The place is meant to be drilled.',
  source: 'NISTIR 6556 section 3.5.16 (G80), from memory',
  needs: [],
  program(program, report) {
    for (const part of program.parts) {
      const code = part.run[RUN.motion];
      if (!(part.kinds & CHANGE) || !(code >= 730 && code <= 890) || code === 800) continue;
      if (program.kind === 'lathe') continue;
      const from = lineOfCode(program, 'G', [code / 10], 0, part.first_line);
      report({
        at: from >= 0 ? program.wordPlace(from, 'G', code / 10) : program.blockPlace(part.first_line),
        message: `The next tool drills on: G${code / 10} is still in force at the tool change. Write G80 after the last hole.`,
      });
      return;
    }
    if (!hasCycle(program)) return;
    const { holes } = scanOf(program);
    for (let i = 1; i < holes.length; i++) {
      const hole = holes[i];
      if (!hole.cycle || !holes[i - 1].cycle || holes[i - 1].line === hole.line) continue;
      const words = program.words(hole.line);
      if (words.some(w => w.letter === 'G' || 'ZRQP'.includes(w.letter))) continue;
      const leaves = words.some(w => w.letter === 'M' && [5, 9].includes(w.value));
      const next = holes[i + 1];
      const milledHere =
        next !== undefined &&
        !next.cycle &&
        next.line - hole.line <= 3 &&
        next.x === hole.x &&
        next.y === hole.y;
      if (!leaves && !milledHere) continue;
      report({
        at: program.blockPlace(hole.line),
        message: `Drills a hole where only a position was meant: G${holeCode(hole)} is still on. Write G80 before this block.`,
      });
      return;
    }
  },
  flagged: [
    {
      name: 'on at the tool change',
      program: `${MILL_MM}T1 M6\nS1000 M3\nG0 X0 Y0\nG43 H1 Z20.\nG99 G81 X5. Y5. Z-10. R2. F100.\n    ^^^\nX15.\nM5\nT2 M6\nG0 X0\nM30\n`,
      options: ISO,
    },
    {
      name: 'the next place is where milling begins',
      program: `${HEAD}X-10. Y0\n^^^^^^^^\nG1 Z-1. F100.\nX50.\nM30\n`,
      options: ISO,
    },
    {
      name: 'the next place is on the way out',
      program: `${HEAD}X-10. Y50. M9\n^^^^^^^^^^^^^\nG0 Z50.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'G80', program: `${HEAD}G80\nG0 X-10. Y0\nG1 Z-1. F100.\nX50.\nM5\nT2 M6\nM30\n`, options: ISO },
    { name: 'G0 ends it as well', program: `${HEAD}G0 Z20.\nX-10. Y0\nM5\nT2 M6\nM30\n`, options: ISO },
  ],
};
