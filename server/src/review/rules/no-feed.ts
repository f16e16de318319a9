import { KIND, RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';

const OWN_FEED = (1 << KIND.thread) | (1 << KIND.tap);

/** A cutting move with no feed in force. */
export const noFeed: Rule = {
  code: 'no-feed',
  title: 'Cutting move without a feed',
  family: 'language',
  severity: 'error',
  means:
    'A feed move runs and no F word, or F0, is in force. The control stops with an alarm, or moves at a feed left over from another program.',
  cure: 'Write F on the first cutting move after the tool change.',
  fine_when: 'A called program or the control sets the feed before this one runs.',
  source: 'NISTIR 6556 section 3.5.2 (feed rate zero is an error), from memory',
  needs: [],
  explains: ['chip-load-low', 'chip-load-high'],
  tool(use, program, report) {
    for (const part of use.parts) {
      if (part.cut_steps === 0 || part.kinds & OWN_FEED) continue;
      const feed = part.run[RUN.feed];
      if (feed > 0) continue;
      const zero = feed === 0;
      report({
        at: program.blockPlace(part.first_cut_line),
        message: zero
          ? 'Stands still: this move cuts with F0 in force. Write the feed.'
          : 'The control stops here: this move cuts and no feed has been given. Write F on this block.',
      });
      return;
    }
  },
  flagged: [
    { name: 'no F anywhere', program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0 Z1\nG1 X10\n^^^^^^\n' },
    { name: 'F0', program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0 Z1\nG1 X10 F0\n^^^^^^^^^\n' },
    {
      name: 'inverse time needs F in each block',
      program: 'G21 G90 G93\nS1000 M3\nG0 X0 Y0 Z1\nG1 X10 F2\nX20\n^^^\n',
    },
  ],
  silent: [
    {
      name: 'F on a rapid block is in force for the next feed move',
      program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0 Z1 F100\nG1 X10\n',
    },
    { name: 'F on the block before', program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0 Z1\nF100\nG1 X10\n' },
    {
      name: 'threading takes its lead, not F',
      program: 'G21 G18 G90 G95\nS500 M3\nG0 X20 Z2\nG33 Z-10 K1.5\n',
      options: { dialect: 'ngc', kind: 'lathe' },
    },
  ],
};
