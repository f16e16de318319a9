import type { Values } from './compute.ts';
import { compute, notNegative, optional, positive, together, toothCount, wholeNumber } from './compute.ts';
import { bisect } from './numeric.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

const dampingRatio = { accepts: (z: number) => z > 0 && z < 1, says: 'must be over 0 and under 1' };
const criticalRules = {
  stiffness_n_um: positive,
  damping_ratio: dampingRatio,
  specific_force_n_mm2: positive,
  directional_factor: optional(positive, 1),
  mean_teeth: optional(positive, 1),
};

/**
 * Chip width up to which no speed chatters, one mode.
 * @formula b = 2 k zeta (1 + zeta) / (Ks mu z*)
 * @units stiffness_n_um N/um, damping_ratio share of critical (tool in holder 0.02 to 0.04), specific_force_n_mm2 N/mm2, directional_factor mu (1), mean_teeth z* in cut (1: turning; milling z phi/360); gives mm
 * @range all over 0, zeta under 1
 * @source Tlusty; Schmitz and Smith, Machining Dynamics, ch. 3 (turning) and 4 (mean tooth)
 */
export function criticalChipWidth(given: {
  stiffness_n_um: Given;
  damping_ratio: Given;
  specific_force_n_mm2: Given;
  directional_factor?: Given;
  mean_teeth?: Given;
}): number | Absent {
  return compute(given, criticalRules, v => {
    const k_n_mm = 1000 * v.stiffness_n_um;
    const gain = v.specific_force_n_mm2 * v.directional_factor * v.mean_teeth;
    return (2 * k_n_mm * v.damping_ratio * (1 + v.damping_ratio)) / gain;
  });
}

/**
 * Frequency at which a mode is most ready to chatter.
 * @formula fc = fn sqrt(1 + 2 zeta)
 * @units natural_frequency_hz Hz, damping_ratio share of critical; gives Hz
 * @range fn over 0, zeta over 0 and under 1
 * @source Tlusty; Schmitz and Smith, Machining Dynamics, ch. 3
 */
export function chatterFrequency(given: {
  natural_frequency_hz: Given;
  damping_ratio: Given;
}): number | Absent {
  return compute(
    given,
    { natural_frequency_hz: positive, damping_ratio: dampingRatio },
    v => v.natural_frequency_hz * Math.sqrt(1 + 2 * v.damping_ratio),
  );
}

/**
 * Damping ratio from the width of a resonance peak at half its power (0.707 of its height).
 * @formula zeta = (f2 - f1) / (2 fn), fn between them at the peak; exact for small damping
 * @units lower_hz, upper_hz and peak_hz Hz; gives a share of critical
 * @range 0 < f1 < fn < f2
 * @source half-power method (any vibration text)
 */
export function dampingFromHalfPower(given: {
  lower_hz: Given;
  peak_hz: Given;
  upper_hz: Given;
}): number | Absent {
  return compute(given, { lower_hz: positive, peak_hz: positive, upper_hz: positive }, v =>
    v.lower_hz < v.peak_hz && v.peak_hz < v.upper_hz
      ? (v.upper_hz - v.lower_hz) / (2 * v.peak_hz)
      : absent('the peak must lie between the two half-power points'),
  );
}

const lobeRules = together(criticalRules, {
  natural_frequency_hz: positive,
  teeth: toothCount,
  spindle_rpm: positive,
});
type Cut = Values<typeof lobeRules>;

/** The tip response that a stability limit rests on. */
export interface TipMode {
  readonly natural_frequency_hz: Given;
  readonly stiffness_n_um: Given;
  readonly damping_ratio: Given;
  readonly specific_force_n_mm2: Given;
  readonly directional_factor?: Given;
  /** Mean teeth in cut; 1 for turning, z phi/360 for milling. */
  readonly mean_teeth?: Given;
}

