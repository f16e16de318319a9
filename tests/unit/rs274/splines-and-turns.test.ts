import assert from 'node:assert/strict';
import { ProgramText, type ReadOptions, readProgram, settle } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };
const START = 'G21 G17 G90 G94 F100';

/** Worked by hand: a turn by 90 degrees sends (x, y) to (-y, x). */
const CASES: [name: string, program: string, options: ReadOptions][] = [
  [
    'a work offset turned by R turns moves, centres and increments about work zero',
    `
    ${START}
    G10 L2 P1 X10 Y0 Z0 R90
    G54
    G0 X0 Y0 Z0
    G1 X10                  => feed 0 10 0
    G2 X20 Y0 I5 J0         => arc 0 20 0 sweep=-180
    G91 G1 Y1               => feed -1 20 0
    G90 G10 L2 P1 R0
    G0 X0 Y0                => rapid 0 0 0
    `,
    NGC,
  ],
  [
    'each work offset keeps its own turn, also as a parameter (5230, 5250)',
    `
    ${START}
    G10 L2 P1 X0 Y0 Z0
    G10 L2 P2 X0 Y0 Z0
    #5250=90
    G0 X0 Y0 Z0
    G55 G1 X10              => feed 0 10 0
    G54 X10 Y0              => feed 10 0 0
    G0 X[#5250]             => rapid 90 0 0
    `,
    NGC,
  ],
  [
    'G92, G10 L20 and position parameters count in the turned axes',
    `
    ${START}
    G10 L2 P1 X0 Y0 Z0 R90
    G0 X10 Y0 Z0            => rapid 0 10 0
    G0 Z#5420               => rapid 0 10 10
    G92 X0
    G1 X5                   => feed 0 15 10
    G92.1
    G10 L20 P1 X0 Y0
    G1 X5                   => feed 0 5 10
    `,
    NGC,
  ],
  [
    'holes stand where the turned offset puts them',
    `
    ${START} S500 M3
    G10 L2 P1 X0 Y0 Z0 R90
    G0 X10 Y0 Z10
    G81 X10 Y5 Z-1 R1       => rapid -5 10 10; rapid -5 10 1; feed -5 10 -1; rapid -5 10 10
    G80
    `,
    NGC,
  ],
  [
    'G41.1 states the diameter itself: the centre is followed without a tool table',
    `
    ${START}
    G0 X0 Y0 Z0
    G41.1 D6
    G1 X0 Y10               => feed -3 10 0; arc 0 13 0
    G1 X20                  => feed 20 13 0
    G40
    G1 X0 Y0                => feed 0 0 0
    `,
    NGC,
  ],
  [
    'a lathe of this dialect offsets in XZ by the diameter of the table',
    `
    G21 G18 G90 G94 G8 F100
    G0 X-20 Z-20
    G42 D1
    G1 X0 Z0                => feed -2 - 0.8284271247461903
    G1 Z30                  => feed -2 - 30; arc 0 - 32
    G1 X30                  => feed 30 - 32
    G40
    G1 X50                  => feed 50 - 30
    `,
    { dialect: 'ngc', kind: 'lathe', compensation: 'part-edge', toolDiameter_mm: () => 4 },
  ],
  [
    'a spline without control points leaves its end known and its path not',
    `
    ${START}
    G0 X0 Y0 Z0
    G5 X10 Y0 P1            => !spline-word-missing
    G1 X20 Y0               => feed 20 0 0 length=10
    `,
    NGC,
  ],
  [
    'rotary moves alone go in degrees a minute, U V W at the feed',
    `
    G20 G17 G90 G94 F10
    G0 X0 Y0 Z0 A0 U0
    G1 A90                  => feed 0 0 0 a=90 seconds=540
    G1 U1                   => feed 0 0 0 seconds=6
    G1 X1 A0                => feed 25.4 0 0 seconds=-
    `,
    NGC,
  ],
];

function lengthOf(program: string): { length: number; most_off: number; steps: number } {
  const reading = readProgram(ProgramText.fromString(program), NGC);
  assert.deepEqual(reading.problems(), []);
  const cursor = reading.cursor();
  let [length, most_off, steps] = [0, 0, 0];
  while (cursor.next()) {
    if (cursor.kind !== 1) continue;
    length += cursor.length_mm;
    steps += 1;
    // The quadratic from (0, 0) over (10, 20) to (20, 0) is the parabola y = 2 x - x^2 / 10.
    most_off = Math.max(most_off, Math.abs(cursor.y - (2 * cursor.x - cursor.x ** 2 / 10)));
  }
  return { length, most_off, steps };
}

describe('rs274: splines, turned offsets, rotary times', () => {
  for (const [name, program, options] of CASES) it(name, () => void check(program, options));

  it('follows the quadratic along its parabola; arc length from the closed form', () => {
    const got = lengthOf('G21 G17 G90 F100\nG0 X0 Y0 Z0\nG5.1 X20 Y0 I10 J20\n');
    // Integral of sqrt(1 + (2 - x/5)^2) over 0..20 = 5 (2 sqrt 5 + asinh 2) x 2 / 2 = 29.578857...
    assert.ok(Math.abs(got.length - 29.5788572) < 0.002, String(got.length));
    assert.ok(got.most_off < 1e-9);
    assert.ok(got.steps > 10);
  });

  it('raises the same parabola to a cubic', () => {
    // Degree elevation: control points at 2/3 of the way to (10, 20) from both ends.
    const cubic = `G5 X20 Y0 I${20 / 3} J${40 / 3} P${-20 / 3} Q${40 / 3}`;
    const got = lengthOf(`G21 G17 G90 F100\nG0 X0 Y0 Z0\n${cubic}\n`);
    assert.ok(Math.abs(got.length - 29.5788572) < 0.002, String(got.length));
    assert.ok(got.most_off < 1e-6);
  });

  it('begins a second cubic in the direction in which the first ended', () => {
    const got = readProgram(
      ProgramText.fromString('G21 G17 G90 F100\nG0 X0 Y0 Z0\nG5 X10 Y0 I5 J0 P-5 Q0\nX20 Y0 P-5 Q0\n'),
      NGC,
    );
    assert.deepEqual(got.problems(), []);
    const cursor = got.cursor();
    while (cursor.next()) if (cursor.line > 1) assert.ok(Math.abs(cursor.y) < 1e-12);
  });

  it('takes a few builder codes in a long program for no printer, and data for no program', () => {
    const long = `M106\nM107\n${'G1 X1. Y2. F100.\n'.repeat(200)}M30\n`;
    assert.equal(settle(ProgramText.fromString(long)).not_cutting, undefined);
    const data = ProgramText.fromBytes(Uint8Array.from({ length: 400 }, (_, i) => (i % 2 === 0 ? 1 : 32)));
    assert.equal(settle(data).not_cutting?.reason, 'this looks like data, not like text');
  });
});
