import type { Severity } from '../finding.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';

/** True for the strict dialect, when more than likelihood says that it is this one. */
export function isReport(program: Program): boolean {
  const { how } = program.reading.settled.dialect;
  return program.dialect === 'ngc' && how !== 'likely' && how !== 'unknown';
}

/** What the report forbids is an error there; other controls take it, or do something of their own. */
export const errorInReport =
  (elsewhere: Severity) =>
  (_problem: unknown, program: Program): Severity =>
    isReport(program) ? 'error' : elsewhere;

const READING = 'NISTIR 6556 section 3.3 (format of a line), from memory';
const NGC = { dialect: 'ngc', kind: 'mill' } as const;
const ISO = { dialect: 'iso6983', kind: 'mill' } as const;

/** A number that cannot be read. */
export const numberUnreadable: Rule = {
  code: 'number-unreadable',
  title: 'Number cannot be read',
  family: 'language',
  severity: 'error',
  means: 'A word has no number, or one that no control reads. The control stops at this block.',
  cure: 'Write the number: sign, digits and one decimal point.',
  fine_when: 'Never; the control stops.',
  source: READING,
  needs: [],
  problems: ['number-bad', 'number-missing', 'number-exponent', 'number-too-large'],
  flagged: [
    { name: 'sign and no number', program: 'G21 G90 G94 F100\nG0 X-\n   ^^\n' },
    { name: 'two points', program: 'G21 G90 G94 F100\nG0 X1.2.3\n   ^^^^^^\n' },
  ],
  silent: [
    { name: 'leading and trailing points', program: 'G21 G90 G94 F100\nG0 X.5 Y-5. Z+007\n' },
    { name: 'blank inside a word', program: 'G21 G90 G94 F100\nG0 X 10.5 Y 2.\n' },
  ],
};

/** A comma where a decimal point belongs. */
export const numberComma: Rule = {
  code: 'number-comma',
  title: 'Comma instead of a decimal point',
  family: 'numbers',
  severity: 'error',
  means: 'A comma is no decimal point: the control stops, or reads the whole part alone and cuts there.',
  cure: 'Write a point.',
  fine_when: 'Never.',
  source: READING,
  needs: [],
  problems: ['number-comma'],
  flagged: [{ name: 'comma in a coordinate', program: 'G21 G90 G94 F100\nG0 X1,5\n   ^^^^\n' }],
  silent: [
    { name: 'a point', program: 'G21 G90 G94 F100\nG0 X1.5\n' },
    {
      name: 'a comma before a corner word',
      program: 'G21 G90 G94 F100\nG0 X0 Y0\nG1 X10. ,R2.\nY10.\n',
      options: ISO,
    },
  ],
};

/** The letter O where a zero belongs. */
export const letterOForZero: Rule = {
  code: 'letter-o-for-zero',
  title: 'Letter O where a zero was meant',
  family: 'language',
  severity: 'error',
  means: 'The control reads O as a program number and stops, or jumps.',
  cure: 'Write the digit 0.',
  fine_when: 'Never.',
  source: READING,
  needs: [],
  problems: ['letter-o-for-zero'],
  flagged: [{ name: 'GO', program: 'G21 G90\nGO X10\n^^\n' }],
  silent: [
    { name: 'a program number', program: 'O1234\nG21 G90\nG0 X10\n' },
    { name: 'in a comment', program: 'G21 G90 (GO X1O)\nG0 X10\n' },
  ],
};

/** Blanks to be filled in. */
export const numberBlank: Rule = {
  code: 'number-blank',
  title: 'A blank is left to fill in',
  family: 'language',
  severity: 'error',
  means: 'A word has underscores instead of a number: the program is a template that nobody finished.',
  cure: 'Fill in the number.',
  fine_when: 'The file is a template and is not sent to a machine.',
  source: 'common practice, no source',
  needs: [],
  problems: ['number-blank'],
  flagged: [{ name: 'underscores', program: 'G21 G90 G94 F100\nG0 X___ Y10.\n   ^^\n' }],
  silent: [
    { name: 'filled in', program: 'G21 G90 G94 F100\nG0 X5. Y10.\n' },
    { name: 'underscores in a comment', program: 'G21 G90 (SET BY: ____)\nG0 X5.\n' },
  ],
};

/** A comment that is not closed, or holds another one. */
export const commentUnclosed: Rule = {
  code: 'comment-unclosed',
  title: 'Comment is not closed as it should be',
  family: 'language',
  severity: 'information',
  means: 'Where the comment ends is not clear: words after it may be lost, or the control stops.',
  cure: 'Close the comment on its own line, and put no parentheses inside it.',
  fine_when: 'The control takes the rest of the line as comment and nothing else stands there.',
  source: 'NISTIR 6556 section 3.3.4 (comments), from memory',
  needs: [],
  problems: ['comment-unclosed', 'comment-nested'],
  rate: errorInReport('information'),
  flagged: [
    { name: 'not closed', program: 'G21 G90 (ROUGH\n        ^^^^^^\n', options: NGC },
    { name: 'one inside another', program: 'G21 G90 (ROUGH (2 MM) LEFT)\n               ^\n', options: NGC },
  ],
  silent: [
    { name: 'closed', program: 'G21 G90 (ROUGH)\n', options: NGC },
    { name: 'two beside each other', program: 'G21 (A) G90 (B)\n', options: NGC },
  ],
};

