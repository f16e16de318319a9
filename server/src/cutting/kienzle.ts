import type { Column, ColumnResult, Rule } from './compute.ts';
import { between, compute, computeColumn, notNegative, optional, positive, together } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';

/** Scatter of specific forces between sources for one grade, as a share of the value. */
export const FORCE_SCATTER = 0.2;
/** Under this thickness (mm) the Kienzle slope steepens and the value is low confidence. */
export const THIN_CHIP_MM = 0.05;

export const slope: Rule = between(0, 0.95);
export const kienzleRules = {
  kc11_n_mm2: positive,
  mc: slope,
  chip_thickness_mm: positive,
  correction: optional(positive, 1),
};
const forceRules = together(kienzleRules, { chip_thickness_mm: notNegative, chip_width_mm: notNegative });
interface Cut {
  readonly kc11_n_mm2: number;
  readonly mc: number;
  readonly chip_thickness_mm: number;
  readonly chip_width_mm: number;
  readonly correction: number;
}
const force = (v: Cut) => v.kc11_n_mm2 * v.chip_width_mm * v.chip_thickness_mm ** (1 - v.mc) * v.correction;

/** A value with the usual scatter of force data; thin chips are named as less sure. */
export function forceEstimate(value: number, thinnest_mm: number): Estimate {
  const thin = thinnest_mm < THIN_CHIP_MM;
  const basis = `Kienzle, ${100 * FORCE_SCATTER} % scatter between sources${thin ? '; thin chip: low confidence' : ''}`;
  return { value, low: value * (1 - FORCE_SCATTER), high: value * (1 + FORCE_SCATTER), basis };
}

/**
 * Specific cutting force at a chip thickness.
 * @formula kc = kc1.1 h^(-mc) K
 * @units kc11_n_mm2 N/mm2, mc slope, chip_thickness_mm mm, correction (product of the factors, 1 when left out); gives N/mm2 as an estimate
 * @range kc1.1 and h over 0, mc from 0 to 0.95; good for h 0.05 to 1.5 mm and h over the edge radius; thinner chips are marked low confidence
 * @source Kienzle 1952; Koenig and Klocke, Fertigungsverfahren 1; scatter of 15 to 25 % between tables
 */
export function specificForce(given: {
  kc11_n_mm2: Given;
  mc: Given;
  chip_thickness_mm: Given;
  correction?: Given;
}): Estimate | Absent {
  return compute(given, kienzleRules, v =>
    forceEstimate(v.kc11_n_mm2 * v.chip_thickness_mm ** -v.mc * v.correction, v.chip_thickness_mm),
  );
}

/**
 * Cutting force on one edge.
 * @formula Fc = kc1.1 b h^(1 - mc) K
 * @units kc11_n_mm2 N/mm2, mc slope, chip_thickness_mm mm, chip_width_mm mm, correction (1 when left out); gives N as an estimate
 * @range kc1.1 over 0, mc from 0 to 0.95, h and b 0 or more; good for h 0.05 to 1.5 mm
 * @source Kienzle 1952; Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function cuttingForce(given: {
  kc11_n_mm2: Given;
  mc: Given;
  chip_thickness_mm: Given;
  chip_width_mm: Given;
  correction?: Given;
}): Estimate | Absent {
  return compute(given, forceRules, v => forceEstimate(force(v), v.chip_thickness_mm));
}

/**
 * Cutting force for many rows at once: the middle values, without the range (20 % either way).
 * @formula Fc = kc1.1 b h^(1 - mc) K, row by row
 * @units as cuttingForce; each input one number or an array; gives N
 * @range as cuttingForce; rows outside it carry a reason
 * @source Kienzle 1952
 */
export function cuttingForceColumn(given: {
  kc11_n_mm2: Column;
  mc: Column;
  chip_thickness_mm: Column;
  chip_width_mm: Column;
  correction?: Column;
}): ColumnResult {
  return computeColumn(given, forceRules, force);
}

/**
 * Correction of the specific force for a rake other than the one the table was made for.
 * @formula K = 1 - (gamma - gamma_ref) / 66.7, that is 1.5 % a degree; some editions print /100
 * @units rake_deg degrees, reference_rake_deg degrees (6 steel, 2 cast iron, 0 light metal), percent_per_deg (1.5 when left out); gives a factor
 * @range result must stay over 0
 * @source Koenig and Klocke, Fertigungsverfahren 1; the references seen in print, the 1 % form in another edition
 */
export function rakeCorrection(given: {
  rake_deg: Given;
  reference_rake_deg: Given;
  percent_per_deg?: Given;
}): number | Absent {
  const rules = {
    rake_deg: between(-60, 60),
    reference_rake_deg: between(-60, 60),
    percent_per_deg: optional(between(0, 3), 100 / 66.7),
  };
  return compute(given, rules, v =>
    Math.max(0.1, 1 - ((v.rake_deg - v.reference_rake_deg) * v.percent_per_deg) / 100),
  );
}

/**
 * Correction of the specific force for cutting speed. Not to be stacked with the factor for a high-speed-steel tool.
 * @formula K = 2.023 / vc^0.153 for vc from 20 to 100 m/min, 1.380 / vc^0.07 above
 * @units surface_speed_m_min m/min; gives a factor
 * @range vc from 20 up
 * @source Dietrich and Tschaetsch, Praxis der Zerspantechnik, from memory
 */
