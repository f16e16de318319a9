import type { Values } from './compute.ts';
import { between, compute, notNegative, optional, positive, settle } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Elastic moduli, N/mm2, from memory: carbide 580 to 650 GPa, high-speed steel 200 to 230, steel 206 to 210, heavy metal 300 to 350. */
export const ELASTIC_MODULUS_N_MM2 = {
  carbide: 600_000,
  hss: 210_000,
  steel: 210_000,
  'heavy metal': 330_000,
} as const;
/** A fluted part bends like a plain bar of this share of its diameter (Kops and Vo 1990: about 80 %; range 0.7 to 0.85). */
export const FLUTED_DIAMETER_SHARE = 0.8;

/** One part of a stepped tool, from the tip towards the holder. */
export interface ToolSection {
  readonly length_mm: Given;
  readonly diameter_mm: Given;
  /** Bore of a hollow part (coolant hole, tube); 0 when left out. */
  readonly bore_mm?: Given;
}

/**
 * Second moment of area of a round bar or tube.
 * @formula I = pi (d^4 - b^4) / 64
 * @units diameter_mm mm, bore_mm mm (0 when left out); gives mm4
 * @range d over 0, b from 0 to under d
 * @source beam theory
 */
export function secondMoment(given: { diameter_mm: Given; bore_mm?: Given }): number | Absent {
  return compute(given, { diameter_mm: positive, bore_mm: optional(notNegative, 0) }, v =>
    v.bore_mm >= v.diameter_mm
      ? absent('the bore is not smaller than the bar')
      : (Math.PI *
          (v.diameter_mm ** 2 + v.bore_mm ** 2) *
          (v.diameter_mm - v.bore_mm) *
          (v.diameter_mm + v.bore_mm)) /
        64,
  );
}

const barRules = {
  force_n: notNegative,
  length_mm: positive,
  diameter_mm: positive,
  elastic_modulus_n_mm2: positive,
  bore_mm: optional(notNegative, 0),
  load_from_tip_mm: optional(notNegative, 0),
};

function tipDeflection(v: Values<typeof barRules>): number | Absent {
  if (v.bore_mm >= v.diameter_mm) return absent('the bore is not smaller than the bar');
  if (v.load_from_tip_mm > v.length_mm) return absent('the load lies behind the clamping');
  const arm = v.length_mm - v.load_from_tip_mm;
  const moment = (Math.PI * (v.diameter_mm ** 4 - v.bore_mm ** 4)) / 64;
  return (v.force_n * arm * arm * (3 * v.length_mm - arm)) / (6 * v.elastic_modulus_n_mm2 * moment);
}

/**
 * Deflection at the tip of a bar of one diameter, clamped rigidly at one end (plain tool, boring bar).
 * @formula delta = F a^2 (3 L - a) / (6 E I), a = L - distance of the load from the tip; F L^3/(3 E I) for a load at the tip
 * @units force_n N, length_mm mm, diameter_mm mm, elastic_modulus_n_mm2 N/mm2, bore_mm mm (0), load_from_tip_mm mm (0); gives mm
 * @range F 0 or more, L, d and E over 0, load within the length; small deflections, rigid clamping: a real holder adds its own
 * @source beam theory; worked boring-bar example by Isakov, 2019
 */
export function barDeflection(given: {
  force_n: Given;
  length_mm: Given;
  diameter_mm: Given;
  elastic_modulus_n_mm2: Given;
  bore_mm?: Given;
  load_from_tip_mm?: Given;
}): number | Absent {
  return compute(given, barRules, tipDeflection);
}

const loadRules = {
  force_n: notNegative,
  elastic_modulus_n_mm2: positive,
  load_from_tip_mm: optional(notNegative, 0),
};

/**
 * Deflection at the tip of a tool of several diameters (flutes, neck, shank), clamped rigidly.
 * @formula delta = F/E times the integral of (x - c) x / I(x) dx from c to L, x from the tip, c the load's distance; in closed form part by part
 * @units force_n N, elastic_modulus_n_mm2 N/mm2, sections from the tip (length_mm, diameter_mm, bore_mm), load_from_tip_mm mm (0); gives mm
 * @range F 0 or more, E over 0, 1 to 50 sections with lengths and diameters over 0, load within the length; give fluted parts at 0.8 of their diameter
 * @source beam theory (moment-area), checked here by numeric integration; Kops and Vo 1990 for fluted parts
 */
