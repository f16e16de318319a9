import assert from 'node:assert/strict';
import { ProgramText, type ReadOptions, readProgram, STEP_FLAG } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const nose = (radius_mm: number, tip: number): ReadOptions => ({
  dialect: 'lathe-a',
  kind: 'lathe',
  compensation: 'part-edge',
  toolNose: () => ({ radius_mm, tip }),
});
const START = 'G21 G18 G98 F100 T0101';
const NGC: ReadOptions = { dialect: 'ngc', kind: 'lathe' };

/**
 * The position is the imaginary tip, as the control shows it. Shift of the tip along Z where a cylinder meets a line at the
 * angle t from the axis: r (1 - tan(t/2)), handed down in the trade (common practice, no source); along X at the other end of
 * a chamfer: r (1 - tan((90 - t)/2)). Worked out by hand.
 */
const CASES: [name: string, program: string, options: ReadOptions][] = [
  [
    'face then diameter: the tip stays on the programmed lines and corner',
    `
    ${START}
    G0 X50. Z2.
    G41 X44. Z0.       => rapid 21.2 - 0
    G1 X-1.6           => feed -1.6 - 0
    G40 G0 X46. Z2.
    G42 G0 X40. Z0.    => rapid 20 - -0.8
    G1 Z-30.           => feed 20 - -30
    X60.               => feed 29.2 - -30
    G40 X62.           => feed 31 - -30
    `,
    nose(0.8, 3),
  ],
  [
    'over an outside corner of 90 degrees the tip goes through the corner itself',
    `
    ${START}
    G0 X10. Z5.
    G42 G1 X10. Z0.
    X40.               => feed 20 - 0
    Z-20.              => feed 20 - -20.8
    G40 X50.           => feed 25 - -20
    `,
    nose(0.8, 3),
  ],
  [
    'a taper of 30 degrees from the axis: r (1 - tan 15) = 0.292820 later in Z',
    `
    ${START}
    G0 X20. Z5.
    G42 G1 Z2.         => feed 10 - 1.6
    Z-10.              => feed 10 - -10.292820323
    X31.5470053838 Z-20.
    Z-40.              => feed 15.773502692 - -40.4
    G40 X40.           => feed 20 - -40
    `,
    nose(0.4, 3),
  ],
  [
    'the end of that taper on the next cylinder is shifted alike',
    `
    ${START}
    G0 X20. Z5.
    G42 G1 Z2.
    Z-10.
    X31.5470053838 Z-20. => feed 15.773502692 - -20.292820323
    Z-40.
    G40 X40.
    `,
    nose(0.4, 3),
  ],
  [
    'chamfer of 1 x 45 between face and diameter: both ends shifted by 0.8 (1 - tan 22.5) = 0.468629',
    `
    ${START}
    G0 X10. Z2.
    G42 G1 Z0.
    X18.               => feed 8.531370850 - 0
    X20. Z-1.          => feed 10 - -1.468629150
    Z-10.              => feed 10 - -10.8
    G40 X30.           => feed 15 - -10
    `,
    nose(0.8, 3),
  ],
  [
    'a convex arc gets R + r, a concave one R - r: quarter turns of 5.8 and 4.2 mm',
    `
    ${START}
    G0 X0. Z2.
    G42 G1 Z0.
    X10.               => feed 4.2 - 0
    G3 X20. Z-5. R5.   => arc 10 - -5.8 length=9.110618695 sweep=90
    G1 Z-15.           => feed 10 - -15.8
    G2 X30. Z-20. R5.  => arc 14.2 - -20 length=6.597344573 sweep=-90
    G1 X40.            => feed 19.2 - -20
    G40 X50.           => feed 25 - -20
    `,
    nose(0.8, 3),
  ],
  [
    'boring with tip 2 and G41 is the mirror of outside turning',
    `
    ${START}
    G0 X40. Z2.
    G41 G1 Z0.         => feed 20 - -0.8
    Z-1.               => feed 20 - -1.468629150
    X38. Z-2.          => feed 19 - -2.468629150
    Z-10.              => feed 19 - -10
    X20.               => feed 10.8 - -10
    G40 X18.           => feed 9 - -10
    `,
    nose(0.8, 2),
  ],
  [
    'tip 9 is the centre of the nose',
    `
    ${START}
    G0 X10. Z2.
    G42 G1 Z0.         => feed 5 - 0.8
    X20.               => feed 10.8 - 0.8
    Z-10.              => feed 10.8 - -10
    G40 X30.           => feed 15 - -10
    `,
    nose(0.8, 9),
  ],
  [
    'a fillet smaller than the nose cannot be cut',
    `
    ${START}
    G0 X10. Z2.
    G42 G1 Z0.
    Z-10.
    G2 X11. Z-10.5 R0.5 => !comp-arc-too-small
    G1 X30.
    G40 X40.
    `,
    nose(0.8, 3),
  ],
  [
    'a groove narrower than the nose is cut too wide',
    `
    ${START}
    G0 X30. Z2.
    G42 G1 Z0.
    Z-10.
    X28. Z-10.5
    X30. Z-11.          => !comp-inside-corner
    Z-20.
    G40 X40.
    `,
    nose(0.8, 3),
  ],
  [
    'an offset that is cancelled has no radius; another one comes with its own',
    `
    ${START}
    G0 X10. Z2.
    G42 G1 Z0.
    T0100
    Z-5.               => feed 5 - -5
    T0202
    G1 X20. Z-6.
    G1 Z-10.
    T0200
    G1 X30. Z-12.      => feed 15 - -12
    `,
    { ...nose(0.8, 3), toolNose: (_offset, tool) => ({ radius_mm: tool * 0.4, tip: 3 }) },
  ],
  [
    'T and G42 in one block: the nose is that of the new tool',
    `
    G21 G18 G98 F100
    G0 X10. Z2.
    G42 T0303 G1 Z0.
    X20.
    Z-10.              => feed 10 - -10
    X30.               => feed 13.8 - -10
    G40 X40.
    `,
    { ...nose(0.8, 3), toolNose: (_offset, tool) => ({ radius_mm: tool * 0.4, tip: 3 }) },
  ],
  [
    'to the reference position with compensation on: nothing of the closed path is taken for known',
    `
    ${START}
    G0 X10. Z2.
    G42 G1 Z0.
    Z-10.
    G28 U0. W0.        => home - - -
    G40 G0 Z5.         => rapid - - 5
    `,
    nose(0.8, 3),
  ],
  [
    'G10 of the program states nose radius and tip direction (P offset, R, Q)',
    `
    G10 P1 X0. Z0. R0.8 Q3
    ${START}
    G0 X10. Z2.
    G42 G1 Z0.
    X18.               => feed 8.531370850 - 0
    X20. Z-1.          => feed 10 - -1.468629150
    Z-10.
    G40 X30.
    `,
    { dialect: 'lathe-a', kind: 'lathe' },
  ],
  [
    'G10 P0 of a lathe moves work zero: where the tool stands is then not known',
    `
    ${START}
    G0 X10. Z2.
    G10 P0 Z-1.        => place 5 - -
    G0 X20.            => rapid 10 - -
    `,
    { dialect: 'lathe-a', kind: 'lathe' },
  ],
  [
    'ngc: G41.1 and G42.1 with L as tip direction, 2 being outside turning there',
    `
    G21 G18 G90 G94 G8 F100
    G0 X5 Z2
    G42.1 D1.6 L2
    G1 Z0              => feed 5 - -0.8
    Z-10               => feed 5 - -10
    X10                => feed 9.2 - -10
    G40
    G1 X20             => feed 20 - -10
    `,
    NGC,
  ],
  [
    'ngc: G10 L1 P R Q states radius and tip direction of the table',
    `
    G21 G18 G90 G94 G8 F100
    G10 L1 P1 R0.8 Q2
    G0 X5 Z2
    G42 D1
    G1 Z0              => feed 5 - -0.8
    Z-10               => feed 5 - -10
    X10
    G40
    G1 X20
    `,
    NGC,
  ],
];

