import assert from 'node:assert/strict';
import {
  blockAt,
  comments,
  ProgramText,
  type ReadOptions,
  readProgram,
  settle,
  toolChanges,
} from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const ISO: ReadOptions = { dialect: 'iso6983', kind: 'mill' };
const LEAST: ReadOptions = { ...ISO, least_increment_mm: 0.001 };
const INCH: ReadOptions = { ...ISO, units: 'inch', least_increment_mm: 0.001 };
const TURN: ReadOptions = { dialect: 'lathe-a', kind: 'lathe' };

const CASES: [name: string, program: string, options: ReadOptions][] = [
  ['no blanks, lower case', 'g0x1.5y-.5z0 => rapid 1.5 -0.5 0', ISO],
  ['signs, points, zeros', 'G00 X+1. Y-.05 Z007 => rapid 1 -0.05 7', ISO],
  ['blanks before a number', 'G 0 X 10 Y - 2.5 => rapid 10 -2.5 -', ISO],
  ['a trailing semicolon ends the block', 'N10 G0 X1; => rapid 1 - -', ISO],
  ['words after a semicolon are a comment', 'G0 X1 ; G0 Y2 => rapid 1 - -', ISO],
  ['code-like words in a comment', 'G0 X1 (G1 X5 M30) => rapid 1 - -', ISO],
  ['double slash comment', 'G0 X1 // note X2 => rapid 1 - -', ISO],
  ['GO for G0 with its fix', 'GO X1 => !letter-o-for-zero 0-2; rapid 1 - -', ISO],
  ['O inside a number', 'G0 X1O. => !letter-o-for-zero 3-7; rapid 10 - -', ISO],
  ['comma for a point', 'G0 X1,5 => !number-comma 3-7; rapid 1.5 - -', ISO],
  ['exponent form', 'G0 X5e-01 => !number-exponent 3-9; rapid 0.5 - -', ISO],
  ['a word that cannot be read leaves its axis unknown', 'G0 X1.2.3 Y2 => !number-bad 3-9; rapid - 2 -', ISO],
  ['a note to oneself gives one problem', 'roughing pass => !text-outside-comment; none', ISO],
  ['a stray word after a block', 'G0 X1 slowly => !text-outside-comment 6-12; rapid 1 - -', ISO],
  ['a directive line', '[BILLET X50 Z80 => !directive-line', ISO],
  ['a form with blanks', 'G0 X___ Y____ => !number-blank; !number-blank; rapid - - -', ISO],
  ['block delete is taken', '/G0 X1 => rapid 1 - - flags=8', ISO],
  ['block delete is left out on demand', '/2 G0 X1 => none', { ...ISO, skip_deleted: true }],
  ['after M30 nothing is read', 'M30\nG0 X5 ((\nleft over => none', ISO],
  ['a text before the first % is leader', 'made by hand\n%\nG0 X1 => rapid 1 - -\n%\nG0 X2 => none', ISO],
  ['whole numbers count least increments', 'G21 G0 X10 Y10. Z-1500 => rapid 0.01 10 -1.5', LEAST],
  ['least increments in inch', 'G20 G0 X10000 Y1. => rapid 25.4 25.4 -', INCH],
  ['F is never in least increments of a minute feed', 'G21 G94 G1 X1000 F400 => feed 1 - - feed=400', LEAST],
  [
    'F without a point per revolution is not known there',
    'G21 G95 G1 X1000 F25 => !feed-form-unknown; feed 1 - - feed=-',
    LEAST,
  ],
  ['G20 scales the words of its own block', 'G20 G1 X1 F10 => feed 25.4 - - feed=254', ISO],
  [
    'T prepares, M6 changes',
    'T5 => none; tool=-; prepared_tool=5\nM6 => toolchange - - - tool=5\nM6 T7 => toolchange - - - tool=7',
    ISO,
  ],
  ['M6 without T', 'M6 => !tool-change-without-tool; tool=-', ISO],
  [
    'lathe tool words',
    'T0101 => toolchange - - - tool=1; length_offset=1\nT0100 => none; tool=1; length_offset=0\nT303 => toolchange - - - tool=3',
    TURN,
  ],
  ['M5 before the move in the report, after it elsewhere', 'M3 S100\nG1 X1 F10 M5 => direction=0', ISO],
  [
    'surface speed and clamp',
    'G50 S2500 => clamp_rpm=2500; spindle=-\nG96 S200 M3 => css=1; spindle=200\nG97 S800 => css=0; spindle=800',
    TURN,
  ],
  ['surface speed in inch is feet', 'G20 G96 S600 => spindle=182.88', TURN],
  ['a changed feed mode forgets the feed', 'G94 F100\nG95 => feed=-\nF0.2 => feed=0.2', ISO],
  [
    'dwell: P in ms, X in s',
    'G4 P500 => dwell seconds=0.5\nG4 X1.5 => dwell seconds=1.5\nG4 P2.5 => dwell seconds=2.5',
    { ...ISO, dwell: 'ms' },
  ],
  ['dwell in seconds', 'G4 P3 => dwell seconds=3', { ...ISO, dwell: 's' }],
  ['inverse time', 'G93 G90\nG0 X0 Y0 Z0\nG1 X10 F2 => feed 10 0 0 seconds=30', ISO],
  ['rotary words', 'G0 X0 A90. => rapid 0 - - a=90\nG1 B-30. F100 => feed 0 - - b=-30 a=90', ISO],
  [
    'G33 takes its lead from K',
    'G0 X0 Z0\nG33 Z-10 K1.5 => thread 0 - -10 lead=1.5',
    { dialect: 'ngc', kind: 'lathe' },
  ],
  [
    'rigid tap goes in and out',
    'G0 X0 Y0 Z0\nG33.1 Z-10 K1 => tap 0 0 -10 lead=1; tap 0 0 0 lead=1',
    { dialect: 'ngc', kind: 'mill' },
  ],
  [
    'a probe ends at a place that is not known',
    'G0 X0 Y0 Z5\nG38.2 Z-10 F50 => probe 0 0 -10; place 0 0 -',
    { dialect: 'ngc', kind: 'mill' },
  ],
  [
    'a rational spline that ends with the program is told; its moves are not made',
    'G0 X0 Y0 Z0\nG5.2 X1 Y1 P1 L3 => !spline-word-missing; place - - -',
    { dialect: 'ngc', kind: 'mill' },
  ],
  [
    'helix of two turns by P',
    'G0 X0 Y0 Z0\nG3 X0 Y0 Z-2 I5 P2 => arc 0 0 -2 sweep=720',
    { dialect: 'ngc', kind: 'mill' },
  ],
  [
    'absolute centres',
    'G0 X10 Y0 Z0\nG90.1 G3 X0 Y10 I0 J0 F100 => arc 0 10 0 sweep=90',
    { dialect: 'ngc', kind: 'mill' },
  ],
  [
    'drilling in the face of a lathe: R from the initial level',
    'G99 S500 M3\nG0 X0 Z10.\nG83 Z-10. R-8. Q5000 F0.1 => rapid 0 - 2; feed 0 - -3; rapid 0 - 2; rapid 0 - -2.746; feed 0 - -8; rapid 0 - 2; rapid 0 - -7.746; feed 0 - -10; rapid 0 - 10\nG80',
    TURN,
  ],
  [
    'drilling in the side of a lathe goes along X',
    'G99 S500 M3\nG0 X60. Z-5.\nG89 X40. R-5. F0.1 => rapid 25 - -5; feed 20 - -5; feed 25 - -5; rapid 30 - -5\nG80',
    TURN,
  ],
];

