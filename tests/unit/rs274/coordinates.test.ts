import type { ReadOptions } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const ISO: ReadOptions = { dialect: 'iso6983', kind: 'mill', dwell: 'ms' };
const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };
const TURN: ReadOptions = { dialect: 'lathe-a', kind: 'lathe' };
const START = 'G21 G17 G90 G94 F100.';

const CASES: [name: string, program: string, options: ReadOptions][] = [
  [
    'rotation turns positions and centres (common practice, no source)',
    `
    ${START}
    G0 X0 Y0 Z0
    G68 X0 Y0 R90.        => none
    G1 X10.               => feed 0 10 0
    G2 X20. Y0 I5. J0     => arc 0 20 0 sweep=-180
    G69                   => none
    G1 X1. Y1.            => feed 1 1 0
    `,
    ISO,
  ],
  [
    'rotation about a point, incremental words turn too',
    `
    ${START}
    G0 X10. Y0 Z0
    G68 X10. Y0 R180.
    G91 G1 X5.            => feed 5 0 0
    G90 X20. Y5.          => feed 0 -5 0
    `,
    ISO,
  ],
  [
    'with one plane axis unknown a turned position is unknown',
    `
    ${START}
    G68 X0 Y0 R45.
    G0 X10.               => rapid - - -
    Y0                    => rapid - - -
    X10. Y0 Z5.           => rapid 7.0710678 7.0710678 5
    `,
    ISO,
  ],
  [
    'scaling: P2000 doubles (common practice, no source)',
    `
    ${START}
    G0 X0 Y0 Z0
    G51 X0 Y0 Z0 P2000
    G1 X10.               => feed 20 0 0
    G3 Y10. R5.           => arc 20 20 0 sweep=180 length=31.4159265
    G50
    G1 X0 Y0              => feed 0 0 0
    `,
    ISO,
  ],
  [
    'mirror turns arcs over',
    `
    ${START}
    G0 X0 Y0 Z0
    G51.1 X0
    G1 X10.               => feed -10 0 0
    G2 X20. Y0 I5. J0     => arc -20 0 0 sweep=180
    G50.1 X0
    G1 X1. Y0             => feed 1 0 0
    `,
    ISO,
  ],
  [
    'polar words',
    `
    ${START}
    G0 X0 Y0 Z0
    G16
    G1 X10. Y90.          => feed 0 10 0
    Y180.                 => feed -10 0 0
    G15 X1. Y2.           => feed 1 2 0
    `,
    ISO,
  ],
  [
    'a bolt circle drilled by polar words',
    `
    ${START}
    S500 M3
    G0 X0 Y0 Z5.
    G16
    G81 X10. Y0 Z-5. R1. => rapid 10 0 5; rapid 10 0 1; feed 10 0 -5; rapid 10 0 5
    Y90.                 => rapid 0 10 5; rapid 0 10 1; feed 0 10 -5; rapid 0 10 5
    G80
    `,
    ISO,
  ],
  [
    'G52 and G92 shift what the words mean, not where the tool is',
    `
    ${START}
    G54 G0 X10. Y0 Z0
    G52 X5.
    G1 X0                 => feed 5 0 0
    G52 X0
    G92 X100.
    G1 X101.              => feed 6 0 0
    `,
    ISO,
  ],
  [
    'G92 is suspended and restored (NISTIR 6556 section 3.5.18, from memory)',
    `
    ${START}
    G0 X10. Y0 Z0
    G92 X0
    G92.2
    G1 X11.               => feed 11 0 0
    G92.3 G1 X2.          => feed 12 0 0
    G92.1
    G1 X2.                => feed 2 0 0
    `,
    NGC,
  ],
  [
    'G92 where the position is not known gives it',
    `
    ${START}
    G92 X1. Y2. Z3.       => place 1 2 3
    G1 X2.                => feed 2 2 3 length=1
    `,
    ISO,
  ],
  [
    'another work offset: not known, unless the program sets both',
    `
    ${START}
    G54 G0 X10. Y0 Z0
    G55 X1.               => place - - -; rapid 1 - -; frame=550
    G10 L2 P1 X-100. Y0 Z0
    G10 L2 P2 X-150. Y0 Z0
    G0 X0 Y0 Z0
    G54                   => place -50 0 0; frame=540
    `,
    ISO,
  ],
  [
    'G10 L20 gives the present point its coordinates',
    `
    ${START}
    G54 G0 X10. Y0 Z0
    G10 L20 P1 X0         => place 0 0 0
    G1 X1.                => feed 1 0 0
    `,
    NGC,
  ],
  [
    'G53: only this block, in machine coordinates; the others stay known',
    `
    ${START}
    G54 G0 X10. Y0 Z5.
    G53 G0 Z0             => place - - -; rapid - - 0 frame=530 length=-; place 10 0 -
    X20.                  => rapid 20 0 -
    Z5.                   => rapid 20 0 5 length=-
    `,
    ISO,
  ],
  [
    'G28 in G91 goes straight home; in G90 it passes through the point (NISTIR 6556 section 3.5.8, from memory)',
    `
    ${START}
    G0 X10. Y0 Z5.
    G91 G28 Z0            => home 10 0 -
    G90
    G0 Z5.
    G28 Z0                => rapid 10 0 0; home 10 0 -
    G28 G91 X0.           => home - 0 -
    `,
    ISO,
  ],
  [
    'chamfer and round corners (common practice, no source)',
    `
    ${START}
    G0 X0 Y0 Z0
    G1 X10. ,C2.          => feed 8 0 0; feed 10 2 0
    Y10. ,R3.             => feed 10 7 0; arc 7 10 0 sweep=90
    X0                    => feed 0 10 0
    `,
    ISO,
  ],
  [
    'a corner without a line after it is said',
    `
    ${START}
    G0 X0 Y0 Z0
    G1 X10. ,C2.          => !corner-not-made; feed 10 0 0
    M30
    `,
    ISO,
  ],
  [
    'lathe: U and W are increments, X is a diameter',
    `
    G21 G18 G99
    G0 X20. Z2.           => rapid 10 - 2
    G1 Z-10. F0.2         => feed 10 - -10 length=12
    U2. W-1.              => feed 11 - -11
    G28 U0 W0             => home - - -
    `,
    TURN,
  ],
  [
    'lathe round corner',
    `
    G21 G18 G99
    G0 X0 Z0
    G1 X20. R2. F0.2      => feed 8 - 0; arc 10 - -2 sweep=90
    Z-10.                 => feed 10 - -10
    `,
    TURN,
  ],
];

describe('rs274: coordinates', () => {
  for (const [name, program, options] of CASES) it(name, () => void check(program, options));
});
