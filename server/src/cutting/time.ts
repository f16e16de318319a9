import type { Column, ColumnResult } from './compute.ts';
import { compute, computeColumn, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

const moveRules = { length_mm: notNegative, feed_mm_min: positive };
const move = (v: { length_mm: number; feed_mm_min: number }) => (60 * v.length_mm) / v.feed_mm_min;

/**
 * Time of a feed move at its programmed feed, without acceleration.
 * @formula t = 60 L / vf
 * @units length_mm mm, feed_mm_min mm/min; gives s
 * @range L 0 or more, vf over 0
 * @source definition
 */
export function moveTime(given: { length_mm: Given; feed_mm_min: Given }): number | Absent {
  return compute(given, moveRules, move);
}

/**
 * Time of feed moves for many rows at once.
 * @formula t = 60 L / vf, row by row
 * @units as moveTime; each input one number or an array; gives s
 * @range as moveTime; rows outside it carry a reason
 * @source definition
 */
export function moveTimeColumn(given: { length_mm: Column; feed_mm_min: Column }): ColumnResult {
  return computeColumn(given, moveRules, move);
}

/**
 * Time of a move under feed per revolution (G95).
 * @formula t = 60 L / (f n)
 * @units length_mm mm, feed_per_rev_mm mm/rev, spindle_rpm rev/min; gives s
 * @range L 0 or more, f and n over 0
 * @source definition; NISTIR 6556
 */
export function moveTimePerRev(given: {
  length_mm: Given;
  feed_per_rev_mm: Given;
  spindle_rpm: Given;
}): number | Absent {
  return compute(
    given,
    { length_mm: notNegative, feed_per_rev_mm: positive, spindle_rpm: positive },
    v => (60 * v.length_mm) / (v.feed_per_rev_mm * v.spindle_rpm),
  );
}

/**
 * Time of an inverse-time block (G93).
 * @formula t = 60 / F
 * @units inverse_time_per_min 1/min; gives s
 * @range F over 0
 * @source NISTIR 6556 (RS274/NGC), G93
 */
export function inverseTimeMoveTime(given: { inverse_time_per_min: Given }): number | Absent {
  return compute(given, { inverse_time_per_min: positive }, v => 60 / v.inverse_time_per_min);
}

/**
 * Time of a straight turning pass at constant speed.
 * @formula t = 60 pi D L / (1000 f vc)
 * @units diameter_mm mm, length_mm mm, feed_per_rev_mm mm/rev, surface_speed_m_min m/min; gives s
 * @range L 0 or more, others over 0
 * @source definition
 */
export function turningTime(given: {
  diameter_mm: Given;
  length_mm: Given;
  feed_per_rev_mm: Given;
  surface_speed_m_min: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    length_mm: notNegative,
    feed_per_rev_mm: positive,
    surface_speed_m_min: positive,
  };
  return compute(
    given,
    rules,
    v => (0.06 * Math.PI * v.diameter_mm * v.length_mm) / (v.feed_per_rev_mm * v.surface_speed_m_min),
  );
}

/**
 * Distance that a cutter travels from first touch to full width of cut along a straight wall (slab or side milling).
 * @formula A = sqrt(ae (D - ae)); for ae over D/2 it is D/2
 * @units diameter_mm mm, radial_width_mm mm; gives mm
 * @range D over 0, ae from 0 to D
 * @source circle geometry; Groover, Fundamentals of Modern Manufacturing
 */
export function millingApproach(given: { diameter_mm: Given; radial_width_mm: Given }): number | Absent {
  return compute(given, { diameter_mm: positive, radial_width_mm: notNegative }, v => {
    if (v.radial_width_mm > v.diameter_mm) return absent('width of cut is more than the tool diameter');
    if (2 * v.radial_width_mm >= v.diameter_mm) return v.diameter_mm / 2;
    return Math.sqrt(v.radial_width_mm) * Math.sqrt(v.diameter_mm - v.radial_width_mm);
  });
}

/**
 * Approach of a slab or side mill by the textbook's short form.
 * @formula A = sqrt(D ae), high against the exact sqrt(ae (D - ae))
 * @units diameter_mm mm, radial_width_mm mm; gives mm
 * @range D over 0, ae from 0 to D; 3 % high at ae/D 0.06
 * @source Kalpakjian and Schmid, Manufacturing Engineering and Technology
 */
export function millingApproachShort(given: { diameter_mm: Given; radial_width_mm: Given }): number | Absent {
  return compute(given, { diameter_mm: positive, radial_width_mm: notNegative }, v =>
    v.radial_width_mm > v.diameter_mm
      ? absent('width of cut is more than the tool diameter')
      : Math.sqrt(v.diameter_mm) * Math.sqrt(v.radial_width_mm),
  );
}
