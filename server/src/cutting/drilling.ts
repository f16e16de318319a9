import { radians } from './angles.ts';
import type { Values } from './compute.ts';
import { between, compute, notNegative, optional, positive, toothCount } from './compute.ts';
import { FORCE_SCATTER, forceEstimate, slope } from './kienzle.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

const pointAngle = between(0, 180);
const rules = {
  kc11_n_mm2: positive,
  mc: slope,
  diameter_mm: positive,
  hole_mm: optional(notNegative, 0),
  feed_per_rev_mm: notNegative,
  point_angle_deg: between(10, 180),
  lips: optional(toothCount, 2),
  correction: optional(positive, 1),
};
type Cut = Values<typeof rules>;

/** A drilling cut for its load. */
export interface DrillingCut {
  readonly kc11_n_mm2: Given;
  readonly mc: Given;
  readonly diameter_mm: Given;
  readonly hole_mm?: Given;
  readonly feed_per_rev_mm: Given;
  readonly point_angle_deg: Given;
  readonly lips?: Given;
  readonly correction?: Given;
}

const lipThickness = (v: Cut) => (v.feed_per_rev_mm / v.lips) * Math.sin(radians(v.point_angle_deg) / 2);
/** kc f without the division by zero thickness at zero feed. */
const specificTimesFeed = (v: Cut) => {
  const h = lipThickness(v);
  return h === 0 ? 0 : v.kc11_n_mm2 * h ** -v.mc * v.correction * v.feed_per_rev_mm;
};
const tooLarge = (v: Cut) =>
  v.hole_mm >= v.diameter_mm ? absent('the hole is not smaller than the drill') : undefined;

/**
 * Chip thickness at the lip of a drill.
 * @formula h = (f / lips) sin(sigma/2)
 * @units feed_per_rev_mm mm/rev, point_angle_deg degrees, lips (2 when left out); gives mm
 * @range f 0 or more, sigma from 0 to 180, lips a whole number from 1
 * @source ISO 3002-3; Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function drillChipThickness(given: {
  feed_per_rev_mm: Given;
  point_angle_deg: Given;
  lips?: Given;
}): number | Absent {
  const own = { feed_per_rev_mm: notNegative, point_angle_deg: pointAngle, lips: optional(toothCount, 2) };
  return compute(given, own, v => (v.feed_per_rev_mm / v.lips) * Math.sin(radians(v.point_angle_deg) / 2));
}

const torque = (v: Cut) =>
  tooLarge(v) ?? (specificTimesFeed(v) * (v.diameter_mm - v.hole_mm) * (v.diameter_mm + v.hole_mm)) / 8000;

/**
 * Torque of drilling, from solid or opening a hole.
 * @formula M = kc f (D^2 - d^2) / 8000, kc at h = (f/lips) sin(sigma/2)
 * @units kc11_n_mm2 N/mm2, mc, diameter_mm mm, hole_mm mm (0), feed_per_rev_mm mm/rev, point_angle_deg degrees, lips (2), correction (1; 1.2 for the compression in drilling is usual); gives N m as an estimate
 * @range kc1.1 and D over 0, d from 0 to under D, f 0 or more, sigma 10 to 180
 * @source Kienzle 1952; Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function drillTorque(given: DrillingCut): Estimate | Absent {
  return compute(given, rules, v => {
    const result = torque(v);
    return typeof result === 'number' ? forceEstimate(result, lipThickness(v)) : result;
  });
}

/**
 * Cutting power of drilling.
 * @formula P = pi M n / 30000 with M of drillTorque, the same as f vc D kc / 240000 for a drill in solid
 * @units as drillTorque, and spindle_rpm rev/min; gives kW as an estimate
 * @range as drillTorque, n 0 or more
 * @source Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function drillPower(given: DrillingCut & { readonly spindle_rpm: Given }): Estimate | Absent {
  return compute(given, { ...rules, spindle_rpm: notNegative }, v => {
    const result = torque(v);
    if (typeof result !== 'number') return result;
    return forceEstimate((Math.PI * result * v.spindle_rpm) / 30_000, lipThickness(v));
  });
}

/**
 * Thrust of drilling without the chisel edge, by the short form. For conventional drills see handbookDrillLoad.
 * @formula T = c kc (D - d)/2 f sin(sigma/2), c = 0.5 to 0.7
 * @units as drillTorque; gives N as an estimate (value at c = 0.6, range with c and the scatter of kc)
 * @range as drillTorque; published forms differ by up to a factor of 2, the chisel edge carries a third to half of the thrust of a conventional drill
 * @source c = 0.7 seen in a drilling formula sheet, c = 0.5 from memory
 */
export function drillThrust(given: DrillingCut): Estimate | Absent {
  return compute(given, rules, v => {
    const wrong = tooLarge(v);
    if (wrong !== undefined) return wrong;
    const whole =
      specificTimesFeed(v) * ((v.diameter_mm - v.hole_mm) / 2) * Math.sin(radians(v.point_angle_deg) / 2);
    return {
      value: 0.6 * whole,
      low: 0.5 * (1 - FORCE_SCATTER) * whole,
      high: 0.7 * (1 + FORCE_SCATTER) * whole,
      basis: 'lips only, 0.5 to 0.7 of the cutting force; the chisel edge adds to it',
    };
  });
}

/**
 * Length of a drill's point: how much deeper it must go until the full diameter has the depth.
 * @formula tip = D / (2 tan(sigma/2))
 * @units diameter_mm mm, point_angle_deg degrees; gives mm
 * @range D over 0, sigma over 0 and up to 180 (180 is flat: 0)
 * @source geometry; the shop's 0.3 D for 118 degrees
 */
export function pointLength(given: { diameter_mm: Given; point_angle_deg: Given }): number | Absent {
  const own = {
    diameter_mm: positive,
    point_angle_deg: { accepts: (a: number) => a > 0 && a <= 180, says: 'must be over 0 and at most 180' },
  };
  return compute(given, own, v =>
    v.point_angle_deg === 180 ? 0 : v.diameter_mm / (2 * Math.tan(radians(v.point_angle_deg) / 2)),
  );
}

/**
 * Speed and feed that a conventional drill loses in a deep hole.
 * @formula speed x 0.9, 0.8, 0.7, 0.625 and feed x 0.9, 0.9, 0.8, 0.8 from 3, 4, 5, 6 diameters deep
 * @units depth_mm mm, diameter_mm mm; gives factors
 * @range depth 0 or more, D over 0; without coolant through the tool
 * @source one published derating table; common practice
 */
export function deepHoleFactors(given: {
  depth_mm: Given;
  diameter_mm: Given;
}): { readonly speed: number; readonly feed: number } | Absent {
  return compute(given, { depth_mm: notNegative, diameter_mm: positive }, v => {
    const ratio = v.depth_mm / v.diameter_mm;
    if (ratio < 3) return { speed: 1, feed: 1 };
    if (ratio < 4) return { speed: 0.9, feed: 0.9 };
    if (ratio < 5) return { speed: 0.8, feed: 0.9 };
    return ratio < 6 ? { speed: 0.7, feed: 0.8 } : { speed: 0.625, feed: 0.8 };
  });
}
