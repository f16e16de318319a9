import { RUN } from '../../rs274/steps.ts';
import { errorWithSheet, lineOfCode } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

/** T without M6. */
export const toolNeverChanged: Rule = {
  code: 'tool-never-changed',
  title: 'Tool is called but never changed to',
  family: 'state',
  severity: 'warning',
  means:
    'T only prepares a tool; without M6 the old one stays in the spindle and does the work of the new one.',
  cure: 'Write M6 with the T word.',
  fine_when: 'The tool is changed by hand, or prepared for the next program.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind === 'lathe') return;
    const isUsed = (tool: number) => program.parts.some(part => part.tool === tool);
    const told = new Set<number>();
    for (const part of program.parts) {
      const wanted = part.run[RUN.prepared_tool];
      if (part.cut_steps === 0 || !(wanted > 0) || part.tool === wanted) continue;
      if (told.has(wanted) || isUsed(wanted) || program.parts.every(({ tool }) => tool < 0)) continue;
      told.add(wanted);
      const line = lineOfCode(program, 'T', [wanted], 0, part.first_cut_line);
      report({
        at: line >= 0 ? program.wordPlace(line, 'T') : program.blockPlace(part.first_cut_line),
        severity: errorWithSheet(program),
        message: `Cuts with the old tool: T${wanted} is called and M6 never comes, so T${part.run[RUN.tool]} stays in the spindle. Write M6.`,
      });
    }
  },
  flagged: [
    {
      name: 'M6 lost',
      program: `${MILL_MM}${milled(1)}${milled(2).replace('T2 M6\n', 'T2\n^^\n')}M30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'M6', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'prepared while the old one cuts, changed later',
      program: `${MILL_MM}${milled(1).replace('Z2.\n', 'Z2. T2\n')}M6\n${milled(2).replace('T2 M6\n', '')}M30\n`,
      options: ISO,
    },
    {
      name: 'the first tool is prepared again at the end',
      program: `${MILL_MM}${milled(1)}${milled(2)}T1\nG0 X0\nM30\n`,
      options: ISO,
    },
  ],
};
