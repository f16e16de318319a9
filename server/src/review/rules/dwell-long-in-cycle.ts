import type { Rule } from '../rule.ts';
import { scanOf } from '../scan-program.ts';
import { hasCycle } from './holes-at.ts';

const PROGRAM = (line: string) =>
  `G21 G17 G40 G49 G80 G90 G94\nT1 M6\nS1500 M3\nG54 G0 X10. Y10.\nG43 H1 Z20.\n${line}G80\nM2\n`;

/** A dwell at the bottom of a hole that is too long to be meant. */
export const dwellLongInCycle: Rule = {
  code: 'dwell-long-in-cycle',
  title: 'Dwell of a cycle is too long',
  family: 'numbers',
  severity: 'warning',
  means:
    'The tool stands at the bottom of each hole for longer than ten seconds: likely milliseconds were meant and seconds are read. It rubs, and the time is lost.',
  cure: 'Write the dwell in the unit of the control; one or two turns are enough.',
  fine_when: 'The dwell is meant.',
  source: 'NISTIR 6556 section 3.5.4 (P in seconds), from memory; ten seconds: common practice, no source',
  needs: [],
  program(program, report) {
    if (!hasCycle(program)) return;
    const hole = scanOf(program).findHole(h => h.cycle && h.dwell_s > 10);
    if (!hole) return;
    report({
      // in either unit a minute is too long
      assumed: program.reading.settled.dwell.how === 'likely' && hole.dwell_s < 60,
      at: program.wordPlace(hole.line, 'P'),
      message: `Rubs at the bottom: each hole dwells ${Math.round(hole.dwell_s)} s. The number is likely in milliseconds and this control reads seconds. One or two turns are enough.`,
    });
  },
  flagged: [
    {
      name: 'P200 in seconds',
      program: PROGRAM('G82 Z-2.5 R2. P200 F100.\n              ^^^^\n'),
      options: { dialect: 'ngc', kind: 'mill' },
    },
  ],
  silent: [
    {
      name: 'a fifth of a second',
      program: PROGRAM('G82 X10. Z-2.5 R2. P0.2 F100.\n'),
      options: { dialect: 'ngc', kind: 'mill' },
    },
    {
      name: 'milliseconds',
      program: PROGRAM('G82 Z-2.5 R2. P200 F100.\n'),
      options: { dialect: 'iso6983', kind: 'mill' },
    },
  ],
};
