import type { ReadOptions } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };
const MILL: ReadOptions = { dialect: 'iso6983', kind: 'mill' };
const START = 'G21 G17 G90 G94 F100';

const CASES: [name: string, program: string, options?: ReadOptions][] = [
  [
    'G28 goes to the point that G28.1 stored, G30 to that of G30.1, only along the named axes',
    `
    ${START}
    G0 X1 Y2 Z3
    G28.1
    G0 X7 Y8 Z9
    G30.1
    G0 X20 Y20 Z20
    G28              => rapid 1 2 3
    G0 X20 Y20 Z20
    G30 Z25          => rapid 20 20 25; rapid 20 20 9
    `,
  ],
  [
    'without a stored point the reference position is not known',
    `
    ${START}
    G0 X1 Y2 Z3
    G28              => home - - -
    `,
  ],
  [
    'in another work offset the point is known where both offsets are',
    `
    ${START}
    G10 L2 P1 X10 Y0 Z0
    G10 L2 P2 X15 Y0 Z0
    G54
    G0 X1 Y2 Z3
    G28.1
    G55
    G0 X20 Y20 Z20
    G28              => rapid -4 2 3
    `,
  ],
  [
    'in another work offset that the program does not tell it is not known',
    `
    ${START}
    G54 G0 X1 Y2 Z3
    G28.1
    G55 G0 X20 Y20 Z20
    G28              => home - - -
    `,
  ],
  [
    'a work offset set anew forgets the point that counts in it',
    `
    ${START}
    G0 X1 Y2 Z3
    G28.1
    G10 L2 P1 X5
    G0 X20 Y20 Z20
    G28              => home - - -
    `,
  ],
  [
    'another length offset moves Z',
    `
    ${START}
    G43 H1
    G0 X1 Y2 Z3
    G28.1
    G43 H2
    G0 X20 Y20 Z20
    G28              => rapid 1 2 -
    `,
  ],
  [
    'words of another spindle ($n) change nothing of the main one',
    `
    ${START} S1000 M3
    S500 $1          => spindle=1000
    M4 $1            => direction=1
    M5 $1            => direction=1
    G96 D2000 S100 $1 => css=0; spindle=1000
    S800 $0          => spindle=800
    M5 $-1           => direction=0
    `,
  ],
  [
    'moves locked to another spindle are not followed',
    `
    ${START} S1000 M3
    G0 X0 Y0 Z5
    G33 Z0 K1 $1     => !not-followed
    G95 F0.1 $1      => !not-followed
    `,
  ],
  [
    '$ without a number, and $ on other controls, has no meaning',
    `
    ${START}
    $1500 M3         => !bad-character 0-5
    `,
    MILL,
  ],
  [
    'a subroutine whose number is worked out is found by its value',
    `
    ${START}
    G0 X0 Y0 Z0
    #1=100
    o#1 sub
    G1 X#2           => feed 5 0 0; feed 6 0 0
    o#1 endsub
    o#1 call [100] [5]
    #3=1
    o[99+#3] call [100] [6]
    `,
  ],
  [
    'loops and branches with worked-out numbers',
    `
    ${START}
    G0 X0 Y0 Z0
    #1=5
    o#1 repeat [2]
    G91 G1 X1        => feed 1 0 0; feed 2 0 0
    o#1 endrepeat
    o[#1+1] if [#1 EQ 5]
    G90 G1 X9        => feed 9 0 0
    o[#1+1] endif
    `,
  ],
  [
    'scaled cycles: places, R and depth are scaled, pecks are not',
    `
    ${START} S500 M3
    G0 X0 Y0 Z10
    G51 X0 Y0 Z0 P2.
    G81 X5 Y5 Z-5 R1 => rapid 10 10 10; rapid 10 10 2; feed 10 10 -10; rapid 10 10 10
    G80
    G50
    G51 Z0 I1. J1. K3.
    G99 G73 X5 Y5 Z-1 R1 Q4 => rapid 5 5 10; rapid 5 5 3; feed 5 5 -1; rapid 5 5 -0.746; feed 5 5 -3; rapid 5 5 3
    G80
    `,
    MILL,
  ],
  [
    'scaled cycles in increments',
    `
    ${START} S500 M3
    G0 X0 Y0 Z10
    G51 X0 Y0 Z0 P2.
    G91 G99 G81 X1 Z-1 R-4 => rapid 2 0 10; rapid 2 0 2; feed 2 0 0; rapid 2 0 2
    G80 G50
    `,
    MILL,
  ],
  [
    'a cycle mirrored along the tool is not followed',
    `
    ${START} S500 M3
    G0 X0 Y0 Z10
    G51.1 Z0
    G81 X5 Y5 Z-5 R1 => !not-followed
    `,
    MILL,
  ],
  [
    'arcs turn the other way under a mirror, and only under one',
    `
    ${START}
    G0 X0 Y0 Z0
    G51.1 X0
    G2 X10 Y10 I10 J0 => arc -10 10 0 sweep=90
    G51.1 Y0
    G0 X0 Y0
    G2 X10 Y10 I10 J0 => arc -10 -10 0 sweep=-90
    `,
    MILL,
  ],
];

describe('rs274: stored points, spindles, worked-out numbers, scaled cycles', () => {
  for (const [name, program, options] of CASES) it(name, () => void check(program, options ?? NGC));
});
