import type { Rule } from '../rule.ts';

/** A text of another language. */
export const notAProgram: Rule = {
  code: 'not-a-program',
  title: 'Not a cutting program',
  family: 'language',
  severity: 'information',
  means:
    'The text looks like another language: a printer file, a drill table, or a conversational program. What is said about it here is of no use.',
  cure: 'Nothing, if it is not meant for a cutting machine.',
  fine_when: 'Always.',
  source: 'this review',
  needs: [],
  program(program, report) {
    const other = program.reading.settled.not_cutting;
    if (!other) return;
    report({
      at: program.blockPlace(other.line),
      message: `Not checked as a cutting program: ${other.reason}.`,
    });
  },
  flagged: [
    {
      name: 'a printer file',
      program: `;LAYER:0\n^^^^^^^^\nM104 S210\nM140 S60\nM82\nG28\n${'G1 X10 Y10 E0.5\nG1 X20 Y10 E0.9\n'.repeat(6)}M107\n`,
    },
  ],
  silent: [
    { name: 'a cutting program', program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0\nG1 X10 F100\nM30\n' },
    { name: 'no text at all', program: '' },
  ],
};