/** How deep a cut may go at one speed, and at what tone it would chatter beyond. */
export interface StabilityLimit {
  readonly depth_mm: number;
  readonly chatter_hz: number;
  /** Number of whole waves between teeth; 0 is the fastest pocket. */
  readonly lobe: number;
}

/** Real part of the flexibility over the static one, and the phase of a wave against the one before. */
function response(r: number, zeta: number): { real: number; phase: number } {
  const a = 1 - r * r;
  const b = 2 * zeta * r;
  return { real: a / (a * a + b * b), phase: 2 * Math.PI - 2 * Math.atan2(-a, b) };
}

const lobeEquation = (v: Cut, lobe: number) => (r: number) =>
  (60 * v.natural_frequency_hz * r) / (v.spindle_rpm * v.teeth) -
  lobe -
  response(r, v.damping_ratio).phase / (2 * Math.PI);

/** Depth and tone on one lobe at a speed. */
function onLobe(v: Cut, lobe: number): StabilityLimit | undefined {
  const f = lobeEquation(v, lobe);
  const top = 2 + ((lobe + 1) * v.spindle_rpm * v.teeth) / (60 * v.natural_frequency_hz);
  if (f(1) >= 0) return undefined;
  const r = bisect(f, 1, top, 200);
  const { real } = response(r, v.damping_ratio);
  if (real >= 0) return undefined;
  const gain = v.specific_force_n_mm2 * v.directional_factor * v.mean_teeth;
  const depth_mm = (-1000 * v.stiffness_n_um) / (2 * gain * real);
  return { depth_mm, chatter_hz: r * v.natural_frequency_hz, lobe };
}

/**
 * Depth of cut at which a given speed starts to chatter, one mode (lobes).
 * @formula b = -1/(2 Ks mu z* Re G(f)), f/(n z/60) = N + eps/(2 pi), eps = 2 pi - 2 atan(Re G/Im G); the least over N = 0, 1, 2 ...
 * @units natural_frequency_hz Hz, stiffness_n_um N/um, damping_ratio, specific_force_n_mm2 N/mm2, directional_factor (1), mean_teeth (1), teeth count, spindle_rpm rev/min; gives mm, Hz and the lobe's number
 * @range all over 0, zeta under 1; very low speeds (over 10000 waves between teeth) are absent; process damping left out
 * @source Schmitz and Smith, Machining Dynamics, ch. 3 and 4
 */
export function stabilityLimit(
  given: TipMode & { readonly teeth: Given; readonly spindle_rpm: Given },
): StabilityLimit | Absent {
  return compute(given, lobeRules, v => {
    const first = Math.max(
      0,
      Math.ceil((60 * v.natural_frequency_hz) / (v.spindle_rpm * v.teeth) - 1 - 1e-12),
    );
    if (first > 10_000) return absent('the speed is too low for lobes to matter');
    let least: StabilityLimit | undefined;
    for (let lobe = first; lobe < first + 5; lobe++) {
      const limit = onLobe(v, lobe);
      if (limit !== undefined && (least === undefined || limit.depth_mm < least.depth_mm)) least = limit;
    }
    return least ?? absent('no lobe reaches this speed');
  });
}

/** One lobe as a line of points. */
export interface StabilityLobe {
  readonly lobe: number;
  readonly spindle_rpm: Float64Array;
  readonly depth_mm: Float64Array;
}

/**
 * Stability lobes as lines to draw, one mode.
 * @formula points of b = -1/(2 Ks mu z* Re G(f)) and n = 60 f/(z (N + eps/(2 pi))) for f above fn
 * @units as stabilityLimit without the speed; lobes (5), points (200) a lobe; gives rev/min and mm
 * @range all over 0, zeta under 1, 1 to 100 lobes, 2 to 2000 points
 * @source Schmitz and Smith, Machining Dynamics, ch. 3 and 4
 */
