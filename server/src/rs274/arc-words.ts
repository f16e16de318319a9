import { type Block, L } from './block.ts';
import { isChanged, PLANE, radiusFactor, toReal, turnDistance, turnsOver } from './coordinate-change.ts';
import { ARC_TOLERANCE, type ArcTolerance, arcFromWords } from './geometry/arc.ts';
import type { Plane, Point } from './geometry/plane.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

/** The turning part of an arc, all NaN where its ends are not known. */
export interface TurnOfBlock {
  readonly centre_first: number;
  readonly centre_second: number;
  readonly sweep_rad: number;
}

const UNKNOWN: TurnOfBlock = { centre_first: Number.NaN, centre_second: Number.NaN, sweep_rad: Number.NaN };

/** The arc of a G2 or G3 block; what is wrong is reported. Undefined when the block does not describe one. */
export function arcOfBlock(
  machine: Machine,
  block: Block,
  clockwise: boolean,
  start: Point,
  end: Point,
): TurnOfBlock | undefined {
  const { v } = machine.state;
  const absolute = v[S.arc_absolute] === 1;
  const changed = isChanged(v);
  const words = centreWords(machine, block, absolute);
  if (changed) changeWords(machine, words, absolute);
  const { arc, problems } = arcFromWords({
    plane: planeOf(v),
    clockwise: changed && turnsOver(v, v[S.plane]) ? !clockwise : clockwise,
    start,
    end,
    words,
    absolute_centre: absolute,
    tolerance: arcTolerance(machine),
  });
  let unknown = false;
  for (const problem of problems) {
    if (problem.code === 'arc-position-unknown') unknown = true;
    else machine.problem(problem.code, 0, block.length, problem.message);
  }
  return arc ?? (unknown ? UNKNOWN : undefined);
}

export function planeOf(v: Float64Array): Plane {
  return v[S.plane] === 17 ? 'xy' : v[S.plane] === 18 ? 'zx' : 'yz';
}

/** Tolerance of the end point of an arc for a dialect and the units in force. */
export function arcTolerance(machine: Machine): ArcTolerance {
  if (!machine.report) return ARC_TOLERANCE.common;
  return machine.state.v[S.inch] === 1 ? ARC_TOLERANCE.successor_inch : ARC_TOLERANCE.successor_mm;
}

interface CentreWords {
  i?: number;
  j?: number;
  k?: number;
  r?: number;
  p?: number;
}

function centreWords(machine: Machine, block: Block, absolute: boolean): CentreWords {
  const { v } = machine.state;
  const words: CentreWords = {};
  const [i, j, k, r, p] = [L.I, L.J, L.K, L.R, L.P].map(letter => block.index(letter));
  if (i >= 0) {
    const along = absolute ? machine.lengthAlongX(block, i) : machine.length(block, i);
    words.i = absolute ? along + v[S.local_x] + v[S.set_x] : along;
  }
  if (j >= 0) words.j = machine.length(block, j) + (absolute ? v[S.local_y] + v[S.set_y] : 0);
  if (k >= 0) words.k = machine.length(block, k) + (absolute ? v[S.local_z] + v[S.set_z] : 0);
  if (r >= 0) words.r = machine.length(block, r);
  if (p >= 0 && machine.report) words.p = block.value[p];
  return words;
}

const centre = new Float64Array(3);
const NAMES = ['i', 'j', 'k'] as const;

/** Centre and radius words under mirror, scaling and rotation. A circle scaled apart in its two axes is not followed. */
function changeWords(machine: Machine, words: CentreWords, absolute: boolean): void {
  const { v } = machine.state;
  const factor = radiusFactor(v, v[S.plane]);
  if (words.r !== undefined) words.r *= factor;
  if (Number.isNaN(factor)) {
    machine.problem('not-followed', 0, 0, 'an arc under two different scales is not followed');
  }
  const [first, second] = PLANE[v[S.plane] - 17];
  if (words[NAMES[first]] === undefined && words[NAMES[second]] === undefined) return;
  for (let axis = 0; axis < 3; axis += 1) centre[axis] = words[NAMES[axis]] ?? 0;
  if (absolute) toReal(v, centre);
  else turnDistance(v, centre);
  words[NAMES[first]] = centre[first] * (Number.isNaN(factor) ? Number.NaN : 1);
  words[NAMES[second]] = centre[second];
}
