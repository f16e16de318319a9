import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type ControlPoint, splineChords } from '../../../server/src/rs274/geometry/nurbs.ts';
import { ProgramText, type ReadOptions, readProgram } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };

/** Slow plain model: the basis functions by their definition (de Boor, Cox), summed with weights. */
function pointAt(points: readonly ControlPoint[], order: number, u: number): { x: number; y: number } {
  const pieces = points.length - order + 1;
  const knots = Array.from({ length: points.length + order }, (_, i) =>
    i < order ? 0 : i >= points.length ? pieces : i - order + 1,
  );
  const basis = (i: number, k: number): number => {
    if (k === 1) {
      const last = u === pieces && knots[i + 1] === pieces && knots[i] < pieces;
      return (u >= knots[i] && u < knots[i + 1]) || last ? 1 : 0;
    }
    const [a, b] = [knots[i + k - 1] - knots[i], knots[i + k] - knots[i + 1]];
    const left = a === 0 ? 0 : ((u - knots[i]) / a) * basis(i, k - 1);
    return left + (b === 0 ? 0 : ((knots[i + k] - u) / b) * basis(i + 1, k - 1));
  };
  let [x, y, w] = [0, 0, 0];
  for (const [i, point] of points.entries()) {
    const share = basis(i, order) * point.weight;
    x += share * point.x;
    y += share * point.y;
    w += share;
  }
  return { x: x / w, y: y / w };
}

function distance(
  at: { x: number; y: number },
  a: { x: number; y: number },
  b: { x: number; y: number },
): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const long = dx * dx + dy * dy;
  const share = long === 0 ? 0 : Math.min(1, Math.max(0, ((at.x - a.x) * dx + (at.y - a.y) * dy) / long));
  return Math.hypot(at.x - a.x - share * dx, at.y - a.y - share * dy);
}

const CASES: [name: string, program: string, options?: ReadOptions][] = [
  [
    'a list in a straight line is a straight move, made at G5.3',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z1
    G5.2 X1 Y0 L3    => none
    X2 Y0            => none
    G5.3             => feed 2 0 1
    G1 X5            => feed 5 0 1
    `,
  ],
  [
    'points of the list may be increments',
    `
    G21 G17 G90 G94 F100
    G0 X1 Y1 Z0
    G91
    G5.2 X1 P2
    X1
    G5.3             => feed 3 1 0
    `,
  ],
  [
    'order 2 is the polygon itself',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z0
    G5.2 X5 Y5 L2
    X10 Y0
    G5.3             => feed 5 5 0; feed 10 0 0
    `,
  ],
  [
    'fewer points than the order: the end is known, the path not',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z0
    G5.2 X5 Y5 L4
    G5.3             => !spline-word-missing
    G1 X6            => feed 6 5 0 length=1
    `,
  ],
  [
    'a list that is not closed is told, and nothing of it taken for known',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z0
    G5.2 X5 Y5
    G1 X6            => !spline-word-missing; feed 6 - -
    `,
  ],
  [
    'a weight of 0, or a Z word, is not followed',
    `
    G21 G17 G90 G94 F100
    G0 X0 Y0 Z0
    G5.2 X5 Y5 P0    => !not-followed
    G0 X0 Y0 Z0
    G5.2 X5 Y5
    X6 Z1            => !not-followed
    `,
  ],
  [
    'G5.3 alone has nothing to close',
    `
    G21 G17 G90 G94 F100
    G5.3             => !spline-word-missing
    `,
  ],
];

describe('rs274: spline lists', () => {
  for (const [name, program, options] of CASES) it(name, () => void check(program, options ?? NGC));

  it('three points with weights 1, cos 45, 1 are a quarter of a circle', () => {
    // Rational quadratic of a circular arc: middle weight = cosine of half the angle (standard).
    const text = 'G21 G17 G90 G94 F100\nG0 X10 Y0 Z0\nG5.2 X10 Y10 P0.7071067811865476\nX0 Y10\nG5.3\nM2\n';
    const cursor = readProgram(ProgramText.fromString(text), NGC).stepsOfLine(4);
    let length = 0;
    while (cursor.next()) {
      assert.ok(Math.abs(Math.hypot(cursor.x, cursor.y) - 10) < 1e-9);
      length += cursor.length_mm;
    }
    assert.ok(Math.abs(length - 15.707963268) < 0.003, String(length));
  });

  it('has its chords within a thousandth of the curve', () => {
    const point = fc.record({
      x: fc.integer({ min: -200, max: 200 }).map(tenths => tenths / 10),
      y: fc.integer({ min: -200, max: 200 }).map(tenths => tenths / 10),
      weight: fc.constantFrom(0.2, 0.5, 1, 1, 2, 5),
    });
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 2, maxLength: 8 }),
        fc.integer({ min: 2, max: 5 }),
        (points, wanted) => {
          const order = Math.min(wanted, points.length);
          const chords = [points[0], ...splineChords(points, order, 0.001)];
          const pieces = points.length - order + 1;
          let from = 1;
          for (let n = 0; n <= 200; n += 1) {
            const at = pointAt(points, order, (n / 200) * pieces);
            // The curve and its chords run alike: the nearest chord is not before the last one found.
            while (from + 1 < chords.length && distance(at, chords[from - 1], chords[from]) > 0.00101)
              from += 1;
            assert.ok(distance(at, chords[from - 1], chords[from]) < 0.00101, `${n}: ${JSON.stringify(at)}`);
          }
          const end = chords[chords.length - 1];
          const last = points[points.length - 1];
          assert.ok(Math.hypot(end.x - last.x, end.y - last.y) < 1e-9);
        },
      ),
      { numRuns: 60, seed: 7 },
    );
  });
});
