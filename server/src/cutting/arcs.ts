import { degrees } from './angles.ts';
import { between, compute, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Inside: the tool runs within the wall's circle (bore). Outside: around it (boss). */
export type ArcSide = 'inside' | 'outside';

const feedRules = { wall_radius_mm: positive, tool_radius_mm: positive, feed_mm_min: notNegative };
type FeedValues = { [K in keyof typeof feedRules]: number };

/** Radius of the centre's path, or why the tool does not fit. */
function centreRadius(v: FeedValues, side: ArcSide): number | Absent {
  if (side === 'outside') return v.wall_radius_mm + v.tool_radius_mm;
  return v.wall_radius_mm < v.tool_radius_mm
    ? absent('the tool is larger than the inside arc')
    : v.wall_radius_mm - v.tool_radius_mm;
}

/**
 * Feed of the tool centre that gives a wanted feed at the wall of an arc.
 * @formula inside: vf (R - r)/R; outside: vf (R + r)/R
 * @units wall_radius_mm mm (R), tool_radius_mm mm (r), feed_mm_min mm/min at the wall, side; gives mm/min
 * @range R and r over 0, inside R not under r, vf 0 or more
 * @source same angular rate at wall and centre (geometry)
 */
export function centreFeedOnArc(given: {
  wall_radius_mm: Given;
  tool_radius_mm: Given;
  feed_mm_min: Given;
  side: ArcSide;
}): number | Absent {
  const { wall_radius_mm, tool_radius_mm, feed_mm_min } = given;
  return compute({ wall_radius_mm, tool_radius_mm, feed_mm_min }, feedRules, v => {
    const radius = centreRadius(v, given.side);
    return typeof radius === 'number' ? v.feed_mm_min * (radius / v.wall_radius_mm) : radius;
  });
}

/**
 * Feed that the wall of an arc sees when the control feeds the tool's centre.
 * @formula inside: vf R/(R - r); outside: vf R/(R + r)
 * @units wall_radius_mm mm (R), tool_radius_mm mm (r), feed_mm_min mm/min of the centre, side; gives mm/min
 * @range R and r over 0, inside R over r (R = r is a plunge), vf 0 or more
 * @source same angular rate at wall and centre (geometry)
 */
export function wallFeedOnArc(given: {
  wall_radius_mm: Given;
  tool_radius_mm: Given;
  feed_mm_min: Given;
  side: ArcSide;
}): number | Absent {
  const { wall_radius_mm, tool_radius_mm, feed_mm_min } = given;
  return compute({ wall_radius_mm, tool_radius_mm, feed_mm_min }, feedRules, v => {
    const radius = centreRadius(v, given.side);
    if (radius === 0) return absent('the tool is as large as the arc: its centre does not move');
    return typeof radius === 'number' ? v.feed_mm_min * (v.wall_radius_mm / radius) : radius;
  });
}

/**
 * Width of cut on a circular path that stands for the same removal on a straight one; use it for removal rate and mean load.
 * @formula inside: (Dm^2 - Dw^2)/(4 (Dm - D)); outside: (Dw^2 - Dm^2)/(4 (Dm + D))
 * @units before_diameter_mm mm (Dw), after_diameter_mm mm (Dm), diameter_mm mm (D of the cutter), side; gives mm
 * @range inside: Dw 0 or more, Dm over Dw and over D; outside: Dw over Dm, Dm 0 or more
 * @source area removed over the length of the centre's path (geometry)
 */
export function effectiveWidthOnArc(given: {
  before_diameter_mm: Given;
  after_diameter_mm: Given;
  diameter_mm: Given;
  side: ArcSide;
}): number | Absent {
  const { before_diameter_mm, after_diameter_mm, diameter_mm } = given;
  const rules = { before_diameter_mm: notNegative, after_diameter_mm: notNegative, diameter_mm: positive };
  return compute({ before_diameter_mm, after_diameter_mm, diameter_mm }, rules, v => {
    const inside = given.side === 'inside';
    const gain = (v.after_diameter_mm - v.before_diameter_mm) * (inside ? 1 : -1);
    if (gain < 0) return absent(inside ? 'the bore would get smaller' : 'the boss would get larger');
    if (inside && v.after_diameter_mm <= v.diameter_mm)
      return absent('the tool is not smaller than the bore');
    const path = inside ? v.after_diameter_mm - v.diameter_mm : v.after_diameter_mm + v.diameter_mm;
    return ((v.after_diameter_mm + v.before_diameter_mm) * gain) / (4 * path);
  });
}

/**
 * Engagement angle on a circular path beside an old wall that is a circle about the same centre.
 * @formula inside: acos((R0^2 - rho^2 - r^2)/(2 rho r)); outside: acos((rho^2 + r^2 - R0^2)/(2 rho r)); both become acos(1 - ae/r) as rho grows
 * @units path_radius_mm mm (rho, of the tool's centre), tool_radius_mm mm (r), old_wall_radius_mm mm (R0), side; gives degrees
 * @range rho and r over 0, R0 0 or more; 0 where the tool does not reach the old wall, 180 where it lies wholly in the stock
 * @source law of cosines
 */
export function engagementOnArc(given: {
  path_radius_mm: Given;
  tool_radius_mm: Given;
  old_wall_radius_mm: Given;
  side: ArcSide;
}): number | Absent {
  const { path_radius_mm, tool_radius_mm, old_wall_radius_mm } = given;
  const rules = { path_radius_mm: positive, tool_radius_mm: positive, old_wall_radius_mm: notNegative };
  return compute({ path_radius_mm, tool_radius_mm, old_wall_radius_mm }, rules, v =>
    arcAngle(v.path_radius_mm, v.tool_radius_mm, v.old_wall_radius_mm, given.side),
  );
}

/** Engagement by the law of cosines, written as differences so that large radii keep their figures. */
export function arcAngle(rho: number, r: number, wall: number, side: ArcSide): number {
  const gap = side === 'inside' ? rho + r - wall : wall - (rho - r);
  const sum = side === 'inside' ? rho + r + wall : wall + rho - r;
  const versine = (gap / (2 * r)) * (sum / (2 * rho));
  return degrees(2 * Math.asin(Math.sqrt(Math.max(0, Math.min(1, versine)))));
}

/**
 * Greatest engagement where a path turns sharply into a corner between two walls, the width of cut the same on both.
 * @formula phi_corner = phi + turn, at most 180
 * @units engagement_deg degrees on the straight, turn_deg degrees (change of direction, 90 in a square corner); gives degrees
 * @range phi from 0 to 180, turn from 0 to 180; upper bound, reached at the corner point itself
 * @source geometry: the tool stands against both walls at once
 */
export function sharpCornerEngagement(given: { engagement_deg: Given; turn_deg: Given }): number | Absent {
  return compute(given, { engagement_deg: between(0, 180), turn_deg: between(0, 180) }, v =>
    v.engagement_deg === 0 ? 0 : Math.min(180, v.engagement_deg + v.turn_deg),
  );
}
