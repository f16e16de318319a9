import assert from 'node:assert/strict';
import fc from 'fast-check';
import {
  ARC_TOLERANCE,
  type ArcTolerance,
  type ArcWords,
  arcFromWords,
} from '../../../server/src/rs274/geometry/arc.ts';
import { PLANE_AXES, type Plane, pointInPlane } from '../../../server/src/rs274/geometry/plane.ts';

interface Case {
  readonly name: string;
  readonly plane?: Plane;
  readonly ccw?: boolean;
  readonly from: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  readonly words: ArcWords;
  readonly absolute?: boolean;
  readonly tolerance?: ArcTolerance;
  readonly centre?: readonly [number, number];
  readonly radius?: number;
  readonly sweep_deg?: number;
  readonly length?: number;
  readonly problems?: readonly string[];
}

const check = (test: Case) => {
  const point = ([x, y, z]: readonly [number, number, number]) => ({ x, y, z });
  const { arc, problems } = arcFromWords({
    plane: test.plane ?? 'xy',
    clockwise: test.ccw !== true,
    start: point(test.from),
    end: point(test.to),
    words: test.words,
    absolute_centre: test.absolute === true,
    tolerance: test.tolerance ?? ARC_TOLERANCE.report_mm,
  });
  assert.deepEqual(
    problems.map(problem => problem.code),
    test.problems ?? [],
  );
  if (test.centre === undefined) {
    assert.equal(arc, undefined);
    return;
  }
  assert.ok(arc);
  const near = (actual: number, expected: number | undefined, what: string) => {
    if (expected === undefined) return;
    const same = Number.isNaN(expected) ? Number.isNaN(actual) : Math.abs(actual - expected) < 1e-6;
    assert.ok(same, `${what}: ${actual}, expected ${expected}`);
  };
  near(arc.centre_first, test.centre[0], 'centre first');
  near(arc.centre_second, test.centre[1], 'centre second');
  near(arc.radius_mm, test.radius, 'radius');
  near((arc.sweep_rad * 180) / Math.PI, test.sweep_deg, 'sweep');
  near(arc.length_mm, test.length, 'length');
};

