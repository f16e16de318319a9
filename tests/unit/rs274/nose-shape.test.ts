import assert from 'node:assert/strict';
import fc from 'fast-check';
import { ProgramText, readProgram, STEP_FLAG } from '../../../server/src/rs274/index.ts';

/** Piece of an outside profile going towards -Z: a line at an angle, or an arc that bends from the angle before to it. */
interface Piece {
  readonly angle_deg: number;
  readonly length_mm: number;
  readonly arc: boolean;
}

const STEP = 0.01;
const RADIUS = 0.8;

/**
 * Slow plain model: the profile as heights on a fine grid; the nose centre can come no lower than the circle around each
 * point allows (dilation), and what is left is what no circle on that height reaches (erosion). The compensated path must
 * leave the same shape.
 */
describe('rs274: what nose radius compensation leaves of the part', () => {
  it('is the profile, filled out in its inside corners as far as the nose does not reach', () => {
    const piece = fc.record({
      angle_deg: fc.integer({ min: -25, max: 55 }),
      length_mm: fc.integer({ min: 30, max: 80 }).map(tenths => tenths / 10),
      arc: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(piece, { minLength: 2, maxLength: 6 }), pieces => {
        const made = programOf(pieces);
        const reading = readProgram(ProgramText.fromString(made.text), {
          dialect: 'lathe-a',
          kind: 'lathe',
          compensation: 'part-edge',
          toolNose: () => ({ radius_mm: RADIUS, tip: 3 }),
        });
        assert.deepEqual(reading.problems(), []);
        const wanted = closing(made.heights);
        const left = leftBy(centrePath(reading), made.heights.length);
        // Away from both ends, where the path is entered and left.
        for (let k = 200; k < wanted.length - 200; k += 1)
          assert.ok(
            Math.abs(left[k] - wanted[k]) < 0.02,
            `z ${(-k * STEP).toFixed(2)}: ${left[k]} against ${wanted[k]}\n${made.text}`,
          );
      }),
      { numRuns: 40, seed: 5 },
    );
  });
});

/** A program along the profile with G42, and the profile's height every hundredth from Z0 on. */
function programOf(pieces: readonly Piece[]): { text: string; heights: number[] } {
  const lines = ['G21 G18 G98 F100 T0101', 'G0 X40. Z5.', 'G42 G1 X40. Z3.', 'Z0.'];
  let x = 20;
  let z = 0;
  let angle = 0;
  const points: [z: number, x: number][] = [[3, 20]];
  const push = (word: string, more = ''): void => {
    lines.push(`${word} X${(2 * x).toFixed(7)} Z${z.toFixed(7)}${more}`);
  };
  points.push([0, 20]);
  for (const { angle_deg, length_mm, arc } of pieces) {
    const to = (angle_deg * Math.PI) / 180;
    if (arc && Math.abs(to - angle) > 0.2) {
      // Tangent to both lines; an arc that turns upwards is hollow (G2), its centre lies outside.
      const up = to > angle ? 1 : -1;
      const radius = 2 + length_mm / 2;
      const centre_z = z + up * radius * Math.sin(angle);
      const centre_x = x + up * radius * Math.cos(angle);
      const steps = 400;
      for (let n = 1; n <= steps; n += 1) {
        const a = angle + ((to - angle) * n) / steps;
        points.push([centre_z - up * radius * Math.sin(a), centre_x - up * radius * Math.cos(a)]);
      }
      const [i, k] = [centre_x - x, centre_z - z];
      [z, x] = points[points.length - 1];
      push(up > 0 ? 'G2' : 'G3', ` I${i.toFixed(7)} K${k.toFixed(7)}`);
    }
    x += length_mm * Math.sin(to);
    z -= length_mm * Math.cos(to);
    angle = to;
    points.push([z, x]);
    push('G1');
  }
  lines.push(`G40 G1 X${(2 * x + 10).toFixed(3)}`);
  const heights: number[] = [];
  let at = 1;
  for (let depth = 0; depth <= -z; depth += STEP) {
    while (at < points.length - 1 && points[at][0] > -depth) at += 1;
    const [from, to] = [points[at - 1], points[at]];
    heights.push(from[1] + ((to[1] - from[1]) * (-depth - from[0])) / (to[0] - from[0]));
  }
  return { text: lines.join('\n'), heights };
}

const REACH = Math.round(RADIUS / STEP);
const circle = (n: number): number => Math.sqrt(Math.max(0, RADIUS * RADIUS - n * STEP * n * STEP));

function closing(heights: readonly number[]): number[] {
  const centre = heights.map((_, k) => {
    let most = Number.NEGATIVE_INFINITY;
    for (let n = -REACH; n <= REACH; n += 1)
      if (k + n >= 0 && k + n < heights.length) most = Math.max(most, heights[k + n] + circle(n));
    return most;
  });
  return heights.map((_, k) => {
    let least = Number.POSITIVE_INFINITY;
    for (let n = -REACH; n <= REACH; n += 1)
      if (k + n >= 0 && k + n < centre.length) least = Math.min(least, centre[k + n] - circle(n));
    return least;
  });
}

/** Places of the nose centre along the compensated steps, close together. */
function centrePath(reading: ReturnType<typeof readProgram>): [z: number, x: number][] {
  const cursor = reading.cursor();
  const path: [number, number][] = [];
  let before: [number, number] | undefined;
  while (cursor.next()) {
    const here: [number, number] = [cursor.z + RADIUS, cursor.x + RADIUS];
    if ((cursor.flags & STEP_FLAG.compensated) !== 0 && before !== undefined) {
      const steps = Math.ceil(cursor.length_mm / 0.004);
      const sweep = cursor.sweep_rad;
      for (let n = 0; n <= steps; n += 1) {
        const share = steps === 0 ? 1 : n / steps;
        if (sweep > 0 || sweep < 0) {
          const [cz, cx] = [cursor.centre_first + RADIUS, cursor.centre_second + RADIUS];
          const radius = Math.hypot(before[0] - cz, before[1] - cx);
          const a = Math.atan2(before[1] - cx, before[0] - cz) + share * sweep;
          path.push([cz + radius * Math.cos(a), cx + radius * Math.sin(a)]);
        } else {
          path.push([before[0] + share * (here[0] - before[0]), before[1] + share * (here[1] - before[1])]);
        }
      }
    }
    before = here;
  }
  return path;
}

function leftBy(path: readonly (readonly [z: number, x: number])[], count: number): number[] {
  const left = new Array<number>(count).fill(Number.POSITIVE_INFINITY);
  for (const [z, x] of path) {
    const middle = Math.round(-z / STEP);
    for (let k = Math.max(0, middle - REACH - 1); k <= Math.min(count - 1, middle + REACH + 1); k += 1) {
      const off = -k * STEP - z;
      if (Math.abs(off) <= RADIUS) left[k] = Math.min(left[k], x - Math.sqrt(RADIUS * RADIUS - off * off));
    }
  }
  return left;
}
