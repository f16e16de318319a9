import type { ReadOptions } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

/** How programs in the field are written: what controls accept is read, and one slip is told once. Common practice, no source. */
const CASES: readonly (readonly [title: string, program: string, options?: ReadOptions])[] = [
  [
    'block delete stands before or behind N, and inside a block',
    `
    G21 G90
    /N10 G0 X1. => rapid 1 - -
    N20 /G0 X2. => rapid 2 - -
    N30/2 X3. => rapid 3 - -
    X4. /2 Z5. => rapid 4 - 5
    M30`,
  ],
  [
    'what stands behind a block delete is left out with the switch on',
    `
    G21 G90
    /N10 G0 X1. => none
    N20 /G0 X2. => none
    G0 X4. /Z5. => rapid 4 - -
    M30`,
    { skip_deleted: true },
  ],
  [
    'block delete behind N leaves out a statement of a macro too',
    `
    #1=1
    N10 /GOTO 30
    G0 X1. => rapid 1 - -
    N30 X2. => rapid 2 - -
    M30`,
    { skip_deleted: true },
  ],
  [
    'check sums of a transfer and * for the end of a block',
    `
    N1 G0 X1.*32 => rapid 1 - -
    N2 X2. *7 ; sent => rapid 2 - -
    N3 X3.* => rapid 3 - -
    X4. *Y5. => rapid 4 5 -; !bad-character 4-5
    M30`,
  ],
  [
    'an apostrophe begins a comment',
    `
    G0 X1. ' to the first hole => rapid 1 - -
    ' the whole line
    M30`,
  ],
  [
    'lines that speak to the control or to the other path',
    `
    $1 => !directive-line
    !2L1 => !directive-line
    $100=250 => !directive-line
    G0 X1. => rapid 1 - -
    M30`,
  ],
  [
    'notes that begin with a mark are one slip each',
    `
    G0 X1. => rapid 1 - -
    * star line => !text-outside-comment
    -- dash => !text-outside-comment
    # hash => !text-outside-comment
    " quoted " => !text-outside-comment
    X2. => rapid 2 - -
    M30`,
  ],
  [
    'a setting that cannot be read is one slip',
    `
    #127=COS60 => !function-argument
    #137=PI => !function-unknown
    #101= => !value-missing
    #1.5=3 => !parameter-number
    #[1=2 (text) => !bracket-not-closed
    #102=5 #103=6
    G0 X#103 => rapid 6 - -
    M30`,
  ],
  [
    'a number left blank or spoilt is one slip',
    `
    O____ (NAME) => !number-blank
    T__ M6 => !number-blank; !tool-change-without-tool
    G0 X??? Y1. => !number-blank; rapid - 1 -
    X$5 => !number-missing
    M30`,
  ],
  [
    'names in angle brackets beside a call are no slip of the text',
    `
    G0 X1. => rapid 1 - -
    M98 <POCKET> L2 => !call-without-program
    M30`,
    { dialect: 'iso6983' },
  ],
  [
    'headings of variables and other output are passed over',
    `
    SETVN 100[LEFT,RIGHT]
    POPEN
    DPRNT[X#100[44]]
    PCLOS
    G0 X1. => rapid 1 - -
    M30`,
  ],
  [
    'text before the tape start is leader, even with a number in it',
    `
    THIS IS THE LEADER
    PART 4711 REV B
    %
    O12
    G0 X1. => rapid 1 - -
    M30
    %`,
  ],
];

describe('programs as they are written', () => {
  for (const [title, program, options] of CASES) it(title, () => void check(program, options));
});
