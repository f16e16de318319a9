import type { Rule } from '../rule.ts';
import { errorInReport } from './problem-words.ts';

const NGC = { dialect: 'ngc', kind: 'mill' } as const;
const ISO = { dialect: 'iso6983', kind: 'mill' } as const;
const LATHE = { dialect: 'lathe-a', kind: 'lathe' } as const;
const SOURCE = 'NISTIR 6556 section 3.5.16 (canned cycles), from memory';
const HEAD = 'G21 G17 G90 G94\nT1 M6\nS1000 M3\nG0 X0 Y0\nG43 H1 Z20.\n';

/** A cycle that lacks a word. */
export const cycleIncomplete: Rule = {
  code: 'cycle-incomplete',
  title: 'Cycle lacks a word',
  family: 'language',
  severity: 'warning',
  means:
    'The cycle does not say all it needs: the control stops, or drills with a value left from another hole.',
  cure: 'Write the missing word on the first block of the cycle.',
  fine_when: 'The control keeps the value from before and that is meant.',
  source: SOURCE,
  needs: [],
  problems: [
    'cycle-word-missing',
    'cycle-word-negative',
    'cycle-no-axis-word',
    'cycle-repeat-zero',
    'cycle-repeat-bad',
    'cycle-depth-bad',
    'cycle-profile-missing',
    'cycle-profile-not-monotone',
    'cycle-too-long',
  ],
  rate: (problem, program) =>
    problem.code === 'cycle-profile-missing' ? 'error' : errorInReport('warning')(problem, program),
  flagged: [
    { name: 'no R', program: `${HEAD}G81 X5. Z-10. F100.\n^^^^^^^^^^^^^^^^^^^\nG80\n`, options: NGC },
    { name: 'no Q', program: `${HEAD}G83 X5. Z-10. R2. F100.\n^^^^^^^^^^^^^^^^^^^^^^^\nG80\n`, options: ISO },
    {
      name: 'the profile is not there',
      program:
        'G21 G18 G40 G99\nT0101\nG97 S800 M3\nG0 X62. Z2.\nG71 U2. R0.5\nG71 P100 Q150 U0.4 W0.1 F0.25\n^^^^^^^^^^^^^^^^^^^^^^^^^^^^^\nN100 G0 X18.\nN140 G1 Z-20.\n',
      options: LATHE,
    },
  ],
  silent: [
    { name: 'all there', program: `${HEAD}G83 X5. Z-10. R2. Q3. F100.\nX10.\nG80\n`, options: NGC },
    {
      name: 'later holes need their place alone',
      program: `${HEAD}G81 X5. Z-10. R2. F100.\nX15.\nG80\n`,
      options: ISO,
    },
  ],
};

