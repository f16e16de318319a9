import { KIND, type StepTable } from '../rs274/steps.ts';

// Taken out of the table once: the loops below run over every step.
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

/** What is known of the values along one axis. */
export interface Axis {
  count: number;
  /** Greatest and second greatest distance from zero among different values. */
  most: number;
  second: number;
  outliers: readonly Outlier[];
}

const KEPT = 20;
const FACTORS = [10, 100, 1000];

/** What the end points of moves say along one axis: the values one after another, each counted where it changes. */
export function axisOf(table: StepTable, values: Float64Array, start: number): Axis {
  const { kind, line, count: steps } = table;
  const outliers: Outlier[] = [];
  let count = 0;
  let most = 0;
  let second = 0;
  let before = Number.NaN;
  let value = Number.NaN;
  let value_line = -1;
  let last = +start;
  for (let i = 0; i < steps; i++) {
    const after = values[i];
    if (after === last) continue;
    last = after;
    if (kind[i] > TAP) continue;
    const size = Math.abs(after);
    if (!(Math.abs(value) < 5 * size) && outliers.length < KEPT) {
      const found = outlierOf(before, value, after, value_line);
      if (found) outliers.push(found);
    }
    before = value;
    value = after;
    value_line = line[i];
    count++;
    if (size > most) {
      second = most;
      most = size;
    } else if (size > second && size < most) second = size;
  }
  return { count, most, second, outliers };
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
