import { factorOf } from './kernel/axis.ts';
import * as at from './kernel/box.ts';
import type { TableLook } from './kernel.ts';

/** A value that stands far outside its neighbours while a tenth (or less) of it stands between them. */
export interface Outlier {
  line: number;
  value: number;
  before: number;
  after: number;
  /** 10, 100 or 1000. */
  factor: number;
}

/** A value along an axis, and the line that gave it. */
interface At {
  value: number;
  line: number;
}

/** What is known of the values along one axis, each counted where it changes. */
export interface Axis {
  count: number;
  /** Greatest and second greatest distance from zero among different values. */
  most: number;
  second: number;
  /** The one that lies farthest out. */
  outlier: Outlier | undefined;
  /** The first two values and the last two: an outlier may stand where pieces of a program meet. */
  head: readonly At[];
  tail: readonly At[];
}

/** What the end points of moves say along X, or along Y where `second`: the values one after another. */
export function axisOf(look: TableLook, second: boolean, start: number, steps: number): Axis {
  const { box } = look;
  look.lookAlong(second, start, steps);
  const count = box[at.axisCount];
  const known = Math.min(2, count);
  const head: At[] = [];
  for (let k = 0; k < known; k++) head.push(valueAt(box, at.axisHead + 2 * k));
  const tail: At[] = [];
  for (let k = 2 - known; k < 2; k++) tail.push(valueAt(box, at.axisTail + 2 * k));
  return { count, most: box[at.axisMost], second: box[at.axisSecond], outlier: outlierIn(box), head, tail };
}

function valueAt(box: Float64Array, place: number): At {
  return { value: box[place], line: box[place + 1] };
}

function outlierIn(box: Float64Array): Outlier | undefined {
  const place = at.axisOutlier;
  const factor = box[place + 4];
  if (factor === 0) return undefined;
  return { ...valueAt(box, place), before: box[place + 2], after: box[place + 3], factor };
}

/** What two neighbouring pieces say along an axis; lines of the second are counted on by `by`. */
export function joinAxes(all: Axis | undefined, part: Axis, by: number): Axis {
  const outlier = part.outlier && by !== 0 ? { ...part.outlier, line: part.outlier.line + by } : part.outlier;
  const tail = movedOn(part.tail, by);
  if (!all) return { ...part, outlier, head: movedOn(part.head, by), tail };
  const most = Math.max(all.most, part.most);
  const low = Math.min(all.most, part.most);
  return {
    count: all.count + part.count,
    most,
    second: Math.max(low < most ? low : 0, all.second, part.second),
    outlier: farther(farther(all.outlier, outlierBetween(all.tail, part.head, by)), outlier),
    head: all.head.length < 2 ? [...all.head, ...movedOn(part.head, by)].slice(0, 2) : all.head,
    tail: tail.length < 2 ? [...all.tail, ...tail].slice(-2) : tail,
  };
}

/** The outlier among three values that stand across a border; lines behind it are counted on by `by`. */
function outlierBetween(tail: readonly At[], head: readonly At[], by: number): Outlier | undefined {
  if (tail.length === 0 || head.length === 0) return undefined;
  const last = tail[tail.length - 1];
  const next = head[0];
  const before =
    tail.length > 1 ? outlierOf(tail[tail.length - 2].value, last.value, next.value, last.line) : undefined;
  const behind =
    head.length > 1 ? outlierOf(last.value, next.value, head[1].value, next.line + by) : undefined;
  return farther(before, behind);
}

function movedOn(ends: readonly At[], by: number): readonly At[] {
  return by === 0 ? ends : ends.map(({ value, line }) => ({ value, line: line + by }));
}

/** The one farther out; of two as far the first. */
function farther(one: Outlier | undefined, other: Outlier | undefined): Outlier | undefined {
  if (!one || !other) return one ?? other;
  return Math.abs(other.value) > Math.abs(one.value) ? other : one;
}

function outlierOf(before: number, value: number, after: number, line: number): Outlier | undefined {
  const factor = factorOf(before, value, after);
  return factor === 0 ? undefined : { line, value, before, after, factor };
}
