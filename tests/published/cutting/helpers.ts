import type { Absent, SpindleSuggestion } from '../../../server/src/cutting/index.ts';
import { isAbsent } from '../../../server/src/cutting/index.ts';

/** One published or exactly known figure, and how the library computes it. */
export interface Check {
  readonly id: string;
  readonly what: string;
  /** The formula at full precision. */
  readonly expected: number;
  /** The figure as printed, where there is one. */
  readonly published?: number;
  /** How near the library must come to `expected`, 1e-6 when left out; the handbook of dr-12 prints 63025 for 63025.36. */
  readonly closeness?: number;
  readonly tolerance: { readonly rel: number } | { readonly abs: number };
  /** seen: the printed figure was read; memory: recalled; identity: mathematics; derived: computed from the named formula. */
  readonly sure: string;
  readonly source: string;
  readonly gives: () => number | Absent;
}

type Result = number | Absent;
export const inch = (value: number): number => value * 25.4;
export const sfm = (value: number): number => value * 0.3048;
const over = (result: Result, f: (value: number) => number): Result =>
  isAbsent(result) ? result : f(result);
export const toInch = (result: Result): Result => over(result, value => value / 25.4);
export const times = (result: Result, factor: number): Result => over(result, value => value * factor);
export const plus = (one: number, result: Result): Result => over(result, value => one + value);
export const ratio = (a: Result, b: Result): Result => over(a, x => (isAbsent(b) ? Number.NaN : x / b));

/** One number of a result with several. */
export function part<T extends object, K extends keyof T>(result: T | Absent, key: K): Result {
  if (isAbsent(result)) return result;
  const value = result[key];
  if (typeof value !== 'number') throw new Error(`${String(key)} is not a number`);
  return value;
}

export function pocket(result: readonly SpindleSuggestion[] | Absent, k: number): Result {
  if (isAbsent(result)) return result;
  const found = result.find(one => one.k === k);
  if (found === undefined) throw new Error(`no pocket ${k}`);
  return found.spindle_rpm;
}
