import { compute, positive } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

/** Overhang over diameter that kinds of boring bar bear. */
export const BORING_BAR_LIMITS = {
  steel: { low: 3, value: 4, high: 4 },
  carbide: { low: 5, value: 6, high: 6 },
  damped: { low: 7, value: 8.5, high: 10 },
  'tuned damper': { low: 10, value: 12, high: 14 },
} as const;
export type BoringBarKind = keyof typeof BORING_BAR_LIMITS;

/**
 * Greatest overhang of a boring bar.
 * @formula limit = ratio x d: steel 4, carbide 6, damped 7 to 10, tuned damper up to 14
 * @units diameter_mm mm, kind by name; gives mm as an estimate
 * @range d over 0
 * @source common practice, seen in two guides
 */
export function boringBarOverhang(given: { diameter_mm: Given; kind: BoringBarKind }): Estimate | Absent {
  const limit = Object.hasOwn(BORING_BAR_LIMITS, given.kind) ? BORING_BAR_LIMITS[given.kind] : undefined;
  if (limit === undefined) return absent('kind of bar not known', ['kind']);
  return compute({ diameter_mm: given.diameter_mm }, { diameter_mm: positive }, ({ diameter_mm: d }) => ({
    value: limit.value * d,
    low: limit.low * d,
    high: limit.high * d,
    basis: 'common practice, two guides',
  }));
}

/**
 * Smallest bore that a bar goes into with room for chips.
 * @formula least bore = 1.3 to 1.5 bar diameters
 * @units diameter_mm mm of the bar; gives mm as an estimate
 * @range d over 0
 * @source common practice, no source
 */
export function leastBoreForBar(given: { diameter_mm: Given }): Estimate | Absent {
  return compute(given, { diameter_mm: positive }, ({ diameter_mm: d }) => ({
    value: 1.4 * d,
    low: 1.3 * d,
    high: 1.5 * d,
    basis: 'common practice, no source',
  }));
}
