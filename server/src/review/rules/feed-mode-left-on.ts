import { formatQuantity } from '../../cutting/format.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import { cuttingUses, errorWithSheet, lineOfLetter } from '../lookup.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { ISO, LATHE_A, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

const LOCKED = (1 << KIND.thread) | (1 << KIND.tap);
/** No edge takes more than this in a turn, mm. */
const MOST_PER_REV = 5;
/** No cut is fed slower than this, mm/min. */
const LEAST_PER_MIN = 1.5;

/** A feed that makes sense only in the other feed mode. */
export const feedModeLeftOn: Rule = {
  code: 'feed-mode-left-on',
  title: 'Feed is read in the wrong mode',
  family: 'state',
  severity: 'warning',
  means:
    'The feed mode of an earlier tool is still on: a feed a minute is taken a revolution and breaks the tool at once, or a feed a revolution is taken a minute and the tool rubs in place.',
  cure: 'Write the feed mode (G94 or G95; G98 or G99 on lathes of code system A) before this F.',
  fine_when: 'The feed is meant as it is read.',
  source: 'common practice, no source',
  needs: ['units'],
  explains: ['chip-load-high', 'chip-load-low'],
  program(program, report) {
    for (const use of cuttingUses(program)) {
      for (const part of use.parts) {
        if (part.cut_steps === 0 || part.kinds & LOCKED) continue;
        const mode = part.run[RUN.feed_mode];
        const feed = part.run[RUN.feed];
        const fast = mode === 95 && feed > MOST_PER_REV;
        const slow = mode === 94 && feed > 0 && feed < LEAST_PER_MIN;
        if (!fast && !slow) continue;
        const found = lineOfLetter(program, 'F', use.change_line, part.first_cut_line);
        const shownAs = formatQuantity(fast ? 'feed_per_rev_mm' : 'feed_mm_min', feed, program.shown);
        report({
          at: program.wordPlace(found >= 0 ? found : part.first_cut_line, 'F'),
          severity: program.sheet || hasOtherMode(program, mode) ? errorWithSheet(program) : 'information',
          message: fast
            ? `Breaks the tool: ${toolName(use)} is fed ${shownAs}, since feed per revolution is in force. Write feed per minute before it.`
            : `Rubs in place: ${toolName(use)} is fed ${shownAs}, since feed per minute is in force. Write feed per revolution before it.`,
        });
        break;
      }
    }
  },
  flagged: [
    {
      name: 'G95 of the tap is left on',
      program: `${MILL_MM}T1 M6\nS500 M3\nG0 X0 Y0\nG43 H1 Z20.\nG95\nG84 X0 Y0 Z-10. R5. F1.25\nG80\nM5\n${milled(2).replace('G1 Z-2. F100.\n', 'G1 Z-2. F100.\n        ^^^^^\n')}M30\n`,
      options: ISO,
    },
    {
      name: 'G98 of the driven tool is left on',
      program:
        'G21 G18 G40 G99\nT0101\nG97 S800 M3\nG0 X62. Z2.\nG98 G1 Z-10. F120.\nG0 X100. Z50.\nT0303\nG97 S900 M3\nG0 X60. Z2.\nG1 Z-10. F0.12\n         ^^^^^\nM30\n',
      options: LATHE_A,
    },
  ],
  silent: [
    {
      name: 'G94 again',
      program: `${MILL_MM}T1 M6\nS500 M3\nG0 X0 Y0\nG43 H1 Z20.\nG95\nG84 X0 Y0 Z-10. R5. F1.25\nG80\nG94\nM5\n${milled(2)}M30\n`,
      options: ISO,
    },
    {
      name: 'turning feeds',
      program: 'G21 G18 G40 G99\nT0101\nG97 S800 M3\nG0 X62. Z2.\nG1 Z-10. F0.5\nM30\n',
      options: LATHE_A,
    },
  ],
};

function hasOtherMode({ parts }: Program, mode: number): boolean {
  return parts.some(part => !Object.is(part.run[RUN.feed_mode], mode));
}
