import { compute, positive } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';

/** Stock to leave on the diameter for reaming, mm, by hole diameter. */
const ALLOWANCE: readonly (readonly [number, number, number])[] = [
  [4.3, 0.13, 0.25],
  [7, 0.2, 0.3],
  [22, 0.25, 0.4],
  [Number.POSITIVE_INFINITY, 0.4, 0.75],
];

/**
 * Stock to leave on the diameter for reaming.
 * @formula table: to 4.3 mm 0.13 to 0.25; to 7 mm 0.2 to 0.3; to 22 mm 0.25 to 0.4; above 0.4 to 0.75
 * @units diameter_mm mm; gives mm as an estimate
 * @range D over 0
 * @source a published inch table, converted; common practice
 */
export function reamingAllowance(given: { diameter_mm: Given }): Estimate | Absent {
  return compute(given, { diameter_mm: positive }, v => {
    const [, low, high] = ALLOWANCE.find(([to]) => v.diameter_mm <= to) as readonly [number, number, number];
    return { value: (low + high) / 2, low, high, basis: 'published table of reaming allowances' };
  });
}

/**
 * Speed and feed of reaming against drilling the same metal.
 * @formula speed 0.5 to 0.7 of drilling in ferrous metal; feed 2 to 3 times drilling
 * @units surface_speed_m_min m/min and feed_per_rev_mm mm/rev of drilling; gives estimates in the same units
 * @range both over 0
 * @source a published inch table; common practice
 */
export function reamingFromDrilling(given: {
  surface_speed_m_min: Given;
  feed_per_rev_mm: Given;
}): { readonly surface_speed_m_min: Estimate; readonly feed_per_rev_mm: Estimate } | Absent {
  const basis = 'share of drilling, published table';
  return compute(given, { surface_speed_m_min: positive, feed_per_rev_mm: positive }, v => ({
    surface_speed_m_min: {
      value: 0.6 * v.surface_speed_m_min,
      low: 0.5 * v.surface_speed_m_min,
      high: 0.7 * v.surface_speed_m_min,
      basis,
    },
    feed_per_rev_mm: {
      value: 2.5 * v.feed_per_rev_mm,
      low: 2 * v.feed_per_rev_mm,
      high: 3 * v.feed_per_rev_mm,
      basis,
    },
  }));
}
