import { arcTolerance } from './arc-words.ts';
import { CENTRE, I, J, K, R, values } from './fast-words.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

const SAME_POINT_MM = 1e-7;
const TURN = 2 * Math.PI;

/** Start and end of an arc, x y z each: numbers passed without making objects of them. */
export const ends = new Float64Array(6);
const CENTRES = [I, J, K];

/**
 * Adds the arc from `ends` with centre words in `values`; returns its row, or -1 where the long way has to look at it:
 * words of another plane, ends that are not known or not on the circle.
 */
export function fastArc(machine: Machine, seen: number, motion: number): number {
  const { v } = machine.state;
  const plane = v[S.plane];
  if (plane === 19) return -1;
  const first = plane === 17 ? 0 : 2;
  const second = plane === 17 ? 1 : 0;
  let a = 0;
  let b = 0;
  if ((seen & CENTRE) === 1 << R) {
    const side = centreSide(first, second, motion);
    // Written so that what is not known fails it.
    if (!(Math.abs(side) <= Number.MAX_VALUE)) return -1;
    const along = ends[3 + first] - ends[first];
    const across = ends[3 + second] - ends[second];
    a = along / 2 - side * across;
    b = across / 2 + side * along;
  } else {
    const first_bit = 1 << CENTRES[first];
    const second_bit = 1 << CENTRES[second];
    if ((seen & CENTRE & ~(first_bit | second_bit)) !== 0 || (seen & (first_bit | second_bit)) === 0)
      return -1;
    if ((seen & first_bit) !== 0) a = values[CENTRES[first]];
    if ((seen & second_bit) !== 0) b = values[CENTRES[second]];
  }
  const centre_first = ends[first] + a;
  const centre_second = ends[second] + b;
  const end_first = ends[3 + first] - centre_first;
  const end_second = ends[3 + second] - centre_second;
  const start_radius = Math.sqrt(a * a + b * b);
  const end_radius = Math.sqrt(end_first * end_first + end_second * end_second);
  const { floor_mm, relative, cap_mm } = arcTolerance(machine);
  const allowed = Math.max(floor_mm, Math.min(cap_mm, relative * Math.max(start_radius, end_radius)));
  const off = Math.abs(start_radius - end_radius);
  // Written so that a position that is not known fails it.
  if (!(off <= allowed && start_radius >= SAME_POINT_MM && end_radius >= SAME_POINT_MM)) return -1;
  const cross = -a * end_second + b * end_first;
  const dot = -a * end_first - b * end_second;
  const moved_first = end_first + a;
  const moved_second = end_second + b;
  const chord = moved_first * moved_first + moved_second * moved_second;
  let sweep = chord < SAME_POINT_MM * SAME_POINT_MM ? 0 : Math.atan2(cross, dot);
  if (motion === 30) {
    if (sweep <= 0) sweep += TURN;
  } else if (sweep >= 0) sweep -= TURN;
  return machine.table.addArc(centre_first, centre_second, sweep);
}

/** How far the centre of an arc with R lies left of its chord, in chords; NaN where there is no such arc or it is a close call. */
function centreSide(first: number, second: number, motion: number): number {
  const radius = Math.abs(values[R]);
  const along = ends[3 + first] - ends[first];
  const across = ends[3 + second] - ends[second];
  const chord = Math.sqrt(along * along + across * across);
  const half = chord / 2;
  if (!(radius > half && chord >= SAME_POINT_MM && radius >= SAME_POINT_MM)) return Number.NaN;
  const side = (motion === 30) === values[R] > 0 ? 1 : -1;
  return (side * Math.sqrt(radius * radius - half * half)) / chord;
}
