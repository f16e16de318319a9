import type { Rule } from '../rule.ts';
import { isReport } from './problem-words.ts';

/** Two codes of one modal group in a block. */
export const groupConflict: Rule = {
  code: 'group-conflict',
  title: 'Two codes of one group in a block',
  family: 'language',
  severity: 'error',
  means:
    'The block holds two codes that exclude each other. Some controls stop, others take the last one: what the machine does cannot be told from the program.',
  cure: 'Leave the one that is meant, or write them in two blocks.',
  fine_when: 'Never; the block says two things.',
  source: 'NISTIR 6556 section 3.4 (modal groups), from memory',
  needs: [],
  problems: ['codes-of-one-group'],
  flagged: [
    { name: 'two motions', program: 'G21 G90 G94 F100\nG0 G1 X10\n   ^^\n' },
    { name: 'two planes', program: 'G17 G18\n    ^^^\n' },
  ],
  silent: [
    { name: 'codes of different groups', program: 'G0 G90 G54 G17 X0 Y0\n' },
    { name: 'return to reference beside a distance mode', program: 'G91 G28 Z0.\nG90\n' },
  ],
};

/** An arc whose end is not on its circle. */
export const arcMissesEnd: Rule = {
  code: 'arc-misses-end',
  title: 'Arc does not meet its end point',
  family: 'language',
  severity: 'error',
  means:
    'The end point is not on the circle that start and centre give. The control stops, or cuts a spiral that marks the wall.',
  cure: 'Correct the end point or the centre; a digit is often lost in one of them.',
  fine_when: 'The control takes a larger difference by parameter and the mark does not matter.',
  source: 'NISTIR 6556 section 3.5.3 (radius difference), from memory',
  needs: [],
  problems: [
    'arc-end-off-circle',
    'arc-radius-short',
    'arc-centre-missing',
    'spline-word-missing',
    'arc-radius-zero',
    'arc-ends-equal',
    'arc-radius-and-centre',
    'arc-centre-incomplete',
    'arc-centre-wrong-axis',
    'arc-turns-bad',
  ],
  flagged: [
    {
      name: 'end 0.5 mm off',
      program: 'G21 G17 G90 G94 F100\nG0 X0 Y0\nG2 X10.5 Y0 I5 J0\n^^^^^^^^^^^^^^^^^\n',
    },
    {
      name: 'radius shorter than half the way',
      program: 'G21 G17 G90 G94 F100\nG0 X0 Y0\nG2 X10 Y0 R4\n^^^^^^^^^^^^\n',
    },
  ],
  silent: [
    {
      name: 'rounded to three places',
      program: 'G21 G17 G90 G94 F100\nG0 X0 Y0\nG3 X7.071 Y2.929 I0 J10.\n',
    },
    { name: 'full circle', program: 'G21 G17 G90 G94 F100\nG0 X0 Y0\nG2 I5 J0\n' },
  ],
};

/** A code that no table knows. */
export const codeUnknown: Rule = {
  code: 'code-unknown',
  title: 'Code is not known',
  family: 'language',
  severity: 'warning',
  means:
    'The G or M code stands in no table of this dialect: the control may stop, or do something that this review does not see.',
  cure: 'Correct it if it is a slip; if the machine has it, look into its manual, since the review does not follow it.',
  fine_when: 'The machine maker defined it and the person knows what it does.',
  source: 'NISTIR 6556 tables 5 and 7; ISO 6983-1, from memory',
  needs: [],
  problems: ['code-unknown'],
  rate(problem, program) {
    // The message begins with the code: of a hundred places nobody looks into the text again.
    if (problem.message.startsWith('M')) return 'information';
    return isReport(program) ? 'error' : 'warning';
  },
  flagged: [{ name: 'no such G', program: 'G21 G90\nG44.9 X1\n^^^^^\n' }],
  silent: [
    { name: 'a code that is known and not followed is another matter', program: 'G21 G90\nG38.2 Z-5 F50\n' },
    { name: 'code-like words in a comment', program: 'G21 G90 (G177 IS NOT A CODE)\n' },
  ],
};
