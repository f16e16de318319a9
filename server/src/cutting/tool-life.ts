import { compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

/** Taylor exponents by tool material: range and usual value. */
export const TAYLOR_EXPONENT = {
  hss: { low: 0.1, value: 0.125, high: 0.15 },
  carbide: { low: 0.2, value: 0.25, high: 0.3 },
  ceramic: { low: 0.4, value: 0.5, high: 0.6 },
} as const;
const exponent = { accepts: (n: number) => n > 0 && n <= 2, says: 'must be over 0 and at most 2' };

/**
 * Taylor's exponent and constant from two tests.
 * @formula n = ln(v1/v2) / ln(T2/T1); C = v1 T1^n
 * @units speed_1_m_min and speed_2_m_min m/min, life_1_min and life_2_min min; gives the exponent and C in m/min
 * @range all over 0; the faster test must have the shorter life
 * @source Taylor 1907; ISO 3685
 */
export function taylorFromTests(given: {
  speed_1_m_min: Given;
  life_1_min: Given;
  speed_2_m_min: Given;
  life_2_min: Given;
}): { readonly n: number; readonly c_m_min: number } | Absent {
  const rules = {
    speed_1_m_min: positive,
    life_1_min: positive,
    speed_2_m_min: positive,
    life_2_min: positive,
  };
  return compute(given, rules, v => {
    const n = Math.log(v.speed_1_m_min / v.speed_2_m_min) / Math.log(v.life_2_min / v.life_1_min);
    return n > 0
      ? { n, c_m_min: v.speed_1_m_min * v.life_1_min ** n }
      : absent('the faster test must wear out sooner');
  });
}

/**
 * Taylor's constant from one test.
 * @formula C = v T^n
 * @units surface_speed_m_min m/min, life_min min, n; gives m/min
 * @range v and T over 0, n over 0 and at most 2
 * @source Taylor 1907; ISO 3685
 */
export function taylorConstant(given: {
  surface_speed_m_min: Given;
  life_min: Given;
  n: Given;
}): number | Absent {
  return compute(
    given,
    { surface_speed_m_min: positive, life_min: positive, n: exponent },
    v => v.surface_speed_m_min * v.life_min ** v.n,
  );
}

/**
 * Tool life at a speed.
 * @formula T = (C/v)^(1/n); extended: T = (C/(v f^x ap^y))^(1/n)
 * @units c_m_min m/min, n, surface_speed_m_min m/min, feed_per_rev_mm with feed_exponent x (0), axial_depth_mm with depth_exponent y (0); gives min as an estimate
 * @range C and v over 0, n over 0 and at most 2, x and y 0 or more; range of a factor 2 either way
 * @source Taylor 1907; ISO 3685; x about 0.2 to 0.4, y 0.1 to 0.2 from memory
 */
export function toolLife(given: {
  c_m_min: Given;
  n: Given;
  surface_speed_m_min: Given;
  feed_per_rev_mm?: Given;
  feed_exponent?: Given;
  axial_depth_mm?: Given;
  depth_exponent?: Given;
}): Estimate | Absent {
  const rules = {
    c_m_min: positive,
    n: exponent,
    surface_speed_m_min: positive,
    feed_per_rev_mm: optional(positive, 1),
    feed_exponent: optional(notNegative, 0),
    axial_depth_mm: optional(positive, 1),
    depth_exponent: optional(notNegative, 0),
  };
  return compute(given, rules, v => {
    const load = v.feed_per_rev_mm ** v.feed_exponent * v.axial_depth_mm ** v.depth_exponent;
    const life = (v.c_m_min / v.surface_speed_m_min / load) ** (1 / v.n);
    return { value: life, low: life / 2, high: life * 2, basis: 'Taylor, a factor of 2 either way' };
  });
}

/**
 * Speed for a wanted tool life.
 * @formula v = C / T^n
 * @units c_m_min m/min, n, life_min min; gives m/min
 * @range C and T over 0, n over 0 and at most 2
 * @source Taylor 1907; ISO 3685
 */
export function speedForLife(given: { c_m_min: Given; n: Given; life_min: Given }): number | Absent {
  return compute(
    given,
    { c_m_min: positive, n: exponent, life_min: positive },
    v => v.c_m_min / v.life_min ** v.n,
  );
}

/**
 * How tool life changes with speed.
 * @formula T2/T1 = (v2/v1)^(-1/n); 10 % more speed leaves 68 % at n 0.25, 47 % at n 0.125
 * @units speed_ratio v2/v1, n; gives a factor
 * @range both over 0, n at most 2
 * @source Taylor 1907
 */
export function lifeFactor(given: { speed_ratio: Given; n: Given }): number | Absent {
  return compute(given, { speed_ratio: positive, n: exponent }, v => v.speed_ratio ** (-1 / v.n));
}

/**
 * Crater depth at which a tool is worn out.
 * @formula KT = 0.06 + 0.3 f; the flank ends at VB 0.3 mm even, 0.6 mm uneven wear
 * @units feed_per_rev_mm mm/rev; gives mm
 * @range f 0 or more
 * @source ISO 3685
 */
export function craterLimit(given: { feed_per_rev_mm: Given }): number | Absent {
  return compute(given, { feed_per_rev_mm: notNegative }, v => 0.06 + 0.3 * v.feed_per_rev_mm);
}