describe('rs274: blocks', () => {
  for (const [name, program, options] of CASES) it(name, () => void check(`\n${program}\n`, options));

  it('shows a block as an object', () => {
    const text = ProgramText.fromString('/N10 g1 x-2.50,C1. (A) ; b\n');
    const view = blockAt(text, 0, settle(text));
    assert.deepEqual(
      view.words.map(word => [word.letter, word.value, word.text, word.start, word.end, word.comma]),
      [
        ['G', 1, 'g1', 5, 7, false],
        ['X', -2.5, 'x-2.50', 8, 14, false],
        ['C', 1, 'C1.', 15, 18, true],
      ],
    );
    assert.deepEqual(
      [view.n, view.deleted, view.comments.map(comment => comment.text)],
      [10, true, ['(A)', '; b']],
    );
  });

  it('lists comments and tool changes', () => {
    const text = ProgramText.fromString('(HEAD)\nT1 M6 (D=10)\nG0 X1 ;\nT2 M6 ; SLOT\n');
    assert.deepEqual(
      [...comments(text)].map(comment => `${comment.line} ${comment.start} ${comment.text}`),
      ['0 0 (HEAD)', '1 6 (D=10)', '3 6 ; SLOT'],
    );
    assert.deepEqual(toolChanges(readProgram(text)), [
      { line: 1, tool: 1 },
      { line: 3, tool: 2 },
    ]);
  });
});
