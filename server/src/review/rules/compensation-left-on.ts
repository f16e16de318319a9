import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, lastRun, lineOfCode } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { isReport } from './problem-words.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

/** Compensation still on when the tool is changed or the program ends. */
export const compensationLeftOn: Rule = {
  code: 'compensation-left-on',
  title: 'Compensation is left on',
  family: 'state',
  severity: 'warning',
  means:
    'G41 or G42 is still on when the tool goes: the retract is offset, the next tool starts with it, and some controls stop at the tool change.',
  cure: 'Write G40 on a straight move away from the part, before the retract.',
  fine_when: 'The control cancels it at the tool change and the retract is far from everything.',
  source: 'NISTIR 6556 section 3.6.3 (M6 with compensation on is an error), from memory',
  needs: [],
  program(program, report) {
    for (const use of cuttingUses(program)) {
      const run = lastRun(use);
      const side = run[RUN.compensation];
      if (side === 40) continue;
      const line = lineOfCode(program, 'G', [41, 42], use.change_line, use.last_line);
      report({
        at: line >= 0 ? program.wordPlace(line, 'G', side) : program.blockPlace(use.last_line),
        severity: isReport(program) && use !== program.uses.at(-1) ? 'error' : 'warning',
        message: `The next tool starts offset: G${side} of ${toolName(use)} is never cancelled. Write G40 on the way out.`,
      });
    }
  },
  flagged: [
    {
      name: 'no G40',
      program: `${MILL_MM}${milled(1, 'G41 D1 X10. Y5.\n^^^\nX50.\nX60. Y0\n')}M30\n`,
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'G40 on the way out',
      program: `${MILL_MM}${milled(1, 'G41 D1 X10. Y5.\nX50.\nG40 X60. Y0\n')}M30\n`,
      options: ISO,
    },
    { name: 'never on', program: `${MILL_MM}${milled(1)}M30\n`, options: ISO },
  ],
};
