import assert from 'node:assert/strict';
import type { Absent, Estimate } from '../../../server/src/cutting/index.ts';
import { isAbsent, isEstimate } from '../../../server/src/cutting/index.ts';

/** The number of a result; an absence fails the test with its reason. */
export function known(result: number | Estimate | Absent): number {
  if (isAbsent(result)) throw new Error(result.absent);
  return isEstimate(result) ? result.value : result;
}

/** A result with several numbers; an absence fails the test with its reason. */
export function present<T extends object>(result: T | Absent): T {
  if (isAbsent(result)) throw new Error(result.absent);
  return result as T;
}

/** Within a share of the other number. */
export function near(actual: number, expected: number, share = 1e-6, what = ''): void {
  const error = Math.abs(actual - expected);
  assert.ok(error <= share * Math.abs(expected) + 1e-300, `${what} ${actual} against ${expected}`);
}

/** Integral by the midpoint rule: the plain slow model for everything with an integral. */
export function midpoint(f: (x: number) => number, from: number, to: number, steps = 20_000): number {
  const width = (to - from) / steps;
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += f(from + (i + 0.5) * width);
  return sum * width;
}

export const rad = (deg: number): number => (deg * Math.PI) / 180;
