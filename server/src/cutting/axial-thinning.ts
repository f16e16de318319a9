import { acosClamped, radians } from './angles.ts';
import { compute, edgeAngle, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';

/**
 * Thickness that a straight, inclined edge makes of a feed (lead angle, chamfered or turning edge).
 * @formula h = f sin(kappa)
 * @units feed_mm mm (per tooth or per revolution), edge_angle_deg degrees; gives mm
 * @range f 0 or more, kappa between 0 and 180
 * @source ISO 3002-3
 */
export function thicknessAtEdgeAngle(given: { feed_mm: Given; edge_angle_deg: Given }): number | Absent {
  return compute(
    given,
    { feed_mm: notNegative, edge_angle_deg: edgeAngle },
    v => v.feed_mm * Math.sin(radians(v.edge_angle_deg)),
  );
}

/**
 * Width of the chip along a straight, inclined edge.
 * @formula b = ap / sin(kappa)
 * @units axial_depth_mm mm, edge_angle_deg degrees; gives mm
 * @range ap 0 or more, kappa between 0 and 180
 * @source ISO 3002-3
 */
export function chipWidth(given: { axial_depth_mm: Given; edge_angle_deg: Given }): number | Absent {
  return compute(
    given,
    { axial_depth_mm: notNegative, edge_angle_deg: edgeAngle },
    v => v.axial_depth_mm / Math.sin(radians(v.edge_angle_deg)),
  );
}

/**
 * Edge angle at the top of a cut that is shallower than the round corner (ball, bull nose, round insert).
 * @formula kappa = acos(1 - ap/r) for ap < r, else 90 degrees
 * @units axial_depth_mm mm, corner_radius_mm mm (ball: half the diameter); gives degrees
 * @range ap 0 or more, r over 0
 * @source ISO 3002-3; circle geometry
 */
export function edgeAngleOfRoundEdge(given: {
  axial_depth_mm: Given;
  corner_radius_mm: Given;
}): number | Absent {
  return compute(given, { axial_depth_mm: notNegative, corner_radius_mm: positive }, v =>
    v.axial_depth_mm >= v.corner_radius_mm ? 90 : (arcAngle(v) * 180) / Math.PI,
  );
}

/**
 * Greatest thickness along a round edge, at the top of the cut.
 * @formula h_max = f sin(acos(1 - ap/r)) for ap < r, else f
 * @units feed_mm mm (per tooth or per revolution), axial_depth_mm mm, corner_radius_mm mm; gives mm
 * @range f and ap 0 or more, r over 0
 * @source ISO 3002-3; circle geometry
 */
export function greatestThicknessOfRoundEdge(given: {
  feed_mm: Given;
  axial_depth_mm: Given;
  corner_radius_mm: Given;
}): number | Absent {
  const rules = { feed_mm: notNegative, axial_depth_mm: notNegative, corner_radius_mm: positive };
  return compute(given, rules, v => {
    const q = v.axial_depth_mm / v.corner_radius_mm;
    return q >= 1 ? v.feed_mm : v.feed_mm * Math.sqrt(q * (2 - q));
  });
}

/**
 * Mean thickness along a round edge; above the corner radius the edge runs on straight at 90 degrees.
 * @formula h = f ap / (r acos(1 - ap/r)) for ap < r, else f ap / (pi r/2 + ap - r)
 * @units feed_mm mm (per tooth or per revolution), axial_depth_mm mm, corner_radius_mm mm; gives mm
 * @range f and ap 0 or more, r over 0
 * @source area over edge length (ISO 3002-3, equivalent chip thickness); equals the integral of f sin(kappa)
 */
export function meanThicknessOfRoundEdge(given: {
  feed_mm: Given;
  axial_depth_mm: Given;
  corner_radius_mm: Given;
}): number | Absent {
  const rules = { feed_mm: notNegative, axial_depth_mm: notNegative, corner_radius_mm: positive };
  return compute(given, rules, v => {
    if (v.axial_depth_mm === 0) return 0;
    const straight = Math.max(0, v.axial_depth_mm - v.corner_radius_mm);
    return v.feed_mm * (v.axial_depth_mm / (v.corner_radius_mm * arcAngle(v) + straight));
  });
}

/** Angle of the round corner that lies in the cut, radians; written so that tiny depths keep their figures. */
function arcAngle(v: { axial_depth_mm: number; corner_radius_mm: number }): number {
  const q = v.axial_depth_mm / v.corner_radius_mm;
  if (q >= 1) return Math.PI / 2;
  return q < 0.5 ? 2 * Math.asin(Math.sqrt(q / 2)) : acosClamped(1 - q);
}
