import type { Rule } from '../rule.ts';

const NGC = { dialect: 'ngc', kind: 'mill' } as const;
const ISO = { dialect: 'iso6983', kind: 'mill' } as const;
const COMMON = 'common practice, no source';

/** A call or jump to what is not there. */
export const targetMissing: Rule = {
  code: 'target-missing',
  title: 'Jump or call to what is not there',
  family: 'language',
  severity: 'error',
  means: 'The block that a jump goes to is not in the program: the control stops.',
  cure: 'Correct the number, or add the block.',
  fine_when: 'Never; the control stops.',
  source: COMMON,
  needs: [],
  problems: ['jump-target-missing', 'jump-into-loop', 'call-without-program'],
  flagged: [
    {
      name: 'no such N',
      program: 'O1\nG21 G90\n#1=1\nIF [#1 EQ 1] GOTO 50\n                  ^^\nG0 X1.\nN60 M30\n',
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'the block is there',
      program: 'O1\nG21 G90\n#1=1\nIF [#1 EQ 1] GOTO 50\nG0 X1.\nN50 M30\n',
      options: ISO,
    },
    { name: 'N that nobody jumps to', program: 'O1\nN10 G21 G90\nN20 G0 X1.\nN30 M30\n', options: ISO },
  ],
};

/** A called program that is not in the file. */
export const subprogramMissing: Rule = {
  code: 'subprogram-missing',
  title: 'Called program is not here',
  family: 'language',
  severity: 'warning',
  means:
    'The called program is not in this file or beside it: what it does was not checked, and the control stops if it has none.',
  cure: 'Add the subprogram, or check that the control holds it.',
  fine_when: 'The program lives in the control.',
  source: COMMON,
  needs: [],
  problems: ['subprogram-missing'],
  flagged: [{ name: 'no such O', program: 'O1\nG21 G90\nM98 P200\n^^^\nM30\n', options: ISO }],
  silent: [
    { name: 'in the file', program: 'O1\nG21 G90\nM98 P200\nM30\nO200\nG0 X1.\nM99\n', options: ISO },
    { name: 'no call', program: 'O1\nG21 G90\nG0 X1.\nM30\n', options: ISO },
  ],
};

/** Flow words that do not match. */
export const flowUnmatched: Rule = {
  code: 'flow-unmatched',
  title: 'Loop, branch or subprogram is not closed',
  family: 'language',
  severity: 'error',
  means:
    'A word that opens or closes a loop, a branch or a subprogram has no partner: the control stops, or runs on into what was not meant.',
  cure: 'Write the missing partner.',
  fine_when: 'Never.',
  source: COMMON,
  needs: [],
  problems: [
    'flow-not-matched',
    'loops-too-deep',
    'calls-too-deep',
    'subprogram-without-return',
    'return-without-call',
    'setting-without-equals',
  ],
  flagged: [
    {
      name: 'no END',
      program: 'O1\nG21 G90\n#1=0\nWHILE [#1 LT 3] DO1\n^^^^^\n#1=#1+1\nM30\n',
      options: ISO,
    },
  ],
  silent: [
    { name: 'closed', program: 'O1\nG21 G90\n#1=0\nWHILE [#1 LT 3] DO1\n#1=#1+1\nEND1\nM30\n', options: ISO },
    { name: 'a repeat', program: 'o1 repeat [3]\nG91 G0 X1\no1 endrepeat\nM2\n', options: NGC },
  ],
};

/** A program that never ends, or that was not run to its end. */
export const neverEnds: Rule = {
  code: 'never-ends',
  title: 'Loop does not end, or is too long to follow',
  family: 'language',
  severity: 'warning',
  means:
    'The program was not followed to its end: it goes round for ever, or longer than is looked at here. What comes after was not checked.',
  cure: 'Check the condition of the loop and that its counter is changed in it.',
  fine_when: 'The loop is meant to run until somebody stops it, as with a bar feeder.',
  source: COMMON,
  needs: [],
  problems: ['never-ends', 'run-too-long', 'run-too-slow'],
  flagged: [
    {
      name: 'the counter stands still',
      program: 'O1\nG21 G90\n#1=0\nWHILE [#1 LT 3] DO1\nG0 X1.\nEND1\n^^^^\nM30\n',
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'the counter runs',
      program: 'O1\nG21 G90\n#1=0\nWHILE [#1 LT 3] DO1\nG0 X#1\n#1=#1+1\nEND1\nM30\n',
      options: ISO,
    },
    { name: 'no loop', program: 'O1\nG21 G90\nG0 X1.\nM30\n', options: ISO },
  ],
};

/** An expression with no value. */
export const expressionBad: Rule = {
  code: 'expression-bad',
  title: 'Expression that has no value',
  family: 'language',
  severity: 'error',
  means: 'The control cannot work the expression out and stops.',
  cure: 'Correct the expression; check brackets, function names and what is divided by.',
  fine_when: 'Never; the control stops.',
  source: 'NISTIR 6556 section 3.3.2 (expressions), from memory',
  needs: [],
  problems: [
    'division-by-zero',
    'power-of-negative',
    'root-of-negative',
    'logarithm-of-zero',
    'arc-function-range',
    'bracket-not-closed',
    'expression-too-deep',
    'function-unknown',
    'function-argument',
    'logic-without-brackets',
    'parameter-name',
    'parameter-number',
  ],
  flagged: [{ name: 'division by zero', program: 'G21 G90\n#1=0\nG0 X[5/#1]\n     ^^^^\n', options: NGC }],
  silent: [
    { name: 'a sum', program: 'G21 G90\n#1=2\nG0 X[5/#1]\n', options: NGC },
    { name: 'brackets in a comment', program: 'G21 G90 (SEE [5/0)\nG0 X1\n', options: NGC },
  ],
};

/** A value that only the control knows. */
export const valueNotKnown: Rule = {
  code: 'value-not-known',
  title: 'Value that only the control knows',
  family: 'language',
  severity: 'information',
  means: 'A variable is used that the program does not set: what depends on it was not checked.',
  cure: 'Set it in the program, or check these blocks at the machine.',
  fine_when: 'The control or an operator sets it.',
  source: 'this review',
  needs: [],
  problems: ['parameter-not-set', 'value-not-known', 'condition-not-known', 'jump-not-known'],
  flagged: [{ name: 'never set', program: 'G21 G90\nG0 X#500\n    ^^^^\n', options: ISO }],
  silent: [
    { name: 'set before', program: 'G21 G90\n#500=3.\nG0 X#500\n', options: ISO },
    { name: 'no variable', program: 'G21 G90\nG0 X5.\n', options: ISO },
  ],
};

/** The program stops itself. */
export const programAlarm: Rule = {
  code: 'program-alarm',
  title: 'Program raises an alarm',
  family: 'language',
  severity: 'warning',
  means: 'With the values as they stand the program stops itself with a message.',
  cure: 'Correct the value that it objects to.',
  fine_when: 'The value is set at the machine before the run.',
  source: COMMON,
  needs: [],
  problems: ['program-alarm'],
  flagged: [
    {
      name: 'alarm reached',
      program: 'O1\nG21 G90\n#3000=1(NO TOOL)\n^^^^^^^^^^^^^^^^\nG0 X1.\nM30\n',
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'jumped over',
      program: 'O1\nG21 G90\n#1=1\nIF [#1 EQ 1] GOTO 5\n#3000=1(NO TOOL)\nN5 G0 X1.\nM30\n',
      options: ISO,
    },
    { name: 'in a comment', program: 'O1\nG21 G90 (#3000=1)\nG0 X1.\nM30\n', options: ISO },
  ],
};
