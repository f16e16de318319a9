import { KIND, RUN } from '../../rs274/steps.ts';
import { errorWithSheet, lineOfCode, withinReach } from '../lookup.ts';
import type { Part } from '../part.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

const HOME = 1 << KIND.home;

/** G91 of a reference return that holds on into the next moves. */
export const incrementalLeftOn: Rule = {
  code: 'incremental-left-on',
  title: 'G91 of the reference return is left on',
  family: 'state',
  severity: 'warning',
  means:
    'After G91 G28 no G90 comes: the next positions are read as distances from where the tool stands, and it runs somewhere else.',
  cure: 'Write G90 after the reference return.',
  fine_when: 'The moves that follow are meant as distances.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    let home: Part | undefined;
    for (const part of program.parts) {
      if (part.run[RUN.distance] !== 91) {
        home = undefined;
        continue;
      }
      if (part.kinds & HOME) {
        home ??= part;
        continue;
      }
      if (!home || (part.cut_steps === 0 && part.rapid_steps === 0)) continue;
      const from = home.last_line + 1;
      home = undefined;
      if (!withinReach(from, part.first_line)) continue;
      if (lineOfCode(program, 'G', [91], from, part.first_line) >= 0) continue;
      if (!program.parts.some(p => p.cut_steps > 0 && p.run[RUN.distance] === 90)) continue;
      report({
        at: program.blockPlace(part.first_line),
        severity: errorWithSheet(program),
        message:
          'Runs somewhere else: this position is read as a distance, since G91 of the reference return is still on. Write G90 before it.',
        fixes: [
          {
            title: 'Write G90 on this block',
            grade: 'asks',
            edits: [
              {
                ...program.blockPlace(part.first_line),
                end_column: program.blockPlace(part.first_line).column,
                text: 'G90 ',
              },
            ],
          },
        ],
      });
    }
  },
  flagged: [
    {
      name: 'no G90 after G91 G28',
      program: `${MILL_MM}${milled(1)}G91 G28 Z0.\nT2 M6\nS3000 M3\nG54 G0 X0 Y0\n^^^^^^^^^^^^\nG43 H2 Z25.\nZ2.\nG1 Z-2. F100.\nX50.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'G90 after it',
      program: `${MILL_MM}${milled(1)}G91 G28 Z0.\nG90\nT2 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H2 Z25.\nZ2.\nG1 Z-2. F100.\nX50.\nM30\n`,
      options: ISO,
    },
    {
      name: 'G90 on the first move',
      program: `${MILL_MM}${milled(1)}G91 G28 Z0.\nT2 M6\nS3000 M3\nG90 G54 G0 X0 Y0\nG43 H2 Z25.\nZ2.\nG1 Z-2. F100.\nX50.\nM30\n`,
      options: ISO,
    },
    {
      name: 'at the end of the program',
      program: `${MILL_MM}${milled(1)}G91 G28 Z0.\nG28 Y0.\nM30\n`,
      options: ISO,
    },
  ],
};
