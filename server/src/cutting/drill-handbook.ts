import { compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';

/** Factors of the handbook's drill equations by the ratio of chisel edge to diameter. */
export const DRILL_POINT_FACTORS = {
  /** Conventional point, chisel edge 0.18 D. */
  standard: { A: 1.085, B: 1.355, J: 0.03 },
  /** Split point, chisel edge 0.03 D. */
  split: { A: 1, B: 1.1, J: 0.001 },
} as const;

/**
 * Feed factor of the handbook's drill equations.
 * @formula Ff = f^0.8
 * @units feed_per_rev in mm/rev or in/rev, the same system as the equation it goes into; gives a factor
 * @range f 0 or more
 * @source Machinery's Handbook, 31st ed., p. 1153 Table 8
 */
export function drillFeedFactor(given: { feed_per_rev: Given }): number | Absent {
  return compute(given, { feed_per_rev: notNegative }, v => v.feed_per_rev ** 0.8);
}

/**
 * Diameter factors of the handbook's drill equations.
 * @formula thrust FT = D^0.8, torque FM = D^1.8
 * @units diameter in mm or in, the same system as the equation it goes into; gives factors
 * @range D 0 or more
 * @source Machinery's Handbook, 31st ed., p. 1153 Table 9
 */
export function drillDiameterFactors(given: {
  diameter: Given;
}): { readonly thrust: number; readonly torque: number } | Absent {
  return compute(given, { diameter: notNegative }, v => ({
    thrust: v.diameter ** 0.8,
    torque: v.diameter ** 1.8,
  }));
}

/** Thrust and torque of a drill with its chisel edge. */
export interface DrillLoad {
  readonly thrust_n: number;
  readonly torque_nm: number;
}

/**
 * Thrust and torque of a conventional drill, the chisel edge included.
 * @formula T = 0.05 Kd Ff FT B W + 0.007 Kd D^2 J W; M = 0.000025 Kd Ff FM A W
 * @units work_factor (Kd: about 24000 steel of 200 HB, 7000 aluminium), feed_per_rev_mm mm/rev, diameter_mm mm, wear_factor (1 when left out), point by name; gives N and N m
 * @range Kd over 0, f 0 or more, D over 0, wear over 0
 * @source Machinery's Handbook, 31st ed., pp. 1152-1153; values of Kd from memory
 */
export function handbookDrillLoad(given: {
  work_factor: Given;
  feed_per_rev_mm: Given;
  diameter_mm: Given;
  wear_factor?: Given;
  point: keyof typeof DRILL_POINT_FACTORS;
}): DrillLoad | Absent {
  const { work_factor, feed_per_rev_mm, diameter_mm, wear_factor } = given;
  const rules = {
    work_factor: positive,
    feed_per_rev_mm: notNegative,
    diameter_mm: positive,
    wear_factor: optional(positive, 1),
  };
  const { A, B, J } = DRILL_POINT_FACTORS[given.point] ?? DRILL_POINT_FACTORS.standard;
  return compute({ work_factor, feed_per_rev_mm, diameter_mm, wear_factor }, rules, v => {
    const work = v.work_factor * v.wear_factor;
    const feed = v.feed_per_rev_mm ** 0.8;
    return {
      thrust_n: 0.05 * work * feed * v.diameter_mm ** 0.8 * B + 0.007 * work * v.diameter_mm ** 2 * J,
      torque_nm: 0.000025 * work * feed * v.diameter_mm ** 1.8 * A,
    };
  });
}

const inchRules = {
  work_factor: positive,
  feed_factor: notNegative,
  thrust_factor: notNegative,
  torque_factor: notNegative,
  diameter_in: positive,
  wear_factor: optional(positive, 1),
};

/**
 * Thrust and torque of a drill by the inch form of the handbook, from its printed factors.
 * @formula T = 2 Kd Ff FT B W + Kd D^2 J W [lbf]; M = Kd Ff FM A W [lbf in]
 * @units work_factor, feed_factor, thrust_factor, torque_factor, diameter_in in, wear_factor (1 when left out), point by name; gives lbf and lbf in
 * @range Kd and D over 0, factors 0 or more
 * @source Machinery's Handbook, 31st ed., pp. 1152-1153
 */
export function handbookDrillLoadInch(given: {
  work_factor: Given;
  feed_factor: Given;
  thrust_factor: Given;
  torque_factor: Given;
  diameter_in: Given;
  wear_factor?: Given;
  point: keyof typeof DRILL_POINT_FACTORS;
}): { readonly thrust_lbf: number; readonly torque_lbf_in: number } | Absent {
  const { A, B, J } = DRILL_POINT_FACTORS[given.point] ?? DRILL_POINT_FACTORS.standard;
  const { point: _point, ...numbers } = given;
  return compute(numbers, inchRules, v => {
    const work = v.work_factor * v.wear_factor;
    return {
      thrust_lbf: 2 * work * v.feed_factor * v.thrust_factor * B + work * v.diameter_in ** 2 * J,
      torque_lbf_in: work * v.feed_factor * v.torque_factor * A,
    };
  });
}
