import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, lineOfCode, lineOfLetter } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

/** G41 or G42 with no D. */
export const compensationWithoutOffset: Rule = {
  code: 'compensation-without-offset',
  title: 'Compensation without an offset number',
  family: 'state',
  severity: 'warning',
  means:
    'G41 or G42 is on and no D was given: the control stops, or takes the radius offset of the tool before.',
  cure: 'Write D with the number of the tool on the block with G41 or G42.',
  fine_when: 'The control takes the offset of the tool in the spindle by itself.',
  source: 'NISTIR 6556 section 3.5.9 (D number), from memory',
  needs: [],
  program(program, report) {
    if (program.kind === 'lathe' || program.dialect === 'ngc') return;
    for (const use of cuttingUses(program)) {
      const part = use.parts.find(p => p.cut_steps > 0 && p.run[RUN.compensation] !== 40);
      if (!part) continue;
      const offset = part.run[RUN.radius_offset];
      const line = lineOfCode(program, 'G', [41, 42], use.change_line, part.first_cut_line);
      if (line < 0) continue;
      const none = Number.isNaN(offset) || offset === 0;
      if (!none || lineOfLetter(program, 'D', use.change_line, part.first_cut_line) >= 0) continue;
      report({
        at: program.wordPlace(line, 'G', part.run[RUN.compensation]),
        message: `Stops, or is offset by another tool's radius: compensation is on for ${toolName(use)} without a D number. Write D${use.number}.`,
      });
    }
  },
  flagged: [
    {
      name: 'no D',
      program: `${MILL_MM}${milled(1, 'G41 X10. Y5.\n^^^\nX50.\nG40 X60. Y0\n')}M30\n`,
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'D on the block',
      program: `${MILL_MM}${milled(1, 'G41 D1 X10. Y5.\nX50.\nG40 X60. Y0\n')}M30\n`,
      options: ISO,
    },
    {
      name: 'D before it',
      program: `${MILL_MM}${milled(1, 'D1\nG41 X10. Y5.\nX50.\nG40 X60. Y0\n')}M30\n`,
      options: ISO,
    },
    {
      name: 'nose compensation of a lathe has no D',
      program: 'G21 G18 G40 G99\nT0101\nG97 S800 M3\nG0 X22. Z2.\nG42 G1 X20. F0.2\nZ-10.\nG40 X24.\n',
      options: { dialect: 'lathe-a', kind: 'lathe' },
    },
  ],
};
