import { RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { placedHoles } from './holes-at.ts';

const sheet = (material: string) =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "material": "${material}" }, "tools": { "1": { "kind": "drill", "diameter": 5 } } }`;
const PROGRAM = (line: string) =>
  `G21 G17 G40 G49 G80 G90 G94\nT1 M6\nS1200 M3\nG54 G0 X10. Y10.\nG43 H1 Z20.\n${line}G80\nM30\n`;
const TURNS = 5;

/** Standing at the bottom of a hole in material that hardens. */
export const dwellInWorkHardening: Rule = {
  code: 'dwell-in-work-hardening',
  title: 'Dwell in material that work-hardens',
  family: 'cutting',
  severity: 'warning',
  means:
    'The edge rubs on one place and hardens it: the next tool, or the next peck, meets a skin that it cannot enter.',
  cure: 'Leave the dwell out, or keep it under two turns.',
  fine_when: 'A flat bottom is needed, and no tool comes after.',
  source: 'common practice, no source',
  needs: ['material'],
  program(program, report) {
    if (!program.material?.character.includes('work-hardening')) return;
    const told = new Set<number>();
    for (const { hole, tool } of placedHoles(program)) {
      const turns = (hole.dwell_s * hole.run[RUN.spindle]) / 60;
      if (!(turns > TURNS) || told.has(tool) || hole.run[RUN.css] === 1) continue;
      told.add(tool);
      report({
        at: program.wordPlace(hole.line, 'P'),
        assumed: hole.dwell_s > 5 && program.reading.settled.dwell.how === 'likely',
        message: `Hardens the bottom of the hole: T${tool} rubs there for ${Math.round(turns)} turns. Leave the dwell out, or keep it under two turns.`,
      });
    }
  },
  flagged: [
    {
      name: 'half a second in stainless',
      program: PROGRAM('G82 Z-6. R2. P500 F100.\n             ^^^^\n'),
      sheet: sheet('1.4301'),
    },
  ],
  silent: [
    { name: 'in plain steel', program: PROGRAM('G82 Z-6. R2. P500 F100.\n'), sheet: sheet('C45') },
    { name: 'one turn', program: PROGRAM('G82 Z-6. R2. P100 F100.\n'), sheet: sheet('1.4301') },
  ],
};
