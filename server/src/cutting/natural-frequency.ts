import { compute, notNegative, optional, positive, toothCount } from './compute.ts';
import type { ToolSection } from './deflection.ts';
import { sectionValues } from './deflection.ts';
import type { Absent, Given } from './result.ts';
import { absent, isAbsent } from './result.ts';

/** First eigenvalue of a clamped-free bar, squared: cos b cosh b + 1 = 0. */
export const CANTILEVER_EIGENVALUE_SQUARED = 3.5160152685;
/** Densities, kg/m3. */
export const DENSITY_KG_M3 = { carbide: 14_500, hss: 8000, steel: 7850, 'heavy metal': 17_500 } as const;

/**
 * First bending frequency of a plain round bar clamped rigidly at one end.
 * @formula f1 = 3.516/(2 pi) (d/4) / L^2 sqrt(E/rho) = 0.1399 (d/L^2) sqrt(E/rho)
 * @units diameter_mm mm, length_mm mm, elastic_modulus_n_mm2 N/mm2, density_kg_m3 kg/m3; gives Hz
 * @range all over 0; a real holder lowers it by a third or more: use it to order setups, never as the frequency
 * @source Euler-Bernoulli beam (any vibration text)
 */
export function barNaturalFrequency(given: {
  diameter_mm: Given;
  length_mm: Given;
  elastic_modulus_n_mm2: Given;
  density_kg_m3: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    length_mm: positive,
    elastic_modulus_n_mm2: positive,
    density_kg_m3: positive,
  };
  return compute(given, rules, v => {
    const sound_m_s = Math.sqrt((v.elastic_modulus_n_mm2 * 1e6) / v.density_kg_m3);
    const shape =
      (CANTILEVER_EIGENVALUE_SQUARED / (8 * Math.PI)) * (v.diameter_mm / v.length_mm / v.length_mm);
    return shape * 1000 * sound_m_s;
  });
}

/**
 * First bending frequency of a plain round bar with a mass at its tip (boring bar with head).
 * @formula f1 = (1/(2 pi)) sqrt(3 E I / (L^3 (M + 0.2427 m)))
 * @units diameter_mm mm, length_mm mm, elastic_modulus_n_mm2 N/mm2, density_kg_m3 kg/m3, tip_mass_kg kg; gives Hz
 * @range dimensions, E and rho over 0, M 0 or more; rigid clamping
 * @source Rayleigh's method (any vibration text)
 */
export function barNaturalFrequencyWithTipMass(given: {
  diameter_mm: Given;
  length_mm: Given;
  elastic_modulus_n_mm2: Given;
  density_kg_m3: Given;
  tip_mass_kg: Given;
}): number | Absent {
  const rules = {
    diameter_mm: positive,
    length_mm: positive,
    elastic_modulus_n_mm2: positive,
    density_kg_m3: positive,
    tip_mass_kg: notNegative,
  };
  return compute(given, rules, v => {
    const moment = (Math.PI * v.diameter_mm ** 4) / 64;
    const bar_kg = ((Math.PI * v.diameter_mm ** 2) / 4) * v.length_mm * v.density_kg_m3 * 1e-9;
    const stiffness_n_m = ((3 * v.elastic_modulus_n_mm2 * moment) / v.length_mm ** 3) * 1000;
    return Math.sqrt(stiffness_n_m / (v.tip_mass_kg + 0.2427 * bar_kg)) / (2 * Math.PI);
  });
}

const GRID = 600;

/**
 * First bending frequency of a stepped round tool clamped rigidly, by iterating its own shape (Stodola).
 * @formula repeat: load = mass x shape, bend the bar under it, take the new shape; omega^2 = shape at the tip before over after
 * @units sections from the tip (length_mm, diameter_mm, bore_mm), elastic_modulus_n_mm2 N/mm2, density_kg_m3 kg/m3, tip_mass_kg kg (0); gives Hz
 * @range 1 to 50 sections with sizes over 0, E and rho over 0, M 0 or more; shear and rotary inertia left out (short thick bars come out high)
 * @source Euler-Bernoulli beam; Stodola iteration; checked against the plain bar and a beam of finite elements
 */
export function steppedNaturalFrequency(given: {
  sections: readonly ToolSection[];
  elastic_modulus_n_mm2: Given;
  density_kg_m3: Given;
  tip_mass_kg?: Given;
}): number | Absent {
  const { elastic_modulus_n_mm2, density_kg_m3, tip_mass_kg } = given;
  const rules = {
    elastic_modulus_n_mm2: positive,
    density_kg_m3: positive,
    tip_mass_kg: optional(notNegative, 0),
  };
  return compute({ elastic_modulus_n_mm2, density_kg_m3, tip_mass_kg }, rules, v => {
    const parts = sectionValues(given.sections);
    if (isAbsent(parts)) return parts;
    const slices = sliceSections(parts, v.density_kg_m3);
    return stodola(slices, v.elastic_modulus_n_mm2, v.tip_mass_kg);
  });
}

