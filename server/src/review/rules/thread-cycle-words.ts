import { KIND, RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { LATHE_A } from './sample-programs.ts';

const THREAD = 1 << KIND.thread;
const PROGRAM = (second: string) =>
  `G21 G18 G40 G99\nT0505\nG97 S800 M3\nG0 X32. Z6.\nG76 P020060 Q50 R0.05\n${second}G0 X80. Z50.\nM30\n`;

/** Depth and first pass of a threading cycle. */
export const threadCycleWords: Rule = {
  code: 'thread-cycle-words',
  title: 'Depth or first pass of the thread does not fit',
  family: 'cutting',
  severity: 'warning',
  means:
    'The depth of the thread does not fit its lead, or the first pass takes most of it: the thread is scrap, or the insert chips.',
  cure: 'Depth is 0.61 of the pitch outside, 0.54 inside; the first pass a quarter to a third of it.',
  fine_when: 'The thread is not a 60 or 55 degree one.',
  source: 'ISO 68-1 (0.6134 and 0.5413 of the pitch); first pass: common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'lathe' || program.dialect === 'ngc') return;
    const told = new Set<number>();
    for (const part of program.parts) {
      if (!(part.kinds & THREAD) || told.has(part.first_cut_line)) continue;
      told.add(part.first_cut_line);
      const line = part.first_cut_line;
      const words = program.words(line);
      if (!words.some(w => w.letter === 'G' && w.value === 76)) continue;
      const value = (letter: string) => words.find(w => w.letter === letter)?.value;
      const depth = value('P');
      const first = value('Q');
      if (depth === undefined || first === undefined || !(depth > 0)) continue;
      const step = part.run[RUN.inch] === 1 ? 0.00254 : 0.001;
      const share = (depth * step) / part.run[RUN.lead];
      const angle = angleOf(line - 1);
      const usual = angle === undefined || angle === 60 || angle === 55;
      if (usual && (share < 0.4 || share > 0.85)) {
        report({
          at: program.wordPlace(line, 'P'),
          severity: share < 0.2 || share > 1.5 ? 'warning' : 'information',
          message: `Scraps the thread: its depth is ${share.toFixed(2)} of the lead, and 0.54 to 0.61 is usual. Check P.`,
        });
      } else if (first / depth > 0.6) {
        report({
          at: program.wordPlace(line, 'Q'),
          message: `Chips the insert: the first pass takes ${Math.round((100 * first) / depth)} % of the depth. A quarter to a third is usual: lower Q.`,
        });
      }
    }

    function angleOf(line: number): number | undefined {
      const word = program.words(line).find(w => w.letter === 'P');
      return word && /^P\d{6}$/i.test(word.text) ? word.value % 100 : undefined;
    }
  },
  flagged: [
    {
      name: 'a digit too many in the depth',
      program: PROGRAM('G76 X28.16 Z-20. P9200 Q300 F1.5\n                 ^^^^^\n'),
      options: LATHE_A,
    },
    {
      name: 'the first pass takes it all',
      program: PROGRAM('G76 X28.16 Z-20. P920 Q900 F1.5\n                      ^^^^\n'),
      options: LATHE_A,
    },
  ],
  silent: [
    { name: 'as usual', program: PROGRAM('G76 X28.16 Z-20. P920 Q300 F1.5\n'), options: LATHE_A },
    {
      name: 'a trapezoid',
      program: PROGRAM('G76 X28. Z-20. P1750 Q300 F3.\n').replace('P020060', 'P020030'),
      options: LATHE_A,
    },
  ],
};
