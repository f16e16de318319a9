import { RUN } from '../../rs274/steps.ts';
import { errorWithSheet, isTurning } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

/** The spindle is started and no speed was ever given. */
export const spindleWithoutSpeed: Rule = {
  code: 'spindle-without-speed',
  title: 'Spindle is started without a speed',
  family: 'state',
  severity: 'information',
  means: 'M3 or M4 runs before any S: the spindle stands still, or turns at the speed of the last job.',
  cure: 'Write S on the block with M3.',
  fine_when: 'The speed is set by hand.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const part = program.parts.find(p => p.cut_steps > 0 && isTurning(p) && Number.isNaN(p.run[RUN.spindle]));
    if (!part) return;
    const later = program.parts.some(p => p.run[RUN.spindle] > 0);
    report({
      at: program.blockPlace(part.first_cut_line),
      severity: later ? errorWithSheet(program) : 'information',
      message: later
        ? 'Cuts at whatever speed the last job left: the spindle is on and S comes only later. Write S with M3.'
        : 'Cuts at whatever speed is set at the machine: the program never says S.',
    });
  },
  flagged: [
    {
      name: 'S of the first tool forgotten',
      program: `${MILL_MM}T1 M6\nM3\nG0 X0 Y0\nG43 H1 Z2.\nG1 Z-1. F100.\n^^^^^^^^^^^^^\nX50.\nM5\n${milled(2)}M30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'S with M3', program: `${MILL_MM}${milled(1)}M30\n`, options: ISO },
    {
      name: 'S on the block after M3',
      program: `${MILL_MM}T1 M6\nM3\nS1000\nG0 X0 Y0\nG43 H1 Z2.\nG1 Z-1. F100.\nM30\n`,
      options: ISO,
    },
  ],
};
