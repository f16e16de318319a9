import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, firstCut, isTurning, lineOfLetter, runsStraight, withinReach } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, LATHE_A, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

/** A tool that runs at the speed of the tool before. */
export const speedInherited: Rule = {
  code: 'speed-inherited',
  title: 'Spindle speed is left over from the tool before',
  family: 'state',
  severity: 'information',
  means:
    'No S is written for this tool: it turns at the speed of the tool before, which fits another diameter.',
  cure: 'Write S with M3 after the tool change.',
  fine_when: 'Both tools are alike and the speed is meant.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const uses = cuttingUses(program);
    for (const [index, use] of uses.entries()) {
      if (index === 0) continue;
      const before = uses[index - 1];
      const part = firstCut(use);
      if (!part || !isTurning(part) || before.number === use.number || part.run[RUN.css] === 1) continue;
      const speed = part.run[RUN.spindle];
      if (!(speed > 0) || speed !== before.parts.at(-1)?.run[RUN.spindle]) continue;
      if (!withinReach(use.change_line, part.first_cut_line)) continue;
      if (!runsStraight(program, use.change_line, part.first_cut_line)) continue;
      if (lineOfLetter(program, 'S', use.change_line - 3, part.first_cut_line) >= 0) continue;
      report({
        at: program.blockPlace(use.change_line),
        severity: program.sheet && program.kind === 'mill' ? 'warning' : 'information',
        message: `${toolName(use)} turns at the ${speed} rev/min left over from T${before.number}. Write its own S.`,
      });
    }
  },
  flagged: [
    {
      name: 'M3 without S',
      program: `${MILL_MM}${milled(1)}T2 M6\n^^^^^\nM3\nG54 G0 X0 Y0\nG43 H2 Z2.\nG1 Z-1. F100.\nX50.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'the same speed, written', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'constant surface speed serves several tools',
      program:
        'G21 G18 G40 G99\nG50 S2500\nT0101\nG96 S200 M3\nG0 X62. Z2.\nG1 Z-10. F0.2\nG0 X100. Z50.\nT0303\nG0 X60. Z2.\nG1 Z-10. F0.1\n',
      options: LATHE_A,
    },
  ],
};
