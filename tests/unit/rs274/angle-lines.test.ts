import type { ReadOptions } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const LATHE: ReadOptions = { dialect: 'lathe-a', kind: 'lathe' };
const MILL: ReadOptions = { dialect: 'iso6983', kind: 'mill' };
const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };
const TURN = 'G21 G18 G98 F100 T0101';

/** Ends worked out by hand; angles from the first axis of the plane (common practice, no source). */
const CASES: [name: string, program: string, options: ReadOptions][] = [
  [
    'lathe: X and an angle give Z, Z and an angle give X (as a radius)',
    `
    ${TURN}
    G0 X20. Z0.
    G1 X40. ,A135.     => feed 20 - -10
    Z-20. A170.        => feed 21.763269807 - -20
    Z-30. A180.        => feed 21.763269807 - -30
    U2. A90.           => feed 22.763269807 - -30
    G0 X50.            => rapid 25 - -30
    `,
    LATHE,
  ],
  [
    'lathe: an angle with a chamfer and then a round',
    `
    ${TURN}
    G0 X20. Z0.
    G1 X40. A90. ,C2.  => feed 18 - 0; feed 20 - -2
    Z-20. A180. ,R1.   => feed 20 - -19; arc 21 - -20
    X50.               => feed 25 - -20
    `,
    LATHE,
  ],
  [
    'lathe: an angle alone ends where the next line crosses it; not followed',
    `
    ${TURN}
    G0 X20. Z0.
    G1 A135.           => !not-followed; place - - -
    X40. Z-20. A160.   => feed 20 - -20
    `,
    LATHE,
  ],
  [
    'lathe: an angle that the axis word contradicts gives no end',
    `
    ${TURN}
    G0 X20. Z0.
    G1 Z-5. A90.       => !not-followed; place - - -
    `,
    LATHE,
  ],
  [
    'mill: ,A counts from X; A without a comma is the rotary axis',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z0 A0
    G1 X10. ,A45.      => feed 10 10 0
    Y20. ,A90.         => feed 10 20 0
    X20. A30.          => feed 20 20 0 a=30
    `,
    MILL,
  ],
  [
    'ngc: the axis words beside a dwell are of the motion; the dwell comes first',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z0
    G1 G4 P1.5 X5      => dwell 0 0 0 seconds=1.5; feed 5 0 0
    `,
    NGC,
  ],
  [
    'ngc: (ABORT,) ends the program where it is met',
    `
    G21 G17 G90 G94 F100
    #1=2
    o1 if [#1 EQ 1]
    (abort, not met)
    o1 endif
    G0 X1              => rapid 1 - -
    (ABORT, no stock)  => !program-alarm
    G0 X2              => none
    `,
    NGC,
  ],
  [
    'ngc: what G92 and G28.1 keep can be read',
    `
    G21 G17 G90 G94 F100
    G10 L2 P1 X10 Y0 Z0
    G54 G0 X5 Y0 Z0
    G28.1
    G92 X0
    G0 X#5211          => rapid 10 0 0
    G92.2
    G0 X#5211          => rapid 5 0 0
    X#5161             => rapid 15 0 0
    `,
    NGC,
  ],
  [
    'ngc: G96 needs S',
    `
    G21 G18 G90 G94 F100
    G96 D2000          => !surface-speed-missing
    G96 D2000 S100
    `,
    { dialect: 'ngc', kind: 'lathe' },
  ],
  [
    'ngc: probing too near, in inverse time, with a rotary axis or under compensation',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z0 A0
    G38.2 X0.2         => !probe-not-allowed
    G38.2 X0.3
    G0 X0
    G38.2 X5 A10       => !probe-not-allowed
    G93 G38.2 X9 F1    => !probe-not-allowed
    G94 F100
    G41 D1
    G38.2 X20          => !probe-not-allowed; !compensation-on
    `,
    NGC,
  ],
];

describe('rs274: lines by their angle, and words that stand beside others', () => {
  for (const [name, program, options] of CASES) it(name, () => void check(program, options));
});
