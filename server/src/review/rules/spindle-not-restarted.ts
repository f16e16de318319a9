import { KIND, RUN } from '../../rs274/steps.ts';
import {
  cuttingUses,
  errorWithSheet,
  firstCut,
  isTurning,
  lineOfCode,
  runsStraight,
  withinReach,
} from '../lookup.ts';
import type { Part } from '../part.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

const CHANGE = 1 << KIND.toolchange;

/** A tool change with no spindle start after it. */
export const spindleNotRestarted: Rule = {
  code: 'spindle-not-restarted',
  title: 'Spindle is not started after the tool change',
  family: 'state',
  severity: 'warning',
  means:
    'A tool change stops the spindle. Without M3 or M4 after it the tool is pushed into the work standing still.',
  cure: 'Write S and M3 (or M4) after M6.',
  fine_when: 'The machine starts the spindle again by itself, or the spindle is switched by hand.',
  source: 'NISTIR 6556 section 3.6.3 (the spindle is stopped at M6), from memory',
  needs: [],
  program(program, report) {
    if (program.kind === 'lathe') return;
    let started = program.sheet !== undefined;
    const bare: Part[] = [];
    for (const use of cuttingUses(program)) {
      const part = firstCut(use);
      if (!part || !isTurning(part) || !use.parts.some(p => p.kinds & CHANGE)) continue;
      if (!withinReach(use.change_line, part.first_cut_line)) continue;
      if (!runsStraight(program, use.change_line, part.first_cut_line)) continue;
      const start = lineOfCode(program, 'M', [3, 4, 13, 14], use.change_line, part.first_cut_line);
      if (start >= 0) started = true;
      else bare.push(part);
    }
    if (!started) return;
    for (const part of bare) {
      report({
        at: program.blockPlace(part.first_cut_line),
        severity: errorWithSheet(program),
        message: `Pushes a standing tool into the work: M6 stops the spindle and nothing starts it for T${part.run[RUN.tool]}. Write M3 with its speed before this cut.`,
      });
    }
  },
  flagged: [
    {
      name: 'S without M3',
      program: `${MILL_MM}${milled(1).replace('M5\n', '')}T2 M6\nS3000\nG54 G0 X0 Y0\nG43 H2 Z2.\nG1 Z-1. F100.\n^^^^^^^^^^^^^\nX50.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'no tool is started after its change: the machine does it',
      program: `${MILL_MM}S3000 M3\nT1 M6\nG0 X0 Y0\nG43 H1 Z2.\nG1 Z-1. F100.\nX50.\nT2 M6\nG43 H2 Z2.\nG1 Z-1.\nX0\nM30\n`,
      options: ISO,
    },
    { name: 'started', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'M3 in the block of the change',
      program: `${MILL_MM}T2 M6 S3000 M3\nG54 G0 X0 Y0\nG43 H2 Z2.\nG1 Z-1. F100.\nX50.\nM30\n`,
      options: ISO,
    },
  ],
};