export function speedCorrection(given: { surface_speed_m_min: Given }): number | Absent {
  const rules = { surface_speed_m_min: { accepts: (v: number) => v >= 20, says: 'must be 20 or more' } };
  return compute(given, rules, v =>
    v.surface_speed_m_min <= 100
      ? 2.023 / v.surface_speed_m_min ** 0.153
      : 1.38 / v.surface_speed_m_min ** 0.07,
  );
}

/** Factors of the specific force that are looked up, not computed. */
export const FORCE_FACTORS = {
  wear: { new: 1, used: 1.15, dull: 1.3 },
  compression: {
    'outside turning': 1,
    shaping: 1.1,
    'inside turning': 1.2,
    drilling: 1.2,
    milling: 1.2,
    grooving: 1.3,
  },
  substrate: { carbide: 1, hss: 1.2, ceramic: 0.9, cbn: 0.9, diamond: 0.9 },
} as const;

/** The corrections that went into a specific force, with their product. */
export interface ForceCorrection {
  readonly factor: number;
  readonly applied: readonly string[];
}

/**
 * The product of the force corrections that apply, each named so that it can be shown.
 * @formula K = K_wear K_compression K_substrate K_rake K_speed, each 1 when left out
 * @units wear, operation and substrate by name; rake and speed as factors from rakeCorrection and speedCorrection; gives a factor and names
 * @range factors over 0; wear dull 1.3 is the end of life, used 1.15 the middle of the way
 * @source Koenig and Klocke, Fertigungsverfahren 1 (wear 1.3, milling 1.2, high-speed steel 1.2 seen in print); others from memory
 */
export function forceCorrection(given: {
  wear?: keyof typeof FORCE_FACTORS.wear;
  operation?: keyof typeof FORCE_FACTORS.compression;
  substrate?: keyof typeof FORCE_FACTORS.substrate;
  rake_factor?: Given;
  speed_factor?: Given;
}): ForceCorrection | Absent {
  const named: (readonly [string, number])[] = [];
  const add = (title: string, table: Readonly<Record<string, number>>, key: string | undefined) => {
    const value = key !== undefined && Object.hasOwn(table, key) ? table[key] : undefined;
    if (value !== undefined) named.push([`${title} ${key}`, value]);
  };
  add('wear', FORCE_FACTORS.wear, given.wear);
  add('compression in', FORCE_FACTORS.compression, given.operation);
  add('tool', FORCE_FACTORS.substrate, given.substrate);
  const { rake_factor, speed_factor } = given;
  const rules = { rake_factor: optional(positive, 1), speed_factor: optional(positive, 1) };
  return compute({ rake_factor, speed_factor }, rules, v => {
    if (rake_factor !== undefined) named.push(['rake', v.rake_factor]);
    if (speed_factor !== undefined) named.push(['speed', v.speed_factor]);
    return {
      factor: named.reduce((product, [, value]) => product * value, 1),
      applied: named.map(([title, value]) => `${title}: ${Number(value.toFixed(3))}`),
    };
  });
}

/**
 * Feed and passive force of turning as shares of the cutting force.
 * @formula Ff = 0.3 to 0.5 Fc, Fp = 0.25 to 0.5 Fc with a sharp tool; dull tools reach Fc
 * @units force_n N (Fc), wear by name (new when left out); gives N as estimates
 * @range F 0 or more
 * @source Koenig and Klocke, Fertigungsverfahren 1, from memory, coarse
 */
export function feedAndPassiveForce(given: {
  force_n: Given;
  wear?: 'new' | 'used' | 'dull';
}): { readonly feed_force_n: Estimate; readonly passive_force_n: Estimate } | Absent {
  const top = given.wear === 'dull' ? 1 : given.wear === 'used' ? 0.75 : 0.5;
  return compute({ force_n: given.force_n }, { force_n: notNegative }, ({ force_n }) => {
    const within = (low: number): Estimate => ({
      value: (force_n * (low + top)) / 2,
      low: force_n * low,
      high: force_n * top,
      basis: `${low} to ${top} of the cutting force`,
    });
    return { feed_force_n: within(0.3), passive_force_n: within(0.25) };
  });
}

/** Fits kc1.1 and mc through two measured points; used to check tables and to take in a maker's own points. */
export interface KienzleFit {
  readonly kc11_n_mm2: number;
  readonly mc: number;
}

/**
 * kc1.1 and mc through two points of specific force.
 * @formula mc = ln(kc_a/kc_b) / ln(h_b/h_a); kc1.1 = kc_a h_a^mc
 * @units kc_a_n_mm2 and kc_b_n_mm2 N/mm2 at h_a_mm and h_b_mm mm; gives N/mm2 and a slope
 * @range all over 0, two different thicknesses
 * @source Kienzle 1952, solved for its constants
 */
export function kienzleFromTwoPoints(given: {
  h_a_mm: Given;
  kc_a_n_mm2: Given;
  h_b_mm: Given;
  kc_b_n_mm2: Given;
}): KienzleFit | Absent {
  const rules = { h_a_mm: positive, kc_a_n_mm2: positive, h_b_mm: positive, kc_b_n_mm2: positive };
  return compute(given, rules, v => {
    const mc = Math.log(v.kc_a_n_mm2 / v.kc_b_n_mm2) / Math.log(v.h_b_mm / v.h_a_mm);
    return { kc11_n_mm2: v.kc_a_n_mm2 * v.h_a_mm ** mc, mc };
  });
}
