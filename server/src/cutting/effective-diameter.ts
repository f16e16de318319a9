import { acosClamped, radians } from './angles.ts';
import { between, compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** The largest and smallest working diameter of the part of an edge that is in the cut. */
export interface DiameterSpan {
  readonly largest_mm: number;
  readonly smallest_mm: number;
}

/**
 * Diameter at which a ball-nose tool works, its axis square to the surface.
 * @formula Deff = 2 sqrt(ap (D - ap)) for ap < D/2, else D
 * @units diameter_mm mm, axial_depth_mm mm; gives mm
 * @range D over 0, ap 0 or more; at ap = 0 the tip stands still (0)
 * @source chord of the sphere (geometry)
 */
export function ballEffectiveDiameter(given: { diameter_mm: Given; axial_depth_mm: Given }): number | Absent {
  return compute(given, { diameter_mm: positive, axial_depth_mm: notNegative }, v =>
    2 * v.axial_depth_mm >= v.diameter_mm
      ? v.diameter_mm
      : 2 * Math.sqrt(v.axial_depth_mm) * Math.sqrt(v.diameter_mm - v.axial_depth_mm),
  );
}

/**
 * Largest and smallest diameter at which a ball-nose tool works when its axis leans away from the surface's normal.
 * @formula a = acos(1 - 2 ap/D); largest D sin(tilt + a), D once tilt + a passes 90; smallest D sin(tilt - a), 0 when tilt <= a (the tip rubs at zero speed)
 * @units diameter_mm mm, axial_depth_mm mm (square to the surface), tilt_deg degrees; gives mm
 * @range D over 0, ap from 0 to D/2, tilt from 0 to 90
 * @source circle geometry, derived here
 */
export function tiltedBallEffectiveDiameter(given: {
  diameter_mm: Given;
  axial_depth_mm: Given;
  tilt_deg: Given;
}): DiameterSpan | Absent {
  const rules = { diameter_mm: positive, axial_depth_mm: notNegative, tilt_deg: between(0, 90) };
  return compute(given, rules, v => {
    if (2 * v.axial_depth_mm > v.diameter_mm) return absent('depth is more than the radius of the ball');
    const half = acosClamped(1 - (2 * v.axial_depth_mm) / v.diameter_mm);
    const tilt = radians(v.tilt_deg);
    const upper = Math.min(tilt + half, Math.PI / 2);
    return {
      largest_mm: v.diameter_mm * Math.sin(upper),
      smallest_mm: tilt > half ? v.diameter_mm * Math.sin(tilt - half) : 0,
    };
  });
}

/**
 * Diameter at which a bull-nose tool (corner radius) works at the top of its cut.
 * @formula Deff = D - 2 r + 2 sqrt(ap (2 r - ap)) for ap < r, else D
 * @units diameter_mm mm, corner_radius_mm mm, axial_depth_mm mm; gives mm
 * @range D over 0, r from 0 to D/2 (D/2 is a ball), ap 0 or more
 * @source circle geometry
 */
export function bullEffectiveDiameter(given: {
  diameter_mm: Given;
  corner_radius_mm: Given;
  axial_depth_mm: Given;
}): number | Absent {
  const rules = { diameter_mm: positive, corner_radius_mm: notNegative, axial_depth_mm: notNegative };
  return compute(given, rules, v => {
    const { corner_radius_mm: r, axial_depth_mm: depth } = v;
    if (2 * r > v.diameter_mm) return absent('corner radius is more than half the diameter');
    return depth >= r
      ? v.diameter_mm
      : v.diameter_mm - 2 * r + 2 * Math.sqrt(depth) * Math.sqrt(2 * r - depth);
  });
}

/**
 * Diameter of a conical tool (chamfer, spot, engraving, countersink) at a height above its tip. Ask for both ends of the engaged edge.
 * @formula Deff = d0 + 2 h tan(s/2)
 * @units height_mm mm above the tip, included_angle_deg degrees, tip_diameter_mm mm (0 when left out); gives mm
 * @range h and d0 0 or more, s between 0 and 180
 * @source cone geometry
 */
export function coneEffectiveDiameter(given: {
  height_mm: Given;
  included_angle_deg: Given;
  tip_diameter_mm?: Given;
}): number | Absent {
  const rules = {
    height_mm: notNegative,
    included_angle_deg: between(0, 180, 'open'),
    tip_diameter_mm: optional(notNegative, 0),
  };
  return compute(
    given,
    rules,
    v => v.tip_diameter_mm + 2 * v.height_mm * Math.tan(radians(v.included_angle_deg) / 2),
  );
}

/**
 * Depth at which a conical tool makes a wanted diameter (chamfer and countersink depth).
 * @formula h = (D - d0) / (2 tan(s/2))
 * @units diameter_mm mm, included_angle_deg degrees, tip_diameter_mm mm (0 when left out); gives mm
 * @range D over 0, d0 from 0 to D, s between 0 and 180
 * @source cone geometry
 */
export function coneDepthForDiameter(given: {
  diameter_mm: Given;
  included_angle_deg: Given;
  tip_diameter_mm?: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    included_angle_deg: between(0, 180, 'open'),
    tip_diameter_mm: optional(notNegative, 0),
  };
  return compute(given, rules, v =>
    v.tip_diameter_mm > v.diameter_mm
      ? absent('the tip is larger than the diameter asked for')
      : (v.diameter_mm - v.tip_diameter_mm) / (2 * Math.tan(radians(v.included_angle_deg) / 2)),
  );
}

/**
 * Diameter of a face or high-feed mill at the top of its cut, from its lower cutting diameter.
 * @formula Deff = DC + 2 ap / tan(kappa)
 * @units diameter_mm mm (at the lower end of the edge), axial_depth_mm mm, edge_angle_deg degrees; gives mm
 * @range DC over 0, ap 0 or more, kappa over 0 and up to 90
 * @source cone geometry; ISO 13399 for DC and KAPR
 */
export function faceMillEffectiveDiameter(given: {
  diameter_mm: Given;
  axial_depth_mm: Given;
  edge_angle_deg: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    axial_depth_mm: notNegative,
    edge_angle_deg: { accepts: (a: number) => a > 0 && a <= 90, says: 'must be over 0 and at most 90' },
  };
  return compute(given, rules, v => {
    const lean = v.edge_angle_deg === 90 ? 0 : 1 / Math.tan(radians(v.edge_angle_deg));
    return v.diameter_mm + 2 * v.axial_depth_mm * lean;
  });
}
