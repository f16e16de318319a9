import { radians } from './angles.ts';
import { between, compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

/** Ra over Rt of ideal arcs by the mean line: 2/3 - ... evaluated once, 4/(9 sqrt 3). */
const RA_SHARE = 0.2566001196398337;

/** Height of a circular segment over a half chord, radius - sqrt(radius^2 - half^2), without losing figures. */
const sagitta = (radius: number, half: number) => {
  const q = half / radius;
  return (half * q) / (1 + Math.sqrt((1 - q) * (1 + q)));
};

/**
 * Theoretical peak-to-valley height that a nose radius leaves, exact for circles.
 * @formula Rt = r - sqrt(r^2 - f^2/4); the short form f^2/(8 r) is lower at coarse feeds
 * @units feed_per_rev_mm mm/rev, nose_radius_mm mm; gives um
 * @range f from 0 to 2 r, r over 0; valid while only the nose touches, f < 2 r sin(kappa')
 * @source circle geometry; Boothroyd and Knight, Fundamentals of Machining
 */
export function turnedRoughnessRt(given: { feed_per_rev_mm: Given; nose_radius_mm: Given }): number | Absent {
  return compute(given, { feed_per_rev_mm: notNegative, nose_radius_mm: positive }, v =>
    v.feed_per_rev_mm > 2 * v.nose_radius_mm
      ? absent('feed is over twice the nose radius: the nose leaves no closed profile')
      : 1000 * sagitta(v.nose_radius_mm, v.feed_per_rev_mm / 2),
  );
}

/**
 * Theoretical peak-to-valley height by the textbook parabola.
 * @formula Rt = f^2 / (8 r)
 * @units feed_per_rev_mm mm/rev, nose_radius_mm mm; gives um
 * @range f 0 or more, r over 0; under 1 % low for f < 0.4 r
 * @source Boothroyd and Knight, Fundamentals of Machining
 */
export function turnedRoughnessRtShort(given: {
  feed_per_rev_mm: Given;
  nose_radius_mm: Given;
}): number | Absent {
  return compute(
    given,
    { feed_per_rev_mm: notNegative, nose_radius_mm: positive },
    v => (1000 * v.feed_per_rev_mm * (v.feed_per_rev_mm / v.nose_radius_mm)) / 8,
  );
}

/**
 * Mean roughness Ra of a turned surface: the ideal value, and the range of real cuts (1 to 2 times the ideal).
 * @formula Ra = 4/(9 sqrt 3) f^2/(8 r) = f^2/(31.2 r) by the mean line; textbooks print f^2/(32 r)
 * @units feed_per_rev_mm mm/rev, nose_radius_mm mm; gives um as an estimate (value = low = ideal)
 * @range f from 0 to 2 r, r over 0; wiper edges give about half
 * @source mean-line integral of a parabola; Groover, Fundamentals of Modern Manufacturing, for the ratio of real to ideal
 */
export function turnedRoughnessRa(given: {
  feed_per_rev_mm: Given;
  nose_radius_mm: Given;
}): Estimate | Absent {
  return compute(given, { feed_per_rev_mm: notNegative, nose_radius_mm: positive }, v => {
    if (v.feed_per_rev_mm > 2 * v.nose_radius_mm) return absent('feed is over twice the nose radius');
    const ideal = RA_SHARE * 125 * v.feed_per_rev_mm * (v.feed_per_rev_mm / v.nose_radius_mm);
    return { value: ideal, low: ideal, high: 2 * ideal, basis: 'ideal profile to twice the ideal' };
  });
}

/**
 * Ideal mean roughness by the textbook form.
 * @formula Ra = f^2 / (32 r)
 * @units feed_per_rev_mm mm/rev, nose_radius_mm mm; gives um
 * @range f 0 or more, r over 0
 * @source Groover, Fundamentals of Modern Manufacturing; Boothroyd and Knight
 */
export function turnedRoughnessRaShort(given: {
  feed_per_rev_mm: Given;
  nose_radius_mm: Given;
}): number | Absent {
  return compute(
    given,
    { feed_per_rev_mm: notNegative, nose_radius_mm: positive },
    v => (1000 * v.feed_per_rev_mm * (v.feed_per_rev_mm / v.nose_radius_mm)) / 32,
  );
}

/**
 * Ratio of Ra to Rt of an ideal profile of parabolic arcs.
 * @formula Ra/Rt = 4 / (9 sqrt 3) = 0.2566; textbooks round it to 1/4
 * @units none; gives a ratio
 * @range one value
 * @source mean-line integral of a parabola
 */
export function idealRaOverRt(): number {
  return RA_SHARE;
}

/**
 * Peak-to-valley height that a sharp corner leaves (no nose radius).
 * @formula Rt = f / (cot kappa + cot kappa')
 * @units feed_per_rev_mm mm/rev, edge_angle_deg and end_edge_angle_deg degrees; gives um
 * @range f 0 or more, kappa between 0 and 120, kappa' between 0 and 90; the two cotangents together over 0
 * @source Boothroyd and Knight, Fundamentals of Machining
 */
export function sharpCornerRoughness(given: {
  feed_per_rev_mm: Given;
  edge_angle_deg: Given;
  end_edge_angle_deg: Given;
}): number | Absent {
  const rules = {
    feed_per_rev_mm: notNegative,
    edge_angle_deg: between(0, 120, 'open'),
    end_edge_angle_deg: between(0, 90, 'open'),
  };
  return compute(given, rules, v => {
    const slopes = 1 / Math.tan(radians(v.edge_angle_deg)) + 1 / Math.tan(radians(v.end_edge_angle_deg));
    return slopes > 0 ? (1000 * v.feed_per_rev_mm) / slopes : absent('the two edges leave no corner');
  });
}

/**
 * Height of the feed marks on a side wall cut by a mill's circumference.
 * @formula Rt = R - sqrt(R^2 - f^2/4), about f^2/(4 D); f is the chip load without runout, the feed per revolution with it
 * @units mark_spacing_mm mm, diameter_mm mm; gives um
 * @range spacing from 0 to D, D over 0
 * @source circle geometry; Koenig and Klocke, Fertigungsverfahren 1
 */
export function wallRoughness(given: { mark_spacing_mm: Given; diameter_mm: Given }): number | Absent {
  return compute(given, { mark_spacing_mm: notNegative, diameter_mm: positive }, v =>
    v.mark_spacing_mm > v.diameter_mm
      ? absent('the marks lie further apart than the diameter')
      : 1000 * sagitta(v.diameter_mm / 2, v.mark_spacing_mm / 2),
  );
}

/**
 * Height of the cusps between neighbouring passes of a ball-nose tool or a round corner.
 * @formula h = R - sqrt(R^2 - (s/2)^2), s = ae / cos(slope) along the surface
 * @units diameter_mm mm (ball; twice the corner radius for a bull nose), step_over_mm mm in the plane, slope_deg degrees (0 when left out); gives um
 * @range D over 0, step along the surface from 0 to D, slope from 0 to under 90
 * @source circle geometry
 */
export function cuspHeight(given: {
  diameter_mm: Given;
  step_over_mm: Given;
  slope_deg?: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    step_over_mm: notNegative,
    slope_deg: optional({ accepts: (s: number) => s >= 0 && s < 90, says: 'must be from 0 to under 90' }, 0),
  };
  return compute(given, rules, v => {
    const step = v.step_over_mm / Math.cos(radians(v.slope_deg));
    if (step > v.diameter_mm) return absent('the passes lie further apart than the ball is wide');
    return 1000 * sagitta(v.diameter_mm / 2, step / 2);
  });
}

/**
 * Step between passes of a ball-nose tool that leaves cusps of a wanted height.
 * @formula s = 2 sqrt(h (D - h)), in the plane times cos(slope)
 * @units cusp_um um, diameter_mm mm, slope_deg degrees (0 when left out); gives mm
 * @range cusp from 0 to D/2, D over 0, slope from 0 to under 90
 * @source inverse of cuspHeight
 */
export function stepOverForCusp(given: {
  cusp_um: Given;
  diameter_mm: Given;
  slope_deg?: Given;
}): number | Absent {
  const rules = {
    cusp_um: notNegative,
    diameter_mm: positive,
    slope_deg: optional({ accepts: (s: number) => s >= 0 && s < 90, says: 'must be from 0 to under 90' }, 0),
  };
  return compute(given, rules, v => {
    const height = v.cusp_um / 1000;
    if (2 * height > v.diameter_mm) return absent('the cusp is higher than the radius of the ball');
    return 2 * Math.sqrt(height) * Math.sqrt(v.diameter_mm - height) * Math.cos(radians(v.slope_deg));
  });
}