/** Radii that the program itself writes into the offset table: the control offsets by them, whatever the contour is. */
const WRITTEN: [name: string, program: string, options: ReadOptions][] = [
  [
    'ngc mill: G10 L1 P R, also read back as #5410',
    `
    G21 G17 G90 G94 F100
    G10 L1 P5 R3
    T5 M6
    G0 X0 Y0 Z0
    G41 D5
    G1 X0 Y10          => feed -3 10 0; arc 0 13 0
    G1 X20             => feed 20 13 0
    G40
    G1 X0 Y0           => feed 0 0 0
    X#5410             => feed 6 0 0
    `,
    { dialect: 'ngc', kind: 'mill' },
  ],
  [
    'mill: G10 L12 radius and L13 wear of offset 1',
    `
    G21 G17 G90 G94 F100
    G10 L12 P1 R3.
    G10 L13 P1 R-0.5
    G0 X0. Y-10. Z0.
    G41 D1 G1 X0. Y0.  => feed -2.5 0 0
    Y10.               => feed -2.5 10 0; arc 0 12.5 0
    X20.               => feed 20 12.5 0
    G40 X30. Y0.       => feed 30 0 0
    `,
    { dialect: 'iso6983', kind: 'mill' },
  ],
  [
    'a tip direction that is none leaves the path as programmed',
    `
    G10 P1 R0.8 Q12
    ${START}
    G0 X10. Z2.
    G42 G1 Z0.
    X18.               => feed 9 - 0
    X20. Z-1.          => feed 10 - -1
    G40 X30.
    `,
    { dialect: 'lathe-a', kind: 'lathe' },
  ],
];

