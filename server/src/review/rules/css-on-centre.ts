import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, lineOfCode } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { LATHE_A } from './sample-programs.ts';
import { toolName } from './words.ts';

const PROGRAM = (speed: string) =>
  `G21 G18 G40 G99\nT0505\n${speed}G0 X0. Z5.\nG1 Z-20. F0.15\nG0 Z50.\nM30\n`;

/** Constant surface speed with a tool on the centre line. */
export const cssOnCentre: Rule = {
  code: 'css-on-centre',
  title: 'Constant surface speed on the centre line',
  family: 'state',
  severity: 'warning',
  means: 'At X0 the control asks for endless speed: the spindle runs at its limit, and the drill burns.',
  cure: 'Write G97 with a fixed speed before tools on the centre line.',
  fine_when: 'The limit is the speed that is meant.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'lathe') return;
    for (const use of cuttingUses(program)) {
      const part = use.parts.find(
        p =>
          p.cut_steps > 0 &&
          p.run[RUN.css] === 1 &&
          p.most_x_mm === 0 &&
          p.low(2) < p.high(2) + 1e-9 &&
          p.low(2) < 0,
      );
      if (!part) continue;
      const line = lineOfCode(program, 'G', [96], 0, part.first_cut_line);
      const clamp = part.run[RUN.clamp_rpm];
      report({
        at:
          line >= use.change_line
            ? program.wordPlace(line, 'G', 96)
            : program.blockPlace(part.first_cut_line),
        message: `Burns the tool: ${toolName(use)} works at X0 under G96 and turns at ${clamp > 0 ? `the limit of ${clamp} rev/min` : 'whatever the spindle has'}. Write G97 with its speed.`,
      });
    }
  },
  flagged: [
    { name: 'G96 with a drill', program: PROGRAM('G50 S2500\nG96 S100 M3\n^^^\n'), options: LATHE_A },
  ],
  silent: [
    { name: 'G97', program: PROGRAM('G97 S600 M3\n'), options: LATHE_A },
    {
      name: 'facing to the centre',
      program: 'G21 G18 G40 G99\nT0101\nG50 S2500\nG96 S200 M3\nG0 X62. Z0.\nG1 X-1.6 F0.2\nG0 Z50.\nM30\n',
      options: LATHE_A,
    },
  ],
};