export function stabilityLobes(
  given: TipMode & { readonly teeth: Given; readonly lobes?: Given; readonly points?: Given },
): readonly StabilityLobe[] | Absent {
  const rules = {
    ...criticalRules,
    natural_frequency_hz: positive,
    teeth: toothCount,
    lobes: optional(wholeNumber(1, 100), 5),
    points: optional(wholeNumber(2, 2000), 200),
  };
  return compute(given, rules, v => {
    const gain = v.specific_force_n_mm2 * v.directional_factor * v.mean_teeth;
    return Array.from({ length: v.lobes }, (_, lobe): StabilityLobe => {
      const spindle_rpm = new Float64Array(v.points);
      const depth_mm = new Float64Array(v.points);
      for (let i = 0; i < v.points; i++) {
        const r = 1 + v.damping_ratio * 0.05 + ((i + 0.5) / v.points) ** 2 * Math.max(1, 8 * v.damping_ratio);
        const { real, phase } = response(r, v.damping_ratio);
        spindle_rpm[i] = (60 * v.natural_frequency_hz * r) / (v.teeth * (lobe + phase / (2 * Math.PI)));
        depth_mm[i] = (-1000 * v.stiffness_n_um) / (2 * gain * real);
      }
      return { lobe, spindle_rpm, depth_mm };
    });
  });
}

/** A speed worth trying and its place among the pockets. */
export interface SpindleSuggestion {
  readonly spindle_rpm: number;
  readonly k: number;
  /** How much a pocket of this order usually gains. */
  readonly worth: 'useful' | 'weak' | 'nothing to gain';
}

/**
 * Spindle speeds that put a whole number of waves of a tone between two teeth, fastest first.
 * @formula n_k = 60 fc / (z (k + 1)), k = 0, 1, 2 ...
 * @units tone_hz Hz, teeth count, max_rpm rev/min, min_rpm rev/min (0), count (4); gives rev/min
 * @range tone over 0, z a whole number from 1, count 1 to 50, limits 0 or more; k = 0 and 1 useful, 2 to 4 weak, above nothing to gain
 * @source Smith and Tlusty 1990, abstract (tooth frequency equal to the natural frequency)
 */
export function speedsForTone(given: {
  tone_hz: Given;
  teeth: Given;
  max_rpm?: Given;
  min_rpm?: Given;
  count?: Given;
}): readonly SpindleSuggestion[] | Absent {
  const rules = {
    tone_hz: positive,
    teeth: toothCount,
    max_rpm: optional(positive, Number.MAX_VALUE),
    min_rpm: optional(notNegative, 0),
    count: optional(wholeNumber(1, 50), 4),
  };
  return compute(given, rules, v => {
    const found: SpindleSuggestion[] = [];
    const top = (60 * v.tone_hz) / v.teeth;
    const first = Math.max(0, Math.ceil(top / v.max_rpm - 1 - 1e-12));
    for (let k = first; found.length < v.count && top / (k + 1) >= Math.max(v.min_rpm, 1e-300); k++) {
      found.push({
        spindle_rpm: top / (k + 1),
        k,
        worth: k <= 1 ? 'useful' : k <= 4 ? 'weak' : 'nothing to gain',
      });
    }
    return found;
  });
}

/**
 * Length of the wave that chatter leaves on the cut; short waves are rubbed out by the flank (process damping).
 * @formula wave = 1000 vc / (60 fc)
 * @units surface_speed_m_min m/min, tone_hz Hz; gives mm
 * @range vc 0 or more, tone over 0; under 0.5 to 1 mm the cut damps itself
 * @source Schmitz and Smith, Machining Dynamics, from memory
 */
export function chatterWavelength(given: { surface_speed_m_min: Given; tone_hz: Given }): number | Absent {
  return compute(
    given,
    { surface_speed_m_min: notNegative, tone_hz: positive },
    v => (1000 * v.surface_speed_m_min) / (60 * v.tone_hz),
  );
}
