import type { Column, ColumnResult } from './compute.ts';
import { compute, computeColumn, notNegative, positive, toothCount } from './compute.ts';
import type { Absent, Given } from './result.ts';

const chipLoadRules = { feed_mm_min: notNegative, spindle_rpm: positive, teeth: toothCount };
const load = (v: { feed_mm_min: number; spindle_rpm: number; teeth: number }) =>
  v.feed_mm_min / (v.spindle_rpm * v.teeth);

/**
 * Chip load: how far the tool advances for each tooth that passes. Single-point tools have one tooth, a twist drill two lips.
 * @formula fz = vf / (n z)
 * @units feed_mm_min mm/min, spindle_rpm rev/min, teeth count; gives mm a tooth
 * @range vf 0 or more, n over 0, z a whole number from 1
 * @source ISO 3002-3, feed per tooth
 */
export function chipLoad(given: { feed_mm_min: Given; spindle_rpm: Given; teeth: Given }): number | Absent {
  return compute(given, chipLoadRules, load);
}

/**
 * Chip load for many rows at once.
 * @formula fz = vf / (n z), row by row
 * @units as chipLoad; each input one number or an array
 * @range as chipLoad; rows outside it carry a reason
 * @source ISO 3002-3, feed per tooth
 */
export function chipLoadColumn(given: {
  feed_mm_min: Column;
  spindle_rpm: Column;
  teeth: Column;
}): ColumnResult {
  return computeColumn(given, chipLoadRules, load);
}

/**
 * Chip load out of a feed per revolution (G95).
 * @formula fz = f / z
 * @units feed_per_rev_mm mm/rev, teeth count; gives mm a tooth
 * @range f 0 or more, z a whole number from 1
 * @source ISO 3002-3, feed per tooth
 */
export function chipLoadFromFeedPerRev(given: { feed_per_rev_mm: Given; teeth: Given }): number | Absent {
  return compute(
    given,
    { feed_per_rev_mm: notNegative, teeth: toothCount },
    v => v.feed_per_rev_mm / v.teeth,
  );
}

/**
 * Feed per revolution out of a feed per minute.
 * @formula f = vf / n
 * @units feed_mm_min mm/min, spindle_rpm rev/min; gives mm/rev
 * @range vf 0 or more, n over 0
 * @source ISO 3002-3, feed
 */
export function feedPerRev(given: { feed_mm_min: Given; spindle_rpm: Given }): number | Absent {
  return compute(
    given,
    { feed_mm_min: notNegative, spindle_rpm: positive },
    v => v.feed_mm_min / v.spindle_rpm,
  );
}

/**
 * Feed per minute out of a feed per revolution (G95 to G94).
 * @formula vf = f n
 * @units feed_per_rev_mm mm/rev, spindle_rpm rev/min; gives mm/min
 * @range f and n 0 or more
 * @source ISO 3002-3, feed speed
 */
export function feedFromFeedPerRev(given: { feed_per_rev_mm: Given; spindle_rpm: Given }): number | Absent {
  return compute(
    given,
    { feed_per_rev_mm: notNegative, spindle_rpm: notNegative },
    v => v.feed_per_rev_mm * v.spindle_rpm,
  );
}

/**
 * Feed per minute that gives a wanted chip load.
 * @formula vf = fz z n
 * @units chip_load_mm mm a tooth, teeth count, spindle_rpm rev/min; gives mm/min
 * @range fz and n 0 or more, z a whole number from 1
 * @source ISO 3002-3, feed speed
 */
export function feedForChipLoad(given: {
  chip_load_mm: Given;
  teeth: Given;
  spindle_rpm: Given;
}): number | Absent {
  return compute(
    given,
    { chip_load_mm: notNegative, teeth: toothCount, spindle_rpm: notNegative },
    v => v.chip_load_mm * v.teeth * v.spindle_rpm,
  );
}

/**
 * Feed along the path that an inverse-time block (G93) makes.
 * @formula vf = L F
 * @units length_mm mm, inverse_time_per_min 1/min; gives mm/min
 * @range L 0 or more, F over 0
 * @source NISTIR 6556 (RS274/NGC), G93
 */
export function feedFromInverseTime(given: {
  length_mm: Given;
  inverse_time_per_min: Given;
}): number | Absent {
  return compute(
    given,
    { length_mm: notNegative, inverse_time_per_min: positive },
    v => v.length_mm * v.inverse_time_per_min,
  );
}

/**
 * F word of an inverse-time block (G93) for a wanted feed along a path.
 * @formula F = vf / L
 * @units length_mm mm, feed_mm_min mm/min; gives 1/min
 * @range L and vf over 0
 * @source NISTIR 6556 (RS274/NGC), G93
 */
export function inverseTimeForFeed(given: { length_mm: Given; feed_mm_min: Given }): number | Absent {
  return compute(given, { length_mm: positive, feed_mm_min: positive }, v => v.feed_mm_min / v.length_mm);
}

/**
 * Feed at the edge when only a rotary axis moves.
 * @formula vf = omega pi r / 180
 * @units rotary_feed_deg_min deg/min, radius_mm mm; gives mm/min
 * @range both 0 or more
 * @source arc length
 */
export function feedOfRotary(given: { rotary_feed_deg_min: Given; radius_mm: Given }): number | Absent {
  return compute(
    given,
    { rotary_feed_deg_min: notNegative, radius_mm: notNegative },
    v => (v.rotary_feed_deg_min * Math.PI * v.radius_mm) / 180,
  );
}

/**
 * Rotary feed that moves the edge at a wanted feed.
 * @formula omega = 180 vf / (pi r)
 * @units feed_mm_min mm/min, radius_mm mm; gives deg/min
 * @range vf 0 or more, r over 0
 * @source arc length
 */
export function rotaryForFeed(given: { feed_mm_min: Given; radius_mm: Given }): number | Absent {
  return compute(
    given,
    { feed_mm_min: notNegative, radius_mm: positive },
    v => (180 * v.feed_mm_min) / (Math.PI * v.radius_mm),
  );
}
