import type { Rule } from '../rule.ts';
import { errorInReport, isReport } from './problem-words.ts';

const NGC = { dialect: 'ngc', kind: 'mill' } as const;

/** Feed, speed or tool number that cannot be. */
export const valueImpossible: Rule = {
  code: 'value-impossible',
  title: 'Feed, speed or tool number that cannot be',
  family: 'language',
  severity: 'error',
  means: 'Feed, speed and tool number are never negative, and tools have whole numbers: the control stops.',
  cure: 'Correct the number.',
  fine_when: 'Never; the control stops.',
  source: 'NISTIR 6556 sections 3.5.19 and 3.7 (F, S and T), from memory',
  needs: [],
  problems: ['feed-negative', 'speed-negative', 'tool-number-bad', 'number-negative', 'number-not-whole'],
  rate: (problem, program) =>
    problem.code.startsWith('number') ? errorInReport('warning')(problem, program) : 'error',
  flagged: [
    { name: 'negative feed', program: 'G21 G90 G94\nG1 X10 F-100\n       ^^^^^\n' },
    { name: 'negative speed', program: 'G21 G90 G94\nS-500 M3\n^^^^^\n' },
  ],
  silent: [
    { name: 'positive', program: 'G21 G90 G94\nT1 M6\nS1000 M3\nG1 X10 F100\n' },
    { name: 'a tool number with a point', program: 'G21 G90 G94\nT2.0 M6\n', options: NGC },
  ],
};

/** A dwell with no or a negative time. */
export const dwellWithoutTime: Rule = {
  code: 'dwell-without-time',
  title: 'Dwell without a time',
  family: 'language',
  severity: 'warning',
  means: 'G4 without P stops a strict control; others go on without waiting.',
  cure: 'Write P (or X, U) with the time.',
  fine_when: 'The dwell is only there to break look-ahead.',
  source: 'NISTIR 6556 section 3.5.4 (G4), from memory',
  needs: [],
  problems: ['dwell-time-missing', 'dwell-time-negative'],
  rate: errorInReport('warning'),
  flagged: [{ name: 'no P', program: 'G21 G90 G94\nG4\n^^\n' }],
  silent: [
    { name: 'with P', program: 'G21 G90 G94\nG4 P500\n' },
    { name: 'with X', program: 'G21 G90 G94\nG4 X1.5\n', options: { dialect: 'lathe-a', kind: 'lathe' } },
  ],
};

/** M6 without a tool. */
export const toolChangeWithoutTool: Rule = {
  code: 'tool-change-without-tool',
  title: 'Tool change without a tool number',
  family: 'language',
  severity: 'information',
  means: 'M6 comes and no T was given: the machine stops, or changes to whatever was prepared last.',
  cure: 'Write T before M6.',
  fine_when: 'Tools are changed by hand and the message beside it says which.',
  source: 'common practice, no source',
  needs: [],
  problems: ['tool-change-without-tool'],
  flagged: [
    { name: 'M6 alone', program: 'G21 G90 G94\nM6\n^^\n', options: { dialect: 'iso6983', kind: 'mill' } },
  ],
  silent: [
    { name: 'T in the block', program: 'G21 G90 G94\nT1 M6\n' },
    { name: 'T prepared before', program: 'G21 G90 G94\nT1\nG0 X0\nM6\n' },
  ],
};

/** Words that a coordinate change, an offset or a thread needs and has not. */
export const wordMissing: Rule = {
  code: 'word-missing',
  title: 'A code lacks a word that it needs',
  family: 'language',
  severity: 'error',
  means: 'The code is not complete: the control stops, or takes a value left from before.',
  cure: 'Write the missing word.',
  fine_when: 'The control keeps the value from an earlier block and that is meant.',
  source: 'NISTIR 6556 section 3.5, from memory; common practice for the others',
  needs: [],
  problems: [
    'rotation-angle-missing',
    'scale-missing',
    'scale-zero',
    'surface-speed-missing',
    'set-data-kind-unknown',
    'set-data-number-missing',
    'thread-lead-missing',
    'thread-setup-bad',
    'value-missing',
  ],
  rate: problem =>
    problem.code.startsWith('set-data') || problem.code.startsWith('thread-setup') ? 'warning' : 'error',
  flagged: [
    {
      name: 'a thread without a lead',
      program: 'G21 G18 G90 G95\nS500 M3\nG0 X20 Z2\nG33 Z-10\n^^^^^^^^\n',
      options: { dialect: 'ngc', kind: 'lathe' },
    },
  ],
  silent: [
    {
      name: 'the lead is there',
      program: 'G21 G18 G90 G95\nS500 M3\nG0 X20 Z2\nG33 Z-10 K1.5\n',
      options: { dialect: 'ngc', kind: 'lathe' },
    },
    {
      name: 'the lead is the feed in force',
      program: 'G21 G18 G40 G99\nT0101\nG97 S500 M3\nG0 X20. Z4.\nG32 Z-10. F1.5\n',
      options: { dialect: 'lathe-a', kind: 'lathe' },
    },
  ],
};

