import { RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { clampWord } from './words.ts';

/** Constant surface speed with no speed limit. */
export const cssWithoutClamp: Rule = {
  code: 'css-without-clamp',
  title: 'Constant surface speed without a speed limit',
  family: 'state',
  severity: 'warning',
  means:
    'Under G96 the spindle speeds up as the tool nears the centre. Without a limit it goes to the top of the machine, above what chuck and jaws hold.',
  cure: 'Write the limit before G96: G50 S (code system A), G92 S (B and C) or D with G96, not over what the chuck plate says.',
  fine_when: 'A limit set at the control for this job is checked by whoever runs it.',
  source: 'common practice, no source; VDI 3106 on the loss of grip with speed, from memory',
  needs: [],
  tool(use, program, report) {
    for (const part of use.parts) {
      if (part.cut_steps === 0 || part.run[RUN.css] !== 1 || part.run[RUN.clamp_rpm] > 0) continue;
      const line = program.lineOfWord('S', part.first_line);
      const least = part.least_x_mm;
      const limit = program.sheet?.workholding?.max_rpm?.value ?? program.machine?.spindle?.max_rpm?.value;
      const asked = (1000 * part.run[RUN.spindle]) / (Math.PI * least);
      const reach =
        least === 0
          ? 'the centre, where only the machine limits the spindle'
          : Number.isFinite(asked)
            ? `a diameter that asks for ${Math.round(asked)} rev/min`
            : 'a diameter or from a speed that the program does not tell';
      if (least > 0 && limit !== undefined && asked <= limit) continue;
      report({
        at: program.wordPlace(line >= 0 ? line : part.first_cut_line, 'G', 96),
        message: `May throw the part: G96 runs without a speed limit down to ${reach}. Write ${clampWord(program.dialect)} before it.`,
      });
      return;
    }
  },
  flagged: [
    {
      name: 'facing to the centre',
      program: 'G21 G18 G40 G99\nT0101\nG96 S200 M3\n^^^\nG0 X62. Z0.\nG1 X-1.6 F0.2\n',
      options: { dialect: 'lathe-a', kind: 'lathe' },
    },
    {
      name: 'turning without any limit',
      program: 'G21 G18 G40 G99\nT0101\nG96 S200 M3\n^^^\nG0 X20. Z2.\nG1 Z-10. F0.2\n',
      options: { dialect: 'lathe-a', kind: 'lathe' },
    },
  ],
  silent: [
    {
      name: 'G50 before it',
      program: 'G21 G18 G40 G99\nT0101\nG50 S2500\nG96 S200 M3\nG0 X62. Z0.\nG1 X-1.6 F0.2\n',
      options: { dialect: 'lathe-a', kind: 'lathe' },
    },
    {
      name: 'D with G96',
      program: 'G21 G18 G40 G95 G7\nT1 M6\nG96 D2500 S200 M3\nG0 X62. Z0.\nG1 X0 F0.2\n',
      options: { dialect: 'ngc', kind: 'lathe' },
    },
    {
      name: 'the smallest diameter stays under what the chuck plate says',
      program: 'G21 G18 G40 G99\nT0101\nG96 S200 M3\nG0 X60. Z2.\nG1 Z-10. F0.2\n',
      sheet: '{ "units": "mm", "workholding": { "max_rpm": 3000 } }',
      options: { dialect: 'lathe-a', kind: 'lathe' },
    },
  ],
};
