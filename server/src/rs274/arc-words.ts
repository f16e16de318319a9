import { type Block, L } from './block.ts';
import { ARC_TOLERANCE, type ArcTolerance, type ArcWords, arcFromWords } from './geometry/arc.ts';
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
  const { arc, problems } = arcFromWords({
    plane: planeOf(v),
    clockwise,
    start,
    end,
    words: centreWords(machine, block, absolute),
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

function centreWords(machine: Machine, block: Block, absolute: boolean): ArcWords {
  const { v } = machine.state;
  const words: { i?: number; j?: number; k?: number; r?: number; p?: number } = {};
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