/** Text that is neither block nor comment. */
export const textOutsideComment: Rule = {
  code: 'text-outside-comment',
  title: 'Text that is no block and no comment',
  family: 'language',
  severity: 'warning',
  means: 'The control reads plain text as words and stops, or takes a number out of it.',
  cure: 'Put it in parentheses.',
  fine_when: 'The text is taken out before the program is sent.',
  source: READING,
  needs: [],
  problems: ['text-outside-comment', 'directive-line', 'bad-character'],
  rate: (problem, program) => {
    if (problem.code === 'directive-line') return 'information';
    return isReport(program) ? 'error' : 'warning';
  },
  flagged: [
    { name: 'a note to oneself', program: 'G21 G90\nturn the part over\n^^^^^^^^^^^^^^^^^^\nG0 X1\n' },
  ],
  silent: [
    { name: 'as a comment', program: 'G21 G90\n(turn the part over)\nG0 X1\n' },
    { name: 'after a semicolon', program: 'G21 G90\n; turn the part over\nG0 X1\n' },
  ],
};

/** A letter twice in a block. */
export const letterRepeated: Rule = {
  code: 'letter-repeated',
  title: 'A letter stands twice in a block',
  family: 'language',
  severity: 'warning',
  means:
    'Only one of the two numbers counts: the last one on most controls, none on a strict one, which stops.',
  cure: 'Leave the one that is meant.',
  fine_when: 'The control gives the second one a meaning of its own.',
  source: 'NISTIR 6556 section 3.3 (repeated words), from memory',
  needs: [],
  problems: ['letter-repeated', 'too-many-words'],
  rate: errorInReport('warning'),
  flagged: [{ name: 'X twice', program: 'G21 G90 G94 F100\nG0 X1. X2.\n       ^^^\n' }],
  silent: [
    { name: 'two G of different groups', program: 'G21 G90 G94 F100\nG0 G54 X1. Y2.\n' },
    { name: 'two M', program: 'G21 G90 G94\nS1000 M3 M8\n' },
  ],
};

/** Axis words that no code uses. */
export const axisWordsIdle: Rule = {
  code: 'axis-words-idle',
  title: 'Axis words, but no motion code is in force',
  family: 'language',
  severity: 'information',
  means: 'A strict control stops; others move as their power-up state says, rapid or feed.',
  cure: 'Write G0 or G1 on the block.',
  fine_when: 'The control starts in a known motion mode and whoever runs the job knows it.',
  source: 'NISTIR 6556 section 3.5 (axis words without a motion code), from memory',
  needs: [],
  problems: [
    'no-motion-code',
    'axis-twice',
    'axis-word-missing',
    'axis-words-twice',
    'axis-words-unused',
    'machine-move-without-line',
    'word-unused',
  ],
  rate: (problem, program) =>
    isReport(program)
      ? 'error'
      : problem.code === 'no-motion-code' || problem.code === 'word-unused'
        ? 'information'
        : 'warning',
  flagged: [{ name: 'the first block moves', program: 'G21 G90\nX10. Y5.\n^^^^^^^^\n' }],
  silent: [
    { name: 'G0 on it', program: 'G21 G90\nG0 X10. Y5.\n' },
    { name: 'G0 in force from before', program: 'G21 G90\nG0 X10.\nY5.\n' },
  ],
};

/** More than a strict control takes in one block. */
export const blockTooLarge: Rule = {
  code: 'block-too-large',
  title: 'Block is larger than a strict control takes',
  family: 'language',
  severity: 'information',
  means:
    'The line is longer, its number larger or its M codes more than a strict control reads: it stops there.',
  cure: 'Split the block, or renumber with smaller steps.',
  fine_when: 'The control takes longer lines and larger numbers.',
  source: 'NISTIR 6556 sections 3.3 and 3.4 (256 characters, N to 99999, four M codes), from memory',
  needs: [],
  problems: ['line-too-long', 'block-number-large', 'too-many-m-codes'],
  rate: errorInReport('information'),
  flagged: [{ name: 'six digits', program: 'G21 G90\nN100000 G0 X1\n^^^^^^^^^^^^^\nM2\n', options: NGC }],
  silent: [
    { name: 'five digits', program: 'G21 G90\nN99999 G0 X1\nM2\n', options: NGC },
    { name: 'four M codes', program: 'G21 G90\nS100 M3 M7 M8 M49\nM2\n', options: NGC },
  ],
};