const NEVER: [name: string, code: string, options: ReadOptions][] = [
  ['nothing is said', 'nose-compensation', { dialect: 'lathe-a', kind: 'lathe' }],
  ['the tip direction is not known', 'nose-compensation', nose(0.8, Number.NaN)],
  ['the nose radius is not known', 'nose-compensation', nose(Number.NaN, 3)],
  ['the offset is wear only', 'wear-only', { ...nose(0.8, 3), compensation: 'wear-only' }],
];

const CHAMFER = `${START}\nG0 X10. Z2.\nG42 G1 Z0.\nX18.\nX20. Z-1.\nZ-10.\nG40 X30.\n`;

describe('rs274: nose radius compensation of lathes', () => {
  for (const [name, program, options] of [...CASES, ...WRITTEN]) it(name, () => void check(program, options));

  for (const [name, code, options] of NEVER) {
    it(`takes the programmed path where ${name}, and says so`, () => {
      const reading = check(
        CHAMFER.replace('X20. Z-1.', 'X20. Z-1. => feed 10 - -1').replace('X18.', 'X18. => feed 9 - 0'),
        options,
      );
      assert.deepEqual(
        reading.assumptions().map(assumed => assumed.code),
        [code],
      );
    });
  }

  it('names what is missing', () => {
    const reading = readProgram(ProgramText.fromString(CHAMFER), nose(0.8, Number.NaN));
    assert.match(reading.assumptions()[0]?.message ?? '', /tool 1: not known the tip direction/);
  });

  it('finishes a profile with compensation and roughs it without', () => {
    const reading = check(
      `
    G21 G18 G99 T0101
    G0 X62. Z2.
    G71 U2. R.5
    G71 P10 Q20 U0. W0. F.25
    N10 G0 G42 X20.
    G1 Z0. F.1
    X26. Z-3.
    Z-20.
    N20 X60.
    G70 P10 Q20  => rapid 10 - 1.2; feed 10 - -0.468629150; feed 13 - -3.468629150; feed 13 - -20; feed 29.2 - -20; rapid 31 - -20; rapid 31 - 2
    G40 G0 X100. Z50.  => rapid 50 - 50
    `,
      nose(0.8, 3),
    );
    const cursor = reading.cursor();
    let finish = 0;
    while (cursor.next()) {
      const compensated = (cursor.flags & STEP_FLAG.compensated) !== 0;
      if (cursor.line === 3) assert.equal(compensated, false, 'a step of the roughing cycle');
      if (compensated) finish += 1;
    }
    assert.equal(finish, 5);
    // The pass along the profile at the end of roughing has the programmed points.
    check(
      `
    G21 G18 G99 T0101
    G0 X62. Z2.
    G42
    G73 U0. W0. R1
    G73 P10 Q20 U0. W0. F.25 => rapid 10 - 0; feed 13 - -3; feed 13 - -20; feed 30 - -20; rapid 31 - -20; rapid 31 - 2
    N10 G0 X20. Z0.
    G1 X26. Z-3.
    Z-20.
    N20 X60.
    G40
    `,
      nose(0.8, 3),
    );
  });
});