export function steppedDeflection(given: {
  force_n: Given;
  elastic_modulus_n_mm2: Given;
  sections: readonly ToolSection[];
  load_from_tip_mm?: Given;
}): number | Absent {
  const { force_n, elastic_modulus_n_mm2, load_from_tip_mm } = given;
  return compute({ force_n, elastic_modulus_n_mm2, load_from_tip_mm }, loadRules, v => {
    const parts = sectionValues(given.sections);
    if (!Array.isArray(parts)) return parts as Absent;
    const load = v.load_from_tip_mm;
    const length = parts.reduce((sum, part) => sum + part.length_mm, 0);
    if (load > length) return absent('the load lies behind the clamping');
    let start = 0;
    let sum = 0;
    for (const part of parts) {
      const end = start + part.length_mm;
      const from = Math.max(start, load);
      if (end > from) {
        const moment = (Math.PI * (part.diameter_mm ** 4 - part.bore_mm ** 4)) / 64;
        sum += ((end ** 3 - from ** 3) / 3 - (load * (end ** 2 - from ** 2)) / 2) / moment;
      }
      start = end;
    }
    return (v.force_n * sum) / v.elastic_modulus_n_mm2;
  });
}

interface SectionValues {
  readonly length_mm: number;
  readonly diameter_mm: number;
  readonly bore_mm: number;
}

/** Checks the sections of a stepped bar. */
export function sectionValues(sections: readonly ToolSection[] | undefined): SectionValues[] | Absent {
  if (!Array.isArray(sections) || sections.length === 0) return absent('sections not known', ['sections']);
  if (sections.length > 50) return absent('more than 50 sections');
  const parts: SectionValues[] = [];
  const rules = { length_mm: positive, diameter_mm: positive, bore_mm: optional(notNegative, 0) };
  for (const { length_mm, diameter_mm, bore_mm } of sections as readonly ToolSection[]) {
    const part = compute({ length_mm, diameter_mm, bore_mm }, rules, v =>
      v.bore_mm >= v.diameter_mm ? absent('the bore is not smaller than the bar') : { ...v },
    );
    if ('absent' in part) return part;
    parts.push(part);
  }
  return parts;
}

/**
 * Deflection at the tip of an end mill: fluted part as a thinner bar, shank behind it, load in the middle of the cut.
 * @formula steppedDeflection with flutes of k D over the flute length and the shank over the rest; load at ap/2
 * @units force_n N, diameter_mm mm, flute_length_mm mm, shank_diameter_mm mm, stickout_mm mm, elastic_modulus_n_mm2 N/mm2, axial_depth_mm mm (0: load at the tip), fluted_share (0.8); gives mm
 * @range F and ap 0 or more, others over 0, share from 0.5 to 1; flutes longer than the stickout count to the holder
 * @source beam theory; Kops and Vo 1990 for the share of 0.8 (range 0.7 to 0.85)
 */
export function endMillDeflection(given: {
  force_n: Given;
  diameter_mm: Given;
  flute_length_mm: Given;
  shank_diameter_mm: Given;
  stickout_mm: Given;
  elastic_modulus_n_mm2: Given;
  axial_depth_mm?: Given;
  fluted_share?: Given;
}): number | Absent {
  const rules = {
    force_n: notNegative,
    diameter_mm: positive,
    flute_length_mm: positive,
    shank_diameter_mm: positive,
    stickout_mm: positive,
    elastic_modulus_n_mm2: positive,
    axial_depth_mm: optional(notNegative, 0),
    fluted_share: optional(between(0.5, 1), FLUTED_DIAMETER_SHARE),
  };
  return compute(given, rules, v => {
    const flutes = Math.min(v.flute_length_mm, v.stickout_mm);
    const sections = [{ length_mm: flutes, diameter_mm: v.diameter_mm * v.fluted_share }];
    if (v.stickout_mm > flutes)
      sections.push({ length_mm: v.stickout_mm - flutes, diameter_mm: v.shank_diameter_mm });
    return settle(steppedDeflection({ ...v, sections, load_from_tip_mm: v.axial_depth_mm / 2 }));
  });
}

/**
 * Bending stress in a round section.
 * @formula sigma = 32 F a d / (pi (d^4 - b^4)), a the distance from the load to the section; 32 F a/(pi d^3) without bore
 * @units force_n N, arm_mm mm, diameter_mm mm, bore_mm mm (0 when left out); gives N/mm2
 * @range F and a 0 or more, d over 0, b from 0 to under d
 * @source beam theory
 */
export function bendingStress(given: {
  force_n: Given;
  arm_mm: Given;
  diameter_mm: Given;
  bore_mm?: Given;
}): number | Absent {
  const rules = {
    force_n: notNegative,
    arm_mm: notNegative,
    diameter_mm: positive,
    bore_mm: optional(notNegative, 0),
  };
  return compute(given, rules, v => {
    if (v.bore_mm >= v.diameter_mm) return absent('the bore is not smaller than the bar');
    const hollow = 1 - (v.bore_mm / v.diameter_mm) ** 4;
    return (32 * v.force_n * v.arm_mm) / (Math.PI * v.diameter_mm ** 3 * hollow);
  });
}