interface Slices {
  /** Length, bending moment of area and mass of each slice, from the tip. */
  readonly dx_mm: number[];
  readonly moment_mm4: number[];
  readonly mass_kg: number[];
}

function sliceSections(
  parts: readonly { length_mm: number; diameter_mm: number; bore_mm: number }[],
  density: number,
): Slices {
  const slices: Slices = { dx_mm: [], moment_mm4: [], mass_kg: [] };
  const length = parts.reduce((sum, part) => sum + part.length_mm, 0);
  for (const part of parts) {
    const count = Math.max(4, Math.ceil(GRID * (part.length_mm / length)));
    const dx = part.length_mm / count;
    const area = (Math.PI * (part.diameter_mm ** 2 - part.bore_mm ** 2)) / 4;
    for (let i = 0; i < count; i++) {
      slices.dx_mm.push(dx);
      slices.moment_mm4.push((Math.PI * (part.diameter_mm ** 4 - part.bore_mm ** 4)) / 64);
      slices.mass_kg.push(area * dx * density * 1e-9);
    }
  }
  return slices;
}

function stodola({ dx_mm, moment_mm4, mass_kg }: Slices, modulus: number, tipMass: number): number | Absent {
  const count = dx_mm.length;
  let shape = Float64Array.from({ length: count }, (_, i) => ((count - i - 0.5) / count) ** 2);
  let tip = 1;
  let omega2 = 0;
  for (let turn = 0; turn < 40; turn++) {
    const curvature = new Float64Array(count);
    let shear = tipMass * tip;
    let moment = 0;
    for (let i = 0; i < count; i++) {
      const dx = dx_mm[i] as number;
      const load = (mass_kg[i] as number) * (shape[i] as number);
      const middle = moment + (shear * dx) / 2 + (load * dx) / 8;
      curvature[i] = middle / (modulus * (moment_mm4[i] as number));
      moment += shear * dx + (load * dx) / 2;
      shear += load;
    }
    const next = new Float64Array(count);
    let slope = 0;
    let deflection = 0;
    for (let i = count - 1; i >= 0; i--) {
      const dx = dx_mm[i] as number;
      next[i] = deflection + (slope * dx) / 2 + ((curvature[i] as number) * dx * dx) / 8;
      deflection += slope * dx + ((curvature[i] as number) * dx * dx) / 2;
      slope += (curvature[i] as number) * dx;
    }
    const before = omega2;
    // kg x mm bends by N at 1000 mm/m: forces above are kg x shape, so the ratio is in 1/(1000 s2)
    omega2 = (1000 * tip) / deflection;
    if (!(deflection > 0) || !Number.isFinite(omega2)) return absent('the result is too large to state');
    shape = next.map(y => y / deflection);
    tip = 1;
    if (Math.abs(omega2 - before) < 1e-12 * omega2) break;
  }
  return Math.sqrt(omega2) / (2 * Math.PI);
}

/**
 * Highest speed for bar stock that stands out behind the spindle: half its first bending speed.
 * @formula n = 60 f1 / 2, f1 of a bar clamped at one end
 * @units diameter_mm mm, length_mm mm (unsupported), elastic_modulus_n_mm2 N/mm2, density_kg_m3 kg/m3; gives rev/min
 * @range all over 0
 * @source beam theory; half of it: common practice, no source
 */
export function barWhipSpeed(given: {
  diameter_mm: Given;
  length_mm: Given;
  elastic_modulus_n_mm2: Given;
  density_kg_m3: Given;
}): number | Absent {
  const frequency = barNaturalFrequency(given);
  return isAbsent(frequency)
    ? frequency
    : compute({ frequency }, { frequency: positive }, v => 30 * v.frequency);
}

/**
 * How often a tooth strikes.
 * @formula ft = n z / 60
 * @units spindle_rpm rev/min, teeth count; gives Hz
 * @range n 0 or more, z a whole number from 1
 * @source definition
 */
export function toothPassFrequency(given: { spindle_rpm: Given; teeth: Given }): number | Absent {
  return compute(given, { spindle_rpm: notNegative, teeth: toothCount }, v => (v.spindle_rpm * v.teeth) / 60);
}
