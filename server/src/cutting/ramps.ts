import { degrees } from './angles.ts';
import { compute, notNegative, positive } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

/**
 * Ramp angle of a straight or helical entry.
 * @formula angle = atan(depth / length along the plane)
 * @units depth_mm mm, length_mm mm in the plane; gives degrees
 * @range depth 0 or more, length over 0
 * @source geometry
 */
export function rampAngle(given: { depth_mm: Given; length_mm: Given }): number | Absent {
  return compute(given, { depth_mm: notNegative, length_mm: positive }, v =>
    degrees(Math.atan2(v.depth_mm, v.length_mm)),
  );
}

/**
 * Ramp angle of a helix.
 * @formula angle = atan(P / (pi Dh))
 * @units pitch_mm mm a turn, centre_diameter_mm mm (circle of the tool's centre); gives degrees
 * @range P 0 or more, Dh over 0
 * @source geometry
 */
export function helixRampAngle(given: { pitch_mm: Given; centre_diameter_mm: Given }): number | Absent {
  return compute(given, { pitch_mm: notNegative, centre_diameter_mm: positive }, v =>
    degrees(Math.atan2(v.pitch_mm, Math.PI * v.centre_diameter_mm)),
  );
}

/** Families of work material as far as entry angles go. */
export const RAMP_ANGLE_DEG = {
  steel: { low: 1, high: 3 },
  stainless: { low: 1, high: 2 },
  'heat-resisting': { low: 1, high: 2 },
  aluminium: { low: 3, high: 10 },
} as const;

/**
 * Usual ramp angle by material; tools that cut to the centre may do more.
 * @formula table: steel 1 to 3, stainless and heat-resisting 1 to 2, aluminium 3 to 10 degrees
 * @units family by name; gives degrees as an estimate
 * @range the families of the table
 * @source common practice, no source
 */
export function usualRampAngle(given: { family: keyof typeof RAMP_ANGLE_DEG }): Estimate | Absent {
  const found = Object.hasOwn(RAMP_ANGLE_DEG, given.family) ? RAMP_ANGLE_DEG[given.family] : undefined;
  if (found === undefined) return absent('material family not known', ['family']);
  return {
    value: (found.low + found.high) / 2,
    low: found.low,
    high: found.high,
    basis: 'common practice, no source',
  };
}

/**
 * Diameter of hole that a helix can open from solid in one pass.
 * @formula tool that does not cut at the centre: 1.2 D to 1.8 D; centre-cutting: over D to 2 D
 * @units diameter_mm mm, center_cutting; gives mm as an estimate (value: middle)
 * @range D over 0; under the low end a core stays or the core hits the tool, over 2 D it stays for certain
 * @source common practice, no source; 2 D is geometry
 */
export function helixHoleDiameter(given: { diameter_mm: Given; center_cutting: boolean }): Estimate | Absent {
  return compute({ diameter_mm: given.diameter_mm }, { diameter_mm: positive }, v => {
    const [low, high] = given.center_cutting ? [1, 2] : [1.2, 1.8];
    const D = v.diameter_mm;
    return {
      value: (D * (low + high)) / 2,
      low: D * low,
      high: D * high,
      basis: 'common practice, no source',
    };
  });
}

/**
 * Length of a helix or of any arc that moves along its axis too.
 * @formula L = sqrt((R theta)^2 + dz^2)
 * @units radius_mm mm, swept_deg degrees (turns times 360), rise_mm mm; gives mm
 * @range R and swept angle 0 or more, rise any number taken by its size
 * @source geometry
 */
export function helixLength(given: { radius_mm: Given; swept_deg: Given; rise_mm: Given }): number | Absent {
  const rules = {
    radius_mm: notNegative,
    swept_deg: notNegative,
    rise_mm: { accepts: () => true, says: 'must be a number' },
  };
  return compute(given, rules, v => Math.hypot((v.radius_mm * v.swept_deg * Math.PI) / 180, v.rise_mm));
}
