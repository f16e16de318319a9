import { degrees } from './angles.ts';
import { between, compute, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Height of the sharp 60-degree triangle over the pitch: cos 30 degrees. */
export const THREAD_HEIGHT_SHARE = 0.8660254037844386;

/** Diameters of an ISO or unified 60-degree thread. */
export interface ThreadDiameters {
  readonly pitch_diameter_mm: number;
  /** Internal minor diameter (D1), what a full thread leaves in a nut. */
  readonly internal_minor_mm: number;
  /** Root of the screw (d3). */
  readonly external_root_mm: number;
  /** Height of the sharp triangle (H). */
  readonly triangle_height_mm: number;
}

/**
 * Basic diameters of an ISO metric or unified thread.
 * @formula H = 0.866025 P; d2 = d - 0.649519 P; D1 = d - 1.082532 P; d3 = d - 1.226869 P
 * @units diameter_mm mm (major), pitch_mm mm; gives mm
 * @range d over 0, P over 0 and under d / 1.226869
 * @source ISO 68-1, ISO 724; DIN 13 for d3
 */
export function threadDiameters(given: { diameter_mm: Given; pitch_mm: Given }): ThreadDiameters | Absent {
  return compute(given, { diameter_mm: positive, pitch_mm: positive }, v => {
    const height = THREAD_HEIGHT_SHARE * v.pitch_mm;
    const external_root_mm = v.diameter_mm - (17 / 12) * height;
    if (external_root_mm <= 0) return absent('the pitch is too coarse for the diameter');
    return {
      pitch_diameter_mm: v.diameter_mm - 0.75 * height,
      internal_minor_mm: v.diameter_mm - 1.25 * height,
      external_root_mm,
      triangle_height_mm: height,
    };
  });
}

/**
 * Pitch of an inch thread.
 * @formula P = 25.4 / TPI
 * @units threads_per_inch 1/in; gives mm
 * @range TPI over 0
 * @source definition
 */
export function pitchFromThreadsPerInch(given: { threads_per_inch: Given }): number | Absent {
  return compute(given, { threads_per_inch: positive }, v => 25.4 / v.threads_per_inch);
}

/** Which height counts as 100 %: handbook tables use 0.649519 P, some formula texts 0.541266 P (the basic thread). */
export type PercentConvention = 'handbook' | 'basic';
const HEIGHT: Record<PercentConvention, number> = { handbook: 1.299038105676658, basic: 1.0825317547305482 };

/**
 * Percent of thread that a drilled hole leaves. Two conventions are in print, so the caller names one: 75 % by handbook tables is 90 % by the basic height.
 * @formula handbook: 100 (d - drill)/(1.299038 P); basic: 100 (d - drill)/(1.082532 P)
 * @units diameter_mm mm (major), drill_mm mm, pitch_mm mm, convention; gives %
 * @range d and P over 0, drill 0 or more; negative when the hole is larger than the thread
 * @source Machinery's Handbook, 31st ed., p. 2155 (percent columns follow the first); ISO 68-1 for the second
 */
export function threadPercent(given: {
  diameter_mm: Given;
  drill_mm: Given;
  pitch_mm: Given;
  convention: PercentConvention;
}): number | Absent {
  const { convention, ...numbers } = given;
  if (!Object.hasOwn(HEIGHT, convention)) return absent('percent convention not known', ['convention']);
  return compute(
    numbers,
    { diameter_mm: positive, drill_mm: notNegative, pitch_mm: positive },
    v => (100 * (v.diameter_mm - v.drill_mm)) / (HEIGHT[convention] * v.pitch_mm),
  );
}

/**
 * Drill for a cut thread of a wanted percentage.
 * @formula handbook: d - 0.01299038 P pct; basic: d - 0.01082532 P pct
 * @units diameter_mm mm (major), pitch_mm mm, percent %, convention; gives mm
 * @range d and P over 0, percent 0 to 100; absent when no hole is left
 * @source inverse of threadPercent
 */
export function tapDrill(given: {
  diameter_mm: Given;
  pitch_mm: Given;
  percent: Given;
  convention: PercentConvention;
}): number | Absent {
  const { convention, ...numbers } = given;
  if (!Object.hasOwn(HEIGHT, convention)) return absent('percent convention not known', ['convention']);
  return compute(numbers, { diameter_mm: positive, pitch_mm: positive, percent: between(0, 100) }, v => {
    const drill = v.diameter_mm - (HEIGHT[convention] * v.pitch_mm * v.percent) / 100;
    return drill > 0 ? drill : absent('the pitch is too coarse for the diameter');
  });
}

/**
 * Drill for a formed (rolled) thread.
 * @formula drill = d - 0.0068 P pct
 * @units diameter_mm mm (major), pitch_mm mm, percent % (about 65); gives mm
 * @range d and P over 0, percent 0 to 100; absent when no hole is left
 * @source handbook rule, from memory
 */
export function formingTapDrill(given: {
  diameter_mm: Given;
  pitch_mm: Given;
  percent: Given;
}): number | Absent {
  return compute(given, { diameter_mm: positive, pitch_mm: positive, percent: between(0, 100) }, v => {
    const drill = v.diameter_mm - 0.0068 * v.pitch_mm * v.percent;
    return drill > 0 ? drill : absent('the pitch is too coarse for the diameter');
  });
}

/**
 * Helix angle of a thread, for the tool's side clearance.
 * @formula angle = atan(lead / (pi d2))
 * @units lead_mm mm (pitch times starts), pitch_diameter_mm mm; gives degrees
 * @range both over 0
 * @source geometry
 */
export function threadHelixAngle(given: { lead_mm: Given; pitch_diameter_mm: Given }): number | Absent {
  return compute(given, { lead_mm: positive, pitch_diameter_mm: positive }, v =>
    degrees(Math.atan2(v.lead_mm, Math.PI * v.pitch_diameter_mm)),
  );
}
