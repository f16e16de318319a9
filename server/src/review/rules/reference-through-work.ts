import { RUN } from '../../rs274/steps.ts';
import { errorWithSheet } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { scanOf } from '../scan-program.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

/** G28 or G30 in absolute mode that first goes down. */
export const referenceThroughWork: Rule = {
  code: 'reference-through-work',
  title: 'Reference return dives first',
  family: 'state',
  severity: 'warning',
  means:
    'G28 and G30 go through the point of their words first. In G90 with Z0 that is the top of the part: the tool dives at rapid before it goes home.',
  cure: 'Write G91 G28 Z0. and G90 after it, or G53 G0 Z0.',
  fine_when: 'The point of the words is above everything.',
  source: 'NISTIR 6556 section 3.5.8 (G28, intermediate point), from memory',
  needs: [],
  program(program, report) {
    if (program.kind === 'lathe') return;
    const via = scanOf(program).vias.find(v => v.run[RUN.distance] === 90 && v.z < v.from_z - 1e-6);
    if (!via) return;
    const at = program.blockPlace(via.line);
    const words = program.words(via.line);
    const plain = words.every(
      w => (w.letter === 'G' && (w.value === 28 || w.value === 30)) || (w.letter === 'Z' && w.value === 0),
    );
    report({
      at,
      severity: errorWithSheet(program),
      message:
        'Dives at rapid before it goes home: in G90 the words of this block are a point to go through, and it lies under where the tool stands. Write G91 before it and G90 after it.',
      ...(plain
        ? {
            fixes: [
              {
                title: 'Write G91 before it and G90 after it',
                grade: 'asks',
                edits: [
                  { ...at, end_column: at.column, text: 'G91 ' },
                  { ...at, column: at.end_column, text: '\nG90' },
                ],
              },
            ],
          }
        : {}),
    });
  },
  flagged: [
    { name: 'G28 Z0 in G90', program: `${MILL_MM}${milled(1)}G28 Z0.\n^^^^^^^\nM30\n`, options: ISO },
  ],
  silent: [
    { name: 'G91 before it', program: `${MILL_MM}${milled(1)}G91 G28 Z0.\nG90\nM30\n`, options: ISO },
    {
      name: 'the point is where the tool stands',
      program: `${MILL_MM}${milled(1)}G28 Z25.\nM30\n`,
      options: ISO,
    },
    { name: 'X and Y only', program: `${MILL_MM}${milled(1)}G28 X0. Y0.\nM30\n`, options: ISO },
  ],
};
