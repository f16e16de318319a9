import { radians } from './angles.ts';
import { between, compute, notNegative, optional, positive } from './compute.ts';
import { forceEstimate, slope } from './kienzle.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

const edgeRules = {
  axial_depth_mm: positive,
  feed_per_rev_mm: notNegative,
  nose_radius_mm: notNegative,
  edge_angle_deg: between(0, 120, 'open'),
};
type Edge = { [K in keyof typeof edgeRules]: number };

/** Length of edge in the cut: straight part, nose, and half a feed on the minor edge. */
function edgeLength(v: Edge): number {
  const lead = radians(90 - v.edge_angle_deg);
  const inNose = v.nose_radius_mm * (1 - Math.sin(lead));
  const half = v.feed_per_rev_mm / 2;
  if (v.axial_depth_mm <= inNose) {
    const q = Math.min(2, v.axial_depth_mm / v.nose_radius_mm);
    return v.nose_radius_mm * 2 * Math.asin(Math.sqrt(q / 2)) + half;
  }
  return (v.axial_depth_mm - inNose) / Math.cos(lead) + v.nose_radius_mm * (Math.PI / 2 - lead) + half;
}

/**
 * Length of the edge that is in the cut when turning, nose included.
 * @formula (ap - r (1 - sin LA))/cos LA + r (90 - LA) pi/180 + f/2, LA = 90 - kappa; within the nose: r acos(1 - ap/r) + f/2
 * @units axial_depth_mm mm, feed_per_rev_mm mm/rev, nose_radius_mm mm, edge_angle_deg degrees; gives mm
 * @range ap over 0, f and r 0 or more, kappa between 0 and 120
 * @source Machinery's Handbook, equivalent chip thickness after Colding, from memory; checked numerically
 */
export function turningEdgeLength(given: {
  axial_depth_mm: Given;
  feed_per_rev_mm: Given;
  nose_radius_mm: Given;
  edge_angle_deg: Given;
}): number | Absent {
  return compute(given, edgeRules, edgeLength);
}

/** Area of the chip: feed times depth less the cusp that stays. */
function chipArea(v: Edge): number {
  const cusp =
    v.nose_radius_mm === 0 ? 0 : v.feed_per_rev_mm ** 2 * (v.feed_per_rev_mm / v.nose_radius_mm / 24);
  return Math.max(0, v.feed_per_rev_mm * v.axial_depth_mm - cusp);
}

/**
 * Mean chip thickness of a turning cut, nose included.
 * @formula h = area / edge length, area = f ap - f^3/(24 r)
 * @units axial_depth_mm mm, feed_per_rev_mm mm/rev, nose_radius_mm mm, edge_angle_deg degrees; gives mm
 * @range ap over 0, f and r 0 or more, kappa between 0 and 120; small depths on a large nose make thin chips
 * @source Machinery's Handbook, equivalent chip thickness after Colding, from memory; checked numerically
 */
export function equivalentChipThickness(given: {
  axial_depth_mm: Given;
  feed_per_rev_mm: Given;
  nose_radius_mm: Given;
  edge_angle_deg: Given;
}): number | Absent {
  return compute(given, edgeRules, v => chipArea(v) / edgeLength(v));
}

/**
 * Cutting force of turning, boring or facing.
 * @formula Fc = kc1.1 b h^(1 - mc) K; without nose h = f sin(kappa), b = ap/sin(kappa); with nose h and b by equivalent chip thickness
 * @units kc11_n_mm2 N/mm2, mc, feed_per_rev_mm mm/rev, axial_depth_mm mm, edge_angle_deg degrees, nose_radius_mm mm (0: straight edge), correction (1); gives N as an estimate
 * @range kc1.1 and ap over 0, f 0 or more, kappa between 0 and 120
 * @source Kienzle 1952; Koenig and Klocke, Fertigungsverfahren 1
 */
