import { compute, notNegative, positive } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

/**
 * Stiffness of things in series: tool, holder, spindle, work.
 * @formula 1/k = sum of 1/k_i
 * @units stiffness_n_um N/um each (holder nose of a 40-taper machine 20 to 50, light ones 5 to 20: common practice, no source); gives N/um
 * @range 1 to 100 members, each over 0
 * @source springs in series
 */
export function seriesStiffness(given: { stiffness_n_um: readonly Given[] }): number | Absent {
  const members = given.stiffness_n_um;
  if (members === undefined || members.length === 0) return absent('stiffness not known', ['stiffness_n_um']);
  if (members.length > 100) return absent('more than 100 members');
  let compliance = 0;
  for (const stiffness_n_um of members) {
    const one = compute({ stiffness_n_um }, { stiffness_n_um: positive }, v => 1 / v.stiffness_n_um);
    if (typeof one !== 'number') return one;
    compliance += one;
  }
  return compute({ compliance }, { compliance: positive }, v => 1 / v.compliance);
}

/**
 * Stiffness out of a force and what it moves.
 * @formula k = F / delta
 * @units force_n N, deflection_mm mm; gives N/um
 * @range F 0 or more, delta over 0
 * @source definition
 */
export function stiffnessFromDeflection(given: { force_n: Given; deflection_mm: Given }): number | Absent {
  return compute(
    given,
    { force_n: notNegative, deflection_mm: positive },
    v => v.force_n / v.deflection_mm / 1000,
  );
}

/**
 * Deflection of something with a known stiffness.
 * @formula delta = F / k
 * @units force_n N, stiffness_n_um N/um; gives mm
 * @range F 0 or more, k over 0
 * @source definition
 */
export function deflectionFromStiffness(given: { force_n: Given; stiffness_n_um: Given }): number | Absent {
  return compute(
    given,
    { force_n: notNegative, stiffness_n_um: positive },
    v => v.force_n / v.stiffness_n_um / 1000,
  );
}

/**
 * How a change of stickout or diameter changes deflection.
 * @formula factor = (L2/L1)^3 / (d2/d1)^4
 * @units length_ratio and diameter_ratio without unit; gives a factor (25 % more stickout: 1.95)
 * @range both over 0
 * @source beam theory
 */
export function deflectionFactor(given: { length_ratio: Given; diameter_ratio: Given }): number | Absent {
  return compute(
    given,
    { length_ratio: positive, diameter_ratio: positive },
    v => v.length_ratio ** 3 / v.diameter_ratio ** 4,
  );
}

/**
 * Deflection at the top of a thin wall under a force spread along its length (cantilever plate, ends free).
 * @formula delta = 4 F (1 - nu^2) (H/t)^3 / (E L)
 * @units force_n N, height_mm mm, thickness_mm mm, length_mm mm along the wall, elastic_modulus_n_mm2 N/mm2, poisson_ratio (0.3 steel, 0.33 aluminium); gives mm
 * @range F 0 or more, others over 0, nu under 0.5; keep H/t under 10 to 15 without support (common practice, no source)
 * @source plate theory (cylindrical bending)
 */
export function thinWallDeflection(given: {
  force_n: Given;
  height_mm: Given;
  thickness_mm: Given;
  length_mm: Given;
  elastic_modulus_n_mm2: Given;
  poisson_ratio: Given;
}): number | Absent {
  const rules = {
    force_n: notNegative,
    height_mm: positive,
    thickness_mm: positive,
    length_mm: positive,
    elastic_modulus_n_mm2: positive,
    poisson_ratio: { accepts: (n: number) => n >= 0 && n < 0.5, says: 'must be from 0 to under 0.5' },
  };
  return compute(given, rules, v => {
    const slender = (v.height_mm / v.thickness_mm) ** 3;
    return (4 * v.force_n * (1 - v.poisson_ratio ** 2) * slender) / (v.elastic_modulus_n_mm2 * v.length_mm);
  });
}

/**
 * Deflection that finishing or roughing allows.
 * @formula finishing: 5 to 10 um or a quarter of the tolerance; roughing: 25 to 50 um
 * @units operation by name, tolerance_mm mm (may be left out); gives mm as an estimate
 * @range tolerance over 0
 * @source common practice, no source
 */
export function allowableDeflection(given: {
  operation: 'finishing' | 'roughing';
  tolerance_mm?: Given;
}): Estimate | Absent {
  const basis = 'common practice, no source';
  if (given.operation === 'roughing') return { value: 0.035, low: 0.025, high: 0.05, basis };
  if (given.tolerance_mm === undefined) return { value: 0.0075, low: 0.005, high: 0.01, basis };
  return compute({ tolerance_mm: given.tolerance_mm }, { tolerance_mm: positive }, v => ({
    value: v.tolerance_mm / 4,
    low: v.tolerance_mm / 4,
    high: v.tolerance_mm / 4,
    basis: 'a quarter of the tolerance',
  }));
}

/** How a stickout stands against what tools of its kind bear. */
export interface StickoutGrade {
  readonly ratio: number;
  readonly verdict: 'plain' | 'watch' | 'reduce' | 'special';
}

/**
 * Grade of an end mill's stickout.
 * @formula L/D up to 3 plain, up to 4 watch, up to 6 reduce depth and width, above special
 * @units stickout_mm mm, diameter_mm mm; gives a ratio and a name
 * @range both over 0
 * @source common practice, no source
 */
export function stickoutGrade(given: { stickout_mm: Given; diameter_mm: Given }): StickoutGrade | Absent {
  return compute(given, { stickout_mm: positive, diameter_mm: positive }, (v): StickoutGrade => {
    const ratio = v.stickout_mm / v.diameter_mm;
    if (ratio <= 3) return { ratio, verdict: 'plain' };
    return { ratio, verdict: ratio <= 4 ? 'watch' : ratio <= 6 ? 'reduce' : 'special' };
  });
}
