import type { ReadOptions } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

/** What word-address controls do beyond the report. Common practice, no source. */
const CASES: readonly (readonly [title: string, program: string, options?: ReadOptions])[] = [
  [
    'G80 brings back the motion that was in force before the cycle',
    `
    G21 G90 G54
    T1 M6
    G0 X0 Y0 S1000 M3
    Z10. => rapid 0 0 10
    G81 Z-5. R2. F100. => rapid 0 0 2; feed 0 0 -5; rapid 0 0 10
    G80
    X20. Y20. => rapid 20 20 10
    G1 X30. => feed 30 20 10
    G40 G80 G49
    X40. => feed 40 20 10
    M30`,
  ],
  [
    'the report has no motion after G80',
    `
    G21 G90
    G0 X0 Y0 Z10
    G81 Z-5 R2 F100 => rapid 0 0 2; feed 0 0 -5; rapid 0 0 10
    G80
    X20 => !no-motion-code
    M2`,
    { dialect: 'ngc' },
  ],
  [
    'that no motion code is in force is said once',
    `
    O1000 (HOLES)
    X10. Y10. => !no-motion-code
    X20. Y10.
    X30.
    M99`,
  ],
  [
    'G53 goes at rapid when nothing else is in force',
    `
    G21 G90
    G53 Z0 => rapid - - 0 flags=16
    G1 G53 X0 F100. => feed 0 - - flags=16
    G0 X5. => rapid 5 - -
    M30`,
    { dialect: 'iso6983' },
  ],
  [
    'a cycle whose start is not known says so once, and not that R is missing',
    `
    G28 H0
    G98 T0101
    G97 S1000 M3
    G0 C0.
    G83 X40. C0 Z-10. R2. Q3. F100. => !cycle-position-unknown
    C90.
    C180.
    G80
    M30`,
    { dialect: 'lathe-a' },
  ],
  [
    'R of the first thread block without a point counts least increments',
    `
    G99 T0101
    G97 S500 M3
    G0 X20. Z5.
    G76 P010060 Q100 R50
    G76 X18.16 Z-20. P920 Q300 F1.5
    M30`,
    { dialect: 'lathe-a' },
  ],
  [
    'bar work that returns to its first block makes one pass',
    `
    T0101
    N1 G99 G97 S1000 M3
    G0 X20. Z2. => rapid 10 - 2
    G1 Z-5. F.2 => feed 10 - -5
    M99 P1`,
    { dialect: 'lathe-a' },
  ],
  [
    'M98 with H or Q and no program calls a block of its own program',
    `
    G21 G90
    G0 X0
    M98 H30
    M98 Q30 L2
    M30
    N30 G91 X1.
    G90
    M99`,
  ],
  [
    'a timer runs on after it is set',
    `
    #3001=0
    WHILE [#3001 LT 1000] DO1 => !condition-not-known
    END1
    M30`,
  ],
];

describe('what word-address controls do', () => {
  for (const [title, program, options] of CASES) it(title, () => void check(program, options));
});