export function turningForce(given: {
  kc11_n_mm2: Given;
  mc: Given;
  feed_per_rev_mm: Given;
  axial_depth_mm: Given;
  edge_angle_deg: Given;
  nose_radius_mm?: Given;
  correction?: Given;
}): Estimate | Absent {
  const rules = {
    ...edgeRules,
    nose_radius_mm: optional(notNegative, 0),
    kc11_n_mm2: positive,
    mc: slope,
    correction: optional(positive, 1),
  };
  return compute(given, rules, v => {
    const sine = Math.sin(radians(v.edge_angle_deg));
    const straight = v.nose_radius_mm === 0;
    const b = straight ? v.axial_depth_mm / sine : edgeLength(v);
    const h = straight ? v.feed_per_rev_mm * sine : chipArea(v) / b;
    return forceEstimate(v.kc11_n_mm2 * b * h ** (1 - v.mc) * v.correction, h);
  });
}

/**
 * Least depth of a finishing pass: not under the edge's rounding, nor under a share of the nose radius in work-hardening metal.
 * @formula max(edge radius, r/4 when the metal work-hardens)
 * @units edge_radius_mm mm, nose_radius_mm mm, work_hardening; gives mm
 * @range both 0 or more
 * @source common practice, no source
 */
export function leastFinishingDepth(given: {
  edge_radius_mm: Given;
  nose_radius_mm: Given;
  work_hardening: boolean;
}): number | Absent {
  const { work_hardening, ...numbers } = given;
  return compute(numbers, { edge_radius_mm: notNegative, nose_radius_mm: notNegative }, v =>
    Math.max(v.edge_radius_mm, work_hardening ? v.nose_radius_mm / 4 : 0),
  );
}

/**
 * Cutting force of grooving and parting off.
 * @formula Fc = kc1.1 w f^(1 - mc) K, with K = 1.3 for the compression between the walls
 * @units kc11_n_mm2 N/mm2, mc, width_mm mm, feed_per_rev_mm mm/rev, correction (1.3 when left out); gives N as an estimate
 * @range kc1.1 over 0, w over 0, f 0 or more
 * @source Kienzle 1952; factor 1.3 from memory
 */
export function groovingForce(given: {
  kc11_n_mm2: Given;
  mc: Given;
  width_mm: Given;
  feed_per_rev_mm: Given;
  correction?: Given;
}): Estimate | Absent {
  const rules = {
    kc11_n_mm2: positive,
    mc: slope,
    width_mm: positive,
    feed_per_rev_mm: notNegative,
    correction: optional(positive, 1.3),
  };
  return compute(given, rules, v =>
    forceEstimate(
      v.kc11_n_mm2 * v.width_mm * v.feed_per_rev_mm ** (1 - v.mc) * v.correction,
      v.feed_per_rev_mm,
    ),
  );
}

/** What a grooving or parting blade should stay within. */
export interface GroovingLimits {
  readonly feed_per_rev_mm: Estimate;
  readonly greatest_stickout_mm: Estimate;
}

/**
 * Usual feed and stickout of a grooving or parting blade by its width.
 * @formula f = 0.02 to 0.05 w within 0.03 to 0.15; stickout 8 to 10 w
 * @units width_mm mm; gives mm/rev and mm as estimates
 * @range w over 0; slow the feed to 0.25 to 0.5 on the last 2 mm of diameter
 * @source common practice, no source
 */
export function groovingLimits(given: { width_mm: Given }): GroovingLimits | Absent {
  const basis = 'common practice, no source';
  const clamp = (f: number) => Math.min(0.15, Math.max(0.03, f));
  return compute(given, { width_mm: positive }, ({ width_mm: w }) =>
    w > 100
      ? absent('no blade is that wide')
      : {
          feed_per_rev_mm: { value: clamp(0.035 * w), low: clamp(0.02 * w), high: clamp(0.05 * w), basis },
          greatest_stickout_mm: { value: 9 * w, low: 8 * w, high: 10 * w, basis },
        },
  );
}
