import { acosClamped } from './angles.ts';
import type { Column, ColumnResult } from './compute.ts';
import { compute, computeColumn, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

const millingRules = { radial_width_mm: notNegative, axial_depth_mm: notNegative, feed_mm_min: notNegative };
const milling = (v: { radial_width_mm: number; axial_depth_mm: number; feed_mm_min: number }) =>
  (v.radial_width_mm * v.axial_depth_mm * v.feed_mm_min) / 1000;

/**
 * Metal removal rate of a milling cut.
 * @formula Q = ae ap vf / 1000
 * @units radial_width_mm mm, axial_depth_mm mm, feed_mm_min mm/min; gives cm3/min
 * @range all 0 or more
 * @source volume swept per minute (definition)
 */
export function millingRemoval(given: {
  radial_width_mm: Given;
  axial_depth_mm: Given;
  feed_mm_min: Given;
}): number | Absent {
  return compute(given, millingRules, milling);
}

/**
 * Metal removal rate of milling for many rows at once.
 * @formula Q = ae ap vf / 1000, row by row
 * @units as millingRemoval; each input one number or an array
 * @range as millingRemoval; rows outside it carry a reason
 * @source volume swept per minute (definition)
 */
export function millingRemovalColumn(given: {
  radial_width_mm: Column;
  axial_depth_mm: Column;
  feed_mm_min: Column;
}): ColumnResult {
  return computeColumn(given, millingRules, milling);
}

/**
 * Metal removal rate of outside turning, exact: the ring between the two diameters.
 * @formula Q = pi (D - ap) ap f n / 1000, that is vc at the mean diameter times ap f
 * @units diameter_mm mm (before the cut), axial_depth_mm mm (depth of cut on the radius), feed_per_rev_mm mm/rev, spindle_rpm rev/min; gives cm3/min
 * @range D over 0, ap from 0 to D/2, f and n 0 or more
 * @source volume of the ring cut per revolution (definition)
 */
export function turningRemoval(given: {
  diameter_mm: Given;
  axial_depth_mm: Given;
  feed_per_rev_mm: Given;
  spindle_rpm: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    axial_depth_mm: notNegative,
    feed_per_rev_mm: notNegative,
    spindle_rpm: notNegative,
  };
  return compute(given, rules, v =>
    v.axial_depth_mm > v.diameter_mm / 2
      ? absent('depth of cut is more than the radius of the work')
      : (Math.PI *
          (v.diameter_mm - v.axial_depth_mm) *
          v.axial_depth_mm *
          v.feed_per_rev_mm *
          v.spindle_rpm) /
        1000,
  );
}

/**
 * Metal removal rate out of surface speed, depth and feed (turning, boring, facing, the usual short form).
 * @formula Q = vc ap f; with vc at the outer diameter it is high by about ap/D
 * @units surface_speed_m_min m/min, axial_depth_mm mm, feed_per_rev_mm mm/rev; gives cm3/min
 * @range all 0 or more
 * @source volume swept per minute (definition)
 */
export function removalFromSpeed(given: {
  surface_speed_m_min: Given;
  axial_depth_mm: Given;
  feed_per_rev_mm: Given;
}): number | Absent {
  return compute(
    given,
    { surface_speed_m_min: notNegative, axial_depth_mm: notNegative, feed_per_rev_mm: notNegative },
    v => v.surface_speed_m_min * v.axial_depth_mm * v.feed_per_rev_mm,
  );
}

/**
 * Metal removal rate of drilling, from solid or opening a hole that is there.
 * @formula Q = pi (D^2 - d^2) f n / 4000
 * @units diameter_mm mm, hole_mm mm (0 when left out: from solid), feed_per_rev_mm mm/rev, spindle_rpm rev/min; gives cm3/min
 * @range D over 0, d from 0 to D, f and n 0 or more
 * @source area of the ring times the feed (definition)
 */
export function drillingRemoval(given: {
  diameter_mm: Given;
  hole_mm?: Given;
  feed_per_rev_mm: Given;
  spindle_rpm: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    hole_mm: { ...notNegative, otherwise: 0 },
    feed_per_rev_mm: notNegative,
    spindle_rpm: notNegative,
  };
  return compute(given, rules, v =>
    v.hole_mm > v.diameter_mm
      ? absent('the hole is larger than the tool')
      : (Math.PI *
          (v.diameter_mm - v.hole_mm) *
          (v.diameter_mm + v.hole_mm) *
          v.feed_per_rev_mm *
          v.spindle_rpm) /
        4000,
  );
}

/**
 * Metal removal rate of grooving and parting off at one diameter.
 * @formula Q = w f vc
 * @units width_mm mm, feed_per_rev_mm mm/rev, surface_speed_m_min m/min at that diameter; gives cm3/min
 * @range all 0 or more
 * @source volume swept per minute (definition)
 */
export function groovingRemoval(given: {
  width_mm: Given;
  feed_per_rev_mm: Given;
  surface_speed_m_min: Given;
}): number | Absent {
  return compute(
    given,
    { width_mm: notNegative, feed_per_rev_mm: notNegative, surface_speed_m_min: notNegative },
    v => v.width_mm * v.feed_per_rev_mm * v.surface_speed_m_min,
  );
}

/**
 * Metal removal rate of plunge milling along a straight wall: the part of the cutter's circle that lies in the stock.
 * @formula Q = (R^2 acos(1 - ae/R) - (R - ae) sqrt(2 R ae - ae^2)) vf / 1000
 * @units diameter_mm mm, radial_width_mm mm (how far the circle reaches into the wall), feed_mm_min mm/min along the tool's axis; gives cm3/min
 * @range D over 0, ae from 0 to D, vf 0 or more
 * @source area of a circular segment (geometry)
 */
export function plungeRemoval(given: {
  diameter_mm: Given;
  radial_width_mm: Given;
  feed_mm_min: Given;
}): number | Absent {
  const rules = { diameter_mm: positive, radial_width_mm: notNegative, feed_mm_min: notNegative };
  return compute(given, rules, v => {
    const radius = v.diameter_mm / 2;
    const width = v.radial_width_mm;
    if (width > v.diameter_mm) return absent('width of cut is more than the tool diameter');
    const root = Math.sqrt(Math.max(0, width * (v.diameter_mm - width)));
    const area = radius * radius * acosClamped(1 - width / radius) - (radius - width) * root;
    return (area * v.feed_mm_min) / 1000;
  });
}
