import { anyNumber, compute } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Millimetres in one inch, exact by definition. */
export const MM_PER_INCH = 25.4;
/** Metres in one foot, exact by definition. */
export const M_PER_FOOT = 0.3048;
/** Newtons in one pound-force: 0.45359237 kg x 9.80665 m/s2, exact. */
export const N_PER_LBF = 4.4482216152605;
/** Kilowatts in one mechanical horsepower: 550 ft lbf/s. */
export const KW_PER_HP = 0.7456998715822702;

/** Each unit: what it measures, and its size in the unit that the library uses inside. */
export const UNITS = /* @__PURE__ */ (() =>
  ({
    mm: ['length', 1],
    um: ['length', 1e-3],
    in: ['length', MM_PER_INCH],
    uin: ['length', MM_PER_INCH * 1e-6],
    ft: ['length', 1000 * M_PER_FOOT],
    m: ['length', 1000],
    'mm/min': ['feed', 1],
    'in/min': ['feed', MM_PER_INCH],
    'mm/s': ['feed', 60],
    'm/min': ['feed', 1000],
    'ft/min': ['feed', 1000 * M_PER_FOOT],
    'm/s': ['feed', 60_000],
    'cm3/min': ['removal', 1],
    'mm3/min': ['removal', 1e-3],
    'mm3/s': ['removal', 0.06],
    'in3/min': ['removal', MM_PER_INCH ** 3 / 1000],
    N: ['force', 1],
    kN: ['force', 1000],
    lbf: ['force', N_PER_LBF],
    'N m': ['torque', 1],
    'lbf in': ['torque', (N_PER_LBF * MM_PER_INCH) / 1000],
    'lbf ft': ['torque', N_PER_LBF * M_PER_FOOT],
    kW: ['power', 1],
    W: ['power', 1e-3],
    hp: ['power', KW_PER_HP],
    'N/mm2': ['stress', 1],
    GPa: ['stress', 1000],
    psi: ['stress', N_PER_LBF / MM_PER_INCH ** 2],
    ksi: ['stress', (1000 * N_PER_LBF) / MM_PER_INCH ** 2],
    'W s/mm3': ['stress', 1000],
    'kW/(cm3/s)': ['stress', 1000],
    'hp/(in3/min)': ['stress', (KW_PER_HP * 60_000_000) / MM_PER_INCH ** 3],
    min: ['time', 1],
    s: ['time', 1 / 60],
    h: ['time', 60],
    deg: ['angle', 1],
    rad: ['angle', 180 / Math.PI],
  }) as const)();
export type Unit = keyof typeof UNITS;

/**
 * Converts a value between two units of the same kind.
 * @formula value x (size of from) / (size of to); 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 lbf = 4.4482216152605 N, 1 hp = 550 ft lbf/s
 * @units any pair of the table UNITS that measures the same
 * @range any number; absent when the two units measure different things
 * @source international yard and pound agreement of 1959; NIST SP 811 (definitions)
 */
export function convert(given: { value: Given; from: Unit; to: Unit }): number | Absent {
  const from = Object.hasOwn(UNITS, given.from) ? UNITS[given.from] : undefined;
  const to = Object.hasOwn(UNITS, given.to) ? UNITS[given.to] : undefined;
  if (from === undefined || to === undefined) return absent('unit not known', ['unit']);
  if (from[0] !== to[0]) return absent(`${given.from} measures ${from[0]}, ${given.to} measures ${to[0]}`);
  return compute({ value: given.value }, { value: anyNumber }, ({ value }) => (value * from[1]) / to[1]);
}