/** What was not followed at all. */
export const notFollowed: Rule = {
  code: 'not-followed',
  title: 'Something that this review does not follow',
  family: 'language',
  severity: 'information',
  means: 'The code is known, but what it does is not worked out here: what follows from it was not checked.',
  cure: 'Check these blocks at the machine.',
  fine_when: 'Always; it only says what was not looked at.',
  source: 'this review',
  needs: [],
  problems: [
    'not-followed',
    'flow-not-followed',
    'modes-not-saved',
    'arc-position-unknown',
    'cycle-position-unknown',
    'feed-form-unknown',
  ],
  flagged: [
    {
      name: 'interpolation on a cylinder',
      program: 'G21 G90 G94\nG7.1 C20\n^^^^\n',
      options: { dialect: 'iso6983', kind: 'mill' },
    },
  ],
  silent: [
    { name: 'plain moves', program: 'G21 G90 G94\nS500 M3\nG0 X0 Y0\nG2 X10 Y0 I5 J0 F100\n' },
    { name: 'words in a comment', program: 'G21 G90 (G68 R30)\nG0 X1\n' },
  ],
};

/** A corner word between moves that give no corner. */
export const cornerNotMade: Rule = {
  code: 'corner-not-made',
  title: 'Corner word without a corner',
  family: 'language',
  severity: 'warning',
  means:
    'A chamfer or radius word stands where the two moves do not give room for it: the control stops or leaves the corner sharp.',
  cure: 'Correct the size of the corner, or the ends of the two moves.',
  fine_when: 'A sharp corner is all right.',
  source: 'common practice, no source',
  needs: [],
  problems: ['corner-not-made'],
  flagged: [
    {
      name: 'larger than the move',
      program: 'G21 G17 G90 G94 F100\nG0 X0 Y0\nG1 X2. ,R5.\n^^^^^^^^^^^\nY2.\nY20.\n',
      options: { dialect: 'iso6983', kind: 'mill' },
    },
  ],
  silent: [
    {
      name: 'room enough',
      program: 'G21 G17 G90 G94 F100\nG0 X0 Y0\nG1 X20. ,R5.\nY20.\n',
      options: { dialect: 'iso6983', kind: 'mill' },
    },
    { name: 'no corner word', program: 'G21 G17 G90 G94 F100\nG0 X0 Y0\nG1 X20.\nY20.\n' },
  ],
};

/** Compensation that no control can make. */
export const compensationImpossible: Rule = {
  code: 'compensation-impossible',
  title: 'Cutter compensation that cannot be made',
  family: 'language',
  severity: 'error',
  means:
    'The tool does not fit the inside corner or arc, or its way in is shorter than its radius: the control stops, or the cutter gouges the wall.',
  cure: 'Take a smaller tool, a longer way in, or open the corner.',
  fine_when: 'The offset at the control is smaller than the tool named here.',
  source: 'NISTIR 6556 appendix B (cutter radius compensation), from memory',
  needs: [],
  problems: [
    'comp-arc-too-small',
    'comp-concave-corner',
    'comp-inside-corner',
    'comp-entry-arc',
    'comp-entry-short',
  ],
  rate: (problem, program) =>
    problem.code.startsWith('comp-entry') && !isReport(program) ? 'warning' : 'error',
  flagged: [
    {
      name: 'inside arc smaller than the tool',
      program:
        'G21 G17 G90 G94 F300\nT1 M6\nS3000 M3\nG0 X0 Y0\nG1 G41 D1 X20. Y0\nY30.\nG3 X16. Y34. R4.\n^^^^^^^^^^^^^^^^\nG1 X0\nG40 X-20. Y20.\n',
      sheet:
        '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "compensation": "part-edge" }, "tools": { "1": { "kind": "end-mill", "diameter": 12 } } }',
    },
  ],
  silent: [
    {
      name: 'the tool fits',
      program:
        'G21 G17 G90 G94 F300\nT1 M6\nS3000 M3\nG0 X0 Y0\nG1 G41 D1 X20. Y0\nY30.\nG3 X12. Y38. R8.\nG1 X0\nG40 X-20. Y20.\n',
      sheet:
        '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "compensation": "part-edge" }, "tools": { "1": { "kind": "end-mill", "diameter": 12 } } }',
    },
    {
      name: 'whether the program is the part edge is not known',
      program:
        'G21 G17 G90 G94 F300\nT1 M6\nS3000 M3\nG0 X0 Y0\nG1 G41 D1 X20. Y0\nY30.\nG3 X16. Y34. R4.\nG1 X0\nG40 X-20. Y20.\n',
      options: { dialect: 'iso6983', kind: 'mill' },
    },
  ],
};