// The two formulas of NISTIR 6556 section 3.5.3 (radius form 3.5.3.1, centre form 3.5.3.2), from memory;
// figures worked out by hand.
const CASES: readonly Case[] = [
  {
    name: 'quarter clockwise by centre',
    from: [0, 10, 0],
    to: [10, 0, 0],
    words: { j: -10 },
    centre: [0, 0],
    radius: 10,
    sweep_deg: -90,
    length: 15.707963,
  },
  {
    name: 'the same ends counter-clockwise go the long way',
    ccw: true,
    from: [0, 10, 0],
    to: [10, 0, 0],
    words: { j: -10 },
    centre: [0, 0],
    sweep_deg: 270,
    length: 47.12389,
  },
  {
    name: 'equal ends: full circle',
    from: [5, 0, 0],
    to: [5, 0, 0],
    words: { i: -5 },
    centre: [0, 0],
    sweep_deg: -360,
    length: 31.415927,
  },
  {
    name: 'helix: length is the root of arc and rise',
    ccw: true,
    from: [3, 0, 0],
    to: [3, 0, 4],
    words: { i: -3 },
    centre: [0, 0],
    sweep_deg: 360,
    length: 19.269296,
  },
  {
    name: 'three turns',
    ccw: true,
    from: [3, 0, 0],
    to: [-3, 0, 0],
    words: { i: -3, p: 3 },
    centre: [0, 0],
    sweep_deg: 900,
    length: 47.12389,
  },
  {
    name: 'turns of nothing are refused, the arc stays',
    from: [3, 0, 0],
    to: [-3, 0, 0],
    words: { i: -3, p: 0 },
    centre: [0, 0],
    sweep_deg: -180,
    problems: ['arc-turns-bad'],
  },
  {
    name: 'radius form, shorter arc, clockwise',
    from: [0, 0, 0],
    to: [10, 10, 0],
    words: { r: 10 },
    centre: [10, 0],
    sweep_deg: -90,
    length: 15.707963,
  },
  {
    name: 'radius form, longer arc, clockwise',
    from: [0, 0, 0],
    to: [10, 10, 0],
    words: { r: -10 },
    centre: [0, 10],
    sweep_deg: -270,
    length: 47.12389,
  },
  {
    name: 'radius form, shorter arc, counter-clockwise',
    ccw: true,
    from: [0, 0, 0],
    to: [10, 10, 0],
    words: { r: 10 },
    centre: [0, 10],
    sweep_deg: 90,
  },
  {
    name: 'radius form, longer arc, counter-clockwise',
    ccw: true,
    from: [0, 0, 0],
    to: [10, 10, 0],
    words: { r: -10 },
    centre: [10, 0],
    sweep_deg: 270,
  },
  {
    name: 'radius a little under half the chord: half circle',
    from: [0, 0, 0],
    to: [10, 0, 0],
    words: { r: 4.999 },
    centre: [5, 0],
    radius: 5,
    sweep_deg: -180,
  },
  {
    name: 'radius too short',
    from: [0, 0, 0],
    to: [10, 0, 0],
    words: { r: 4.9 },
    problems: ['arc-radius-short'],
  },
  {
    name: 'radius form, equal ends',
    from: [1, 1, 0],
    to: [1, 1, 0],
    words: { r: 5 },
    problems: ['arc-ends-equal'],
  },
  { name: 'radius 0', from: [0, 0, 0], to: [1, 1, 0], words: { r: 0 }, problems: ['arc-radius-zero'] },
  {
    name: 'centre on the start',
    from: [0, 0, 0],
    to: [1, 1, 0],
    words: { i: 0 },
    problems: ['arc-radius-zero'],
  },
  {
    name: 'neither centre nor radius',
    from: [0, 0, 0],
    to: [1, 1, 0],
    words: {},
    problems: ['arc-centre-missing'],
  },
  {
    name: 'K in the XY plane alone',
    from: [0, 0, 0],
    to: [1, 1, 0],
    words: { k: 1 },
    problems: ['arc-centre-wrong-axis', 'arc-centre-missing'],
  },
  {
    name: 'R and a centre: R counts',
    from: [0, 0, 0],
    to: [10, 10, 0],
    words: { r: 10, i: 3 },
    centre: [10, 0],
    sweep_deg: -90,
    problems: ['arc-radius-and-centre'],
  },
  {
    name: 'end 0.0015 mm off: taken by the report',
    from: [10, 0, 0],
    to: [0, 10.0015, 0],
    words: { i: -10 },
    ccw: true,
    centre: [0, 0],
    sweep_deg: 90,
  },
  {
    name: 'end 0.003 mm off: refused by the report',
    from: [10, 0, 0],
    to: [0, 10.003, 0],
    words: { i: -10 },
    ccw: true,
    centre: [0, 0],
    problems: ['arc-end-off-circle'],
  },
  {
    name: 'end 0.003 mm off: taken in inch',
    from: [10, 0, 0],
    to: [0, 10.003, 0],
    words: { i: -10 },
    ccw: true,
    tolerance: ARC_TOLERANCE.report_inch,
    centre: [0, 0],
  },
  {
    name: 'successor: 0.1 % of the radius',
    from: [10, 0, 0],
    to: [0, 10.009, 0],
    words: { i: -10 },
    ccw: true,
    tolerance: ARC_TOLERANCE.successor_mm,
    centre: [0, 0],
  },
  {
    name: 'successor: never over 0.028 mm',
    from: [100, 0, 0],
    to: [0, 100.03, 0],
    words: { i: -100 },
    ccw: true,
    tolerance: ARC_TOLERANCE.successor_mm,
    centre: [0, 0],
    problems: ['arc-end-off-circle'],
  },
  {
    name: 'absolute centre (G90.1)',
    from: [10, 20, 0],
    to: [20, 10, 0],
    words: { i: 10, j: 10 },
    absolute: true,
    centre: [10, 10],
    radius: 10,
    sweep_deg: -90,
  },
  {
    name: 'absolute centre needs both coordinates',
    from: [10, 20, 0],
    to: [20, 10, 0],
    words: { i: 10 },
    absolute: true,
    problems: ['arc-centre-incomplete'],
  },
  {
    name: 'ZX plane: Z is the first axis',
    plane: 'zx',
    from: [7, 0, -20],
    to: [9, 0, -22],
    words: { i: 0, k: -2 },
    ccw: true,
    centre: [-22, 7],
    radius: 2,
    sweep_deg: 90,
    length: Math.PI,
  },
  {
    name: 'YZ plane',
    plane: 'yz',
    from: [5, 10, 0],
    to: [5, 0, 10],
    words: { j: -10, k: 0 },
    ccw: true,
    centre: [0, 0],
    sweep_deg: 90,
  },
  {
    name: 'unknown start',
    from: [Number.NaN, 0, 0],
    to: [5, 5, 0],
    words: { i: 5 },
    problems: ['arc-position-unknown'],
  },
  {
    name: 'unknown height, none programmed: flat',
    from: [10, 0, Number.NaN],
    to: [0, 10, Number.NaN],
    words: { i: -10 },
    ccw: true,
    centre: [0, 0],
    length: 15.707963,
  },
  {
    name: 'unknown height, rise programmed: length not known',
    from: [10, 0, Number.NaN],
    to: [0, 10, 3],
    words: { i: -10 },
    ccw: true,
    centre: [0, 0],
    length: Number.NaN,
  },
];

describe('arc from words', () => {
  for (const test of CASES) it(test.name, () => check(test));

  it('finds the arc back from its centre form and its radius form, in every plane', () => {
    const planes: readonly Plane[] = ['xy', 'zx', 'yz'];
    fc.assert(
      fc.property(
        fc.constantFrom(...planes),
        fc.double({ min: 0.5, max: 200, noNaN: true }),
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        fc.double({ min: 0.05, max: 6.2, noNaN: true }).filter(sweep => Math.abs(sweep - Math.PI) > 0.05),
        fc.boolean(),
        (plane, radius, start_angle, sweep, clockwise) => {
          const signed = clockwise ? -sweep : sweep;
          const at = (angle: number) =>
            pointInPlane(plane, 3 + radius * Math.cos(angle), -7 + radius * Math.sin(angle), 1);
          const start = at(start_angle);
          const end = at(start_angle + signed);
          const axes = PLANE_AXES[plane];
          const letter = { x: 'i', y: 'j', z: 'k' } as const;
          const centre_form = {
            [letter[axes.first]]: 3 - start[axes.first],
            [letter[axes.second]]: -7 - start[axes.second],
          };
          const radius_form = { r: sweep > Math.PI ? -radius : radius };
          for (const words of [centre_form, radius_form]) {
            const { arc, problems } = arcFromWords({
              plane,
              clockwise,
              start,
              end,
              words,
              absolute_centre: false,
              tolerance: ARC_TOLERANCE.report_mm,
            });
            assert.deepEqual(problems, []);
            assert.ok(arc);
            assert.ok(Math.abs(arc.sweep_rad - signed) < 1e-5);
            assert.ok(Math.hypot(arc.centre_first - 3, arc.centre_second + 7) < 1e-4 * radius + 1e-6);
          }
        },
      ),
      { seed: 274, numRuns: 300 },
    );
  });
});
