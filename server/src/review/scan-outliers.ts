import { KIND, type StepTable } from '../rs274/steps.ts';

// Taken out of the table once: the loop below runs over every step.
const { tap: TAP } = KIND;

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

const FACTORS = [10, 100, 1000];

/** What the end points of moves say along one axis: the values one after another. */
export function axisOf(table: StepTable, values: Float64Array, start: number): Axis {
  const { kind, line, count: steps } = table;
  const head: At[] = [];
  let outlier: Outlier | undefined;
  let count = 0;
  let most = 0;
  let second = 0;
  let before = Number.NaN;
  let before_line = -1;
  let value = Number.NaN;
  let value_line = -1;
  let last = +start;
  for (let i = 0; i < steps; i++) {
    const after = values[i];
    if (after === last) continue;
    last = after;
    if (kind[i] > TAP) continue;
    const size = Math.abs(after);
    if (!(Math.abs(value) < 5 * size))
      outlier = farther(outlier, outlierOf(before, value, after, value_line));
    if (count < 2) head.push({ value: after, line: line[i] });
    before = value;
    before_line = value_line;
    value = after;
    value_line = line[i];
    count++;
    if (size > most) {
      second = most;
      most = size;
    } else if (size > second && size < most) second = size;
  }
  const ends = [
    { value: before, line: before_line },
    { value, line: value_line },
  ];
  return { count, most, second, outlier, head, tail: ends.slice(2 - Math.min(2, count)) };
}

/** What two neighbouring pieces say along an axis; lines of the second are counted on by `by`. */
export function joinAxes(all: Axis | undefined, part: Axis, by: number): Axis {
  const head = movedOn(part.head, by);
  const outlier = part.outlier && by !== 0 ? { ...part.outlier, line: part.outlier.line + by } : part.outlier;
  if (!all) return { ...part, outlier, head, tail: movedOn(part.tail, by) };
  const most = Math.max(all.most, part.most);
  const low = Math.min(all.most, part.most);
  return {
    count: all.count + part.count,
    most,
    second: Math.max(low < most ? low : 0, all.second, part.second),
    outlier: farther(farther(all.outlier, outlierBetween(all.tail, head)), outlier),
    head: all.head.length < 2 ? [...all.head, ...head].slice(0, 2) : all.head,
    tail: part.tail.length < 2 ? [...all.tail, ...movedOn(part.tail, by)].slice(-2) : movedOn(part.tail, by),
  };
}

/** The outlier among three values that stand across a border. */
function outlierBetween(tail: readonly At[], head: readonly At[]): Outlier | undefined {
  const across = [...tail, ...head];
  let found: Outlier | undefined;
  for (let i = Math.max(1, tail.length - 1); i <= tail.length && i + 1 < across.length; i++)
    found = farther(
      found,
      outlierOf(across[i - 1].value, across[i].value, across[i + 1].value, across[i].line),
    );
  return found;
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
  if (!(Math.abs(value) >= 5 * Math.max(Math.abs(before), Math.abs(after))) || before === after)
    return undefined;
  const low = Math.min(before, after);
  const high = Math.max(before, after);
  for (const factor of FACTORS) {
    const meant = value / factor;
    if (meant >= low && meant <= high) return { line, value, before, after, factor };
  }
  return undefined;
}
