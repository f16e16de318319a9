import { compute, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent, isAbsent } from './result.ts';

/** What the spindle does at one diameter under constant surface speed (G96). */
export interface SpindleUnderCss {
  readonly spindle_rpm: number;
  readonly surface_speed_m_min: number;
  /** True where the speed limit holds the spindle below what the surface speed asks. */
  readonly clamped: boolean;
}

/**
 * Spindle speed under constant surface speed (G96), held at the limit (clamp word, chuck, machine: the lowest).
 * @formula n = min(n_max, 1000 vc / (pi d)); vc = pi d n / 1000
 * @units surface_speed_m_min m/min, diameter_mm mm, max_rpm rev/min; gives rev/min, m/min and whether the limit holds it
 * @range vc over 0, d 0 or more, n_max over 0 or left out; without a limit d = 0 is absent
 * @source definition of cutting speed; NISTIR 6556 and ISO 6983-1 for G96 with its limit
 */
export function spindleUnderCss(given: {
  surface_speed_m_min: Given;
  diameter_mm: Given;
  max_rpm?: Given;
}): SpindleUnderCss | Absent {
  const { max_rpm } = given;
  if (isAbsent(max_rpm)) return max_rpm;
  if (max_rpm !== undefined && !(max_rpm > 0)) return absent('max rpm must be greater than 0');
  const limit = max_rpm ?? Number.POSITIVE_INFINITY;
  const inputs = { surface_speed_m_min: given.surface_speed_m_min, diameter_mm: given.diameter_mm };
  return compute(inputs, { surface_speed_m_min: positive, diameter_mm: notNegative }, v => {
    const asked = (1000 * v.surface_speed_m_min) / (Math.PI * v.diameter_mm);
    const spindle_rpm = Math.min(limit, asked);
    if (spindle_rpm === Number.POSITIVE_INFINITY)
      return absent('without a speed limit the spindle speed has no bound at the centre', ['max_rpm']);
    const surface_speed_m_min = (Math.PI * v.diameter_mm * spindle_rpm) / 1000;
    return { spindle_rpm, surface_speed_m_min, clamped: asked > limit };
  });
}

/**
 * Diameter below which the speed limit holds the spindle, so that the surface speed falls.
 * @formula dc = 1000 vc / (pi n_max)
 * @units surface_speed_m_min m/min, max_rpm rev/min; gives mm
 * @range both over 0
 * @source definition of cutting speed
 */
export function clampDiameter(given: { surface_speed_m_min: Given; max_rpm: Given }): number | Absent {
  return compute(
    given,
    { surface_speed_m_min: positive, max_rpm: positive },
    v => (1000 * v.surface_speed_m_min) / (Math.PI * v.max_rpm),
  );
}

/**
 * Time to face or part off between two diameters under constant surface speed with a limit.
 * @formula above dc: pi (d1^2 - d2^2) / (4000 vc f); below dc: (dc - d2) / (2 f n_max)
 * @units from_diameter_mm and to_diameter_mm mm, surface_speed_m_min m/min, feed_per_rev_mm mm/rev, max_rpm rev/min; gives min
 * @range diameters 0 or more (either may be the larger), vc, f and n_max over 0; the spindle is taken to follow at once
 * @source integral of dr / (f n(r)), derived here and checked by numeric integration
 */
export function facingTime(given: {
  from_diameter_mm: Given;
  to_diameter_mm: Given;
  surface_speed_m_min: Given;
  feed_per_rev_mm: Given;
  max_rpm: Given;
}): number | Absent {
  const rules = {
    from_diameter_mm: notNegative,
    to_diameter_mm: notNegative,
    surface_speed_m_min: positive,
    feed_per_rev_mm: positive,
    max_rpm: positive,
  };
  return compute(given, rules, v => {
    const large = Math.max(v.from_diameter_mm, v.to_diameter_mm);
    const small = Math.min(v.from_diameter_mm, v.to_diameter_mm);
    const clamp = (1000 * v.surface_speed_m_min) / (Math.PI * v.max_rpm);
    const border = Math.min(Math.max(clamp, small), large);
    const above =
      (Math.PI * (large - border) * (large + border)) / (4000 * v.surface_speed_m_min * v.feed_per_rev_mm);
    return above + (border - small) / (2 * v.feed_per_rev_mm * v.max_rpm);
  });
}
