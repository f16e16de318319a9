import assert from 'node:assert/strict';
import fc from 'fast-check';
import { ARC_TOLERANCE, arcFromWords } from '../../../server/src/rs274/geometry/arc.ts';
import { PLANE_AXES, type Plane, pointInPlane } from '../../../server/src/rs274/geometry/plane.ts';
import { CASES, type Case } from './arc-cases.ts';

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
