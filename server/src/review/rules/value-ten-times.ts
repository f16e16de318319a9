import { formatQuantity } from '../../cutting/format.ts';
import type { Rule } from '../rule.ts';
import { scanOf } from '../scan-program.ts';
import { ISO, MILL_MM } from './sample-programs.ts';
import { FOLLOW_FROM_WRONG_Z } from './wrong-z.ts';

const HEAD = `${MILL_MM}T1 M6\nS1000 M3\nG54 G0 X-5. Y-5.\nG43 H1 Z5.\nG1 Z-1. F100.\n`;

/** A coordinate far outside everything else, a tenth of which fits between its neighbours. */
export const valueTenTimes: Rule = {
  code: 'value-ten-times',
  title: 'Coordinate ten times its neighbours',
  family: 'numbers',
  severity: 'warning',
  means:
    'A position lies far outside everything else in the program, and with its point moved it would stand between its neighbours: the tool runs off the part, or into the vise.',
  cure: 'Look for a lost point or a digit too many.',
  fine_when: 'The position is meant, as a place to load the part.',
  source: 'common practice, no source',
  needs: [],
  explains: FOLLOW_FROM_WRONG_Z,
  program(program, report) {
    if (program.kind === 'lathe') return;
    for (const [index, axis] of scanOf(program).axes.entries()) {
      if (axis.count < 8 || !(axis.most >= 4 * axis.second)) continue;
      const out = axis.outlier;
      if (!out || Math.abs(out.value) !== axis.most) continue;
      const letter = index === 0 ? 'X' : 'Y';
      const length = (value: number) => formatQuantity('length_mm', value, program.shown);
      report({
        at: program.wordPlace(out.line, letter),
        message: `Runs far off: ${letter} goes to ${length(out.value)} between ${length(out.before)} and ${length(out.after)}. With the point moved it is ${length(out.value / out.factor)}. Check the number.`,
      });
    }
  },
  flagged: [
    {
      name: 'a point moved by one place',
      program: `${HEAD}X0 F300.\nY60.\nX10. Y70.\nX350.\n^^^^^\nX40. Y65.\nY10.\nX35. Y5.\nX0\nG0 Z50.\nX-20.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'as it was meant',
      program: `${HEAD}X0 F300.\nY60.\nX10. Y70.\nX35.\nX40. Y65.\nY10.\nX35. Y5.\nX0\nG0 Z50.\nX-20.\nM30\n`,
      options: ISO,
    },
    {
      name: 'a place to load, far off, and back',
      program: `${HEAD}X0 F300.\nY60.\nX10. Y70.\nX35.\nX40. Y65.\nY10.\nX35. Y5.\nX0\nG0 Z50.\nX-20.\nX-400.\nM30\n`,
      options: ISO,
    },
  ],
};
