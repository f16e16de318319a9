import { type Block, L } from './block.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { KIND } from './steps.ts';
import { AXIS, arrive, readTarget, Target } from './targets.ts';

/** How far the chords of a spline may stand off it, mm, and how many there may be. */
const CHORD_MM = 0.001;
const MOST_CHORDS = 500;

const target = new Target();

/**
 * G5 and G5.1 of the report's successor in XY, written as chords: a cubic with its control points I J from the start and P Q
 * from the end (I J absent after another G5: the direction in which that one ended), a quadratic with one control point I J.
 */
export function executeSpline(machine: Machine, block: Block, cubic: boolean): void {
  const { v } = machine.state;
  const start = [v[S.x], v[S.y], v[S.z]];
  readTarget(machine, block, target);
  const end = [target.x, target.y, target.z];
  const length = (letter: number) => {
    const at = block.index(letter);
    return at < 0 ? Number.NaN : machine.length(block, at);
  };
  const given = [length(L.I), length(L.J)];
  const stated = !Number.isNaN(given[0]) || !Number.isNaN(given[1]);
  const first = stated
    ? given.map(value => (Number.isNaN(value) ? 0 : value))
    : [v[S.spline_i], v[S.spline_j]];
  const last = [length(L.P), length(L.Q)];
  if (v[S.plane] !== 17 || v[S.turned] !== 0 || target.others !== 0 || (target.named & AXIS.z) !== 0) {
    machine.problem(
      'not-followed',
      0,
      block.length,
      'a spline is only followed in XY, without turned coordinates',
    );
    unfollowed(machine);
    return;
  }
  const missing = cubic ? [...first, ...last] : stated ? [] : [Number.NaN];
  if (missing.some(Number.isNaN)) {
    const wanted = cubic ? 'P and Q (and I and J in the first block)' : 'I or J';
    machine.problem('spline-word-missing', 0, block.length, `the spline has no ${wanted}`);
    unfollowed(machine);
    return;
  }
  const one = [start[0] + first[0], start[1] + first[1]];
  const points = cubic ? [start, one, [end[0] + last[0], end[1] + last[1]], end] : [start, one, end];
  writeChords(machine, points);
  arrive(machine, target);
  v[S.spline_i] = cubic ? -last[0] : Number.NaN;
  v[S.spline_j] = cubic ? -last[1] : Number.NaN;
}

/** The end is known, the path is not. */
function unfollowed(machine: Machine): void {
  machine.lose();
  arrive(machine, target);
  machine.place();
}

function writeChords(machine: Machine, points: readonly (readonly number[])[]): void {
  const { v } = machine.state;
  const degree = points.length - 1;
  let bend = 0;
  for (let i = 0; i + 2 <= degree; i += 1) {
    const [a, b, c] = [points[i], points[i + 1], points[i + 2]];
    bend = Math.max(bend, Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]));
  }
  // A chord over 1/n of the parameter stands off by at most |second derivative| / (8 n^2).
  const wanted = Math.ceil(Math.sqrt((degree * (degree - 1) * bend) / (8 * CHORD_MM)));
  const chords = Number.isNaN(wanted) ? 1 : Math.min(MOST_CHORDS, Math.max(1, wanted));
  for (let n = 1; n < chords; n += 1) {
    const [x, y] = bezier(points, n / chords);
    v[S.x] = x;
    v[S.y] = y;
    machine.step(KIND.feed);
  }
  const end = points[degree];
  v[S.x] = end[0];
  v[S.y] = end[1];
  machine.step(KIND.feed);
}

/** A point of the curve, by repeated division of its control polygon. */
function bezier(points: readonly (readonly number[])[], share: number): readonly number[] {
  let row = points;
  while (row.length > 1) {
    row = row
      .slice(1)
      .map((to, i) => [row[i][0] + (to[0] - row[i][0]) * share, row[i][1] + (to[1] - row[i][1]) * share]);
  }
  return row[0];
}
