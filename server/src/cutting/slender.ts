import type { Values } from './compute.ts';
import { compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

const rules = {
  force_n: notNegative,
  length_mm: positive,
  diameter_mm: positive,
  elastic_modulus_n_mm2: positive,
  bore_mm: optional(notNegative, 0),
  load_at_mm: notNegative,
};
type Work = Values<typeof rules>;

/** Work held at its ends and loaded somewhere between. */
export interface SlenderWork {
  readonly force_n: Given;
  readonly length_mm: Given;
  readonly diameter_mm: Given;
  readonly elastic_modulus_n_mm2: Given;
  readonly bore_mm?: Given;
  /** Distance of the tool from the chuck (or from one centre). */
  readonly load_at_mm: Given;
}

function bend(
  given: SlenderWork,
  numerator: (a: number, b: number, length: number) => number,
): number | Absent {
  return compute(given, rules, (v: Work) => {
    if (v.bore_mm >= v.diameter_mm) return absent('the bore is not smaller than the bar');
    if (v.load_at_mm > v.length_mm) return absent('the load lies beyond the work');
    const moment = (Math.PI * (v.diameter_mm ** 4 - v.bore_mm ** 4)) / 64;
    const share = numerator(v.load_at_mm, v.length_mm - v.load_at_mm, v.length_mm);
    return (v.force_n / v.elastic_modulus_n_mm2) * (share / moment);
  });
}

/**
 * Deflection under the tool of work held in the chuck only.
 * @formula delta = F a^3 / (3 E I), a from the chuck to the tool
 * @units force_n N, length_mm mm, diameter_mm mm, elastic_modulus_n_mm2 N/mm2, bore_mm mm (0), load_at_mm mm from the chuck; gives mm on the radius
 * @range F and a 0 or more, a up to L, others over 0; usual up to L/D 3 or 4
 * @source beam theory
 */
export function chuckedDeflection(given: SlenderWork): number | Absent {
  return bend(given, a => a ** 3 / 3);
}

/**
 * Deflection under the tool of work held in the chuck and by a live centre.
 * @formula delta = F a^3 b^2 (3 L + b) / (12 E I L^3), a from the chuck, b = L - a; middle 7/768 F L^3/(E I)
 * @units force_n N, length_mm mm, diameter_mm mm, elastic_modulus_n_mm2 N/mm2, bore_mm mm (0), load_at_mm mm from the chuck; gives mm on the radius
 * @range F and a 0 or more, a up to L, others over 0
 * @source beam tables (fixed and pinned)
 */
export function chuckAndCentreDeflection(given: SlenderWork): number | Absent {
  return bend(
    given,
    (a, b, length) => (a * (a / length) * (a / length) * b * (b / length) * (3 * length + b)) / 12,
  );
}

/**
 * Deflection under the tool of work held between two centres.
 * @formula delta = F a^2 b^2 / (3 E I L), b = L - a; middle F L^3/(48 E I)
 * @units force_n N, length_mm mm, diameter_mm mm, elastic_modulus_n_mm2 N/mm2, bore_mm mm (0), load_at_mm mm from one centre; gives mm on the radius
 * @range F and a 0 or more, a up to L, others over 0
 * @source beam tables (pinned at both ends)
 */
export function betweenCentresDeflection(given: SlenderWork): number | Absent {
  return bend(given, (a, b, length) => (a * b * (a / length) * b) / 3);
}

/** What slender work asks for, by its length over its diameter. */
export type WorkSupport = 'chuck only' | 'live centre' | 'steady rest';

/**
 * Support that slender work asks for.
 * @formula L/D up to 3.5 chuck only, up to 11 live centre, above steady rest (common figures 3 to 4 and 10 to 12)
 * @units length_mm mm, diameter_mm mm; gives a name
 * @range both over 0
 * @source common practice, no source
 */
export function workSupport(given: { length_mm: Given; diameter_mm: Given }): WorkSupport | Absent {
  return compute(given, { length_mm: positive, diameter_mm: positive }, (v): WorkSupport => {
    const ratio = v.length_mm / v.diameter_mm;
    if (ratio <= 3.5) return 'chuck only';
    return ratio <= 11 ? 'live centre' : 'steady rest';
  });
}