/** R under the bottom of the hole. */
export const cycleRBelowZ: Rule = {
  code: 'cycle-r-below-z',
  title: 'R level under the bottom of the hole',
  family: 'numbers',
  severity: 'warning',
  means:
    'The tool goes down at rapid to R and feeds upwards: mostly the sign of Z or R is wrong. Strict controls stop.',
  cure: 'Check the signs of R and Z.',
  fine_when: 'A back-facing tool that cuts on the way up.',
  source: SOURCE,
  needs: [],
  problems: ['cycle-r-below-z'],
  rate: errorInReport('warning'),
  flagged: [
    {
      name: 'the sign of Z is lost',
      program: `${HEAD}G81 X5. Z10. R2. F100.\n^^^^^^^^^^^^^^^^^^^^^^\nG80\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'Z under R', program: `${HEAD}G81 X5. Z-10. R2. F100.\nG80\n`, options: ISO },
    { name: 'a hole in a pocket', program: `${HEAD}G81 X5. Z-30. R-18. F100.\nG80\n`, options: ISO },
  ],
};

/** A cycle in a state that does not allow it. */
export const cycleNotAllowed: Rule = {
  code: 'cycle-not-allowed',
  title: 'Cycle or probing move in a state that does not allow it',
  family: 'state',
  severity: 'warning',
  means:
    'The cycle or probing move runs with compensation on, in inverse time, with a rotary word, to a point that is too near, or with the spindle stopped or turning the wrong way.',
  cure: 'Cancel the mode before the cycle, or start the spindle the right way.',
  fine_when: 'The control allows it and the move is meant.',
  source: SOURCE,
  needs: [],
  problems: [
    'cycle-rotary-word',
    'cycle-inverse-time',
    'cycle-compensation-on',
    'cycle-spindle-off',
    'cycle-spindle-direction',
    'probe-not-allowed',
  ],
  rate: problem => (problem.code.startsWith('cycle-spindle') ? 'error' : undefined),
  explains: ['spindle-stopped'],
  flagged: [
    {
      name: 'tapping with the spindle stopped',
      program: `${HEAD}M5\nG84 X5. Z-10. R5. F1000.\n^^^^^^^^^^^^^^^^^^^^^^^^\nG80\n`,
      options: NGC,
    },
    {
      name: 'compensation on',
      program: `${HEAD}G41 D1 X2. F100.\nG81 X5. Z-10. R2.\n^^^^^^^^^^^^^^^^^\nG80\nG40\n`,
      options: NGC,
    },
    {
      name: 'probing in inverse time',
      program: `${HEAD}G93 G38.2 Z-10 F1\n^^^^^^^^^^^^^^^^^\nG94\n`,
      options: NGC,
    },
  ],
  silent: [
    { name: 'probing at a feed a minute', program: `${HEAD}G38.2 Z-10 F50\n`, options: NGC },
    { name: 'spindle on', program: `${HEAD}G84 X5. Z-10. R5. F1000.\nG80\n`, options: NGC },
    {
      name: 'compensation off',
      program: `${HEAD}G41 D1 X2. F100.\nX20.\nG40 X0\nG81 X5. Z-10. R2.\nG80\n`,
      options: NGC,
    },
  ],
};

/** Words that come from the cycle before. */
export const cycleWordsInherited: Rule = {
  code: 'cycle-words-inherited',
  title: 'Depth or R comes from the cycle before',
  family: 'state',
  severity: 'information',
  means: 'The cycle number changes and R or Z is not written again: some controls keep it, others stop.',
  cure: 'Write R and Z on every block that begins a cycle.',
  fine_when: 'The control keeps them and the depth is meant to be the same.',
  source: SOURCE,
  needs: [],
  problems: ['cycle-words-inherited'],
  flagged: [
    {
      name: 'G82 takes the depth of G81',
      program: `${HEAD}G81 X5. Z-10. R2. F100.\nG82 X15. P200\n^^^^^^^^^^^^^\nG80\n`,
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'written again',
      program: `${HEAD}G81 X5. Z-10. R2. F100.\nG82 X15. Z-10. R2. P200\nG80\n`,
      options: ISO,
    },
    { name: 'the same cycle goes on', program: `${HEAD}G81 X5. Z-10. R2. F100.\nX15.\nG80\n`, options: ISO },
  ],
};

/** Codes that must stand before compensation or after it. */
export const compensationState: Rule = {
  code: 'compensation-state',
  title: 'Not allowed while compensation is on',
  family: 'state',
  severity: 'warning',
  means:
    'The plane, the units or the offset change, or a cycle or tool change comes, while G41 or G42 is on: strict controls stop, others leave a mark.',
  cure: 'Write G40 on the way out first.',
  fine_when: 'The control allows it and the path was proven.',
  source: 'NISTIR 6556 section 3.5.9 and appendix B, from memory',
  needs: [],
  problems: ['compensation-on', 'compensation-already-on', 'compensation-plane', 'comp-plane-change'],
  rate: errorInReport('warning'),
  explains: ['compensation-left-on'],
  flagged: [
    {
      name: 'a work offset while it is on',
      program: `${HEAD}G41 D1 X2. F100.\nX20.\nG54\n^^^\nG40 X0\nM2\n`,
      options: NGC,
    },
  ],
  silent: [
    { name: 'after G40', program: `${HEAD}G41 D1 X2. F100.\nX20.\nG40 X0\nG54\nM2\n`, options: NGC },
    { name: 'before G41', program: `${HEAD}G54\nG41 D1 X2. F100.\nX20.\nG40 X0\nM2\n`, options: NGC },
  ],
};
