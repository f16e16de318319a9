import { radians } from './angles.ts';
import type { Column, ColumnResult } from './compute.ts';
import {
  between,
  compute,
  computeColumn,
  edgeAngle,
  notNegative,
  optional,
  positive,
  toothCount,
} from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

const wallRules = {
  chip_load_mm: notNegative,
  radial_width_mm: notNegative,
  diameter_mm: positive,
  edge_angle_deg: optional(edgeAngle, 90),
};
interface Wall {
  readonly chip_load_mm: number;
  readonly radial_width_mm: number;
  readonly diameter_mm: number;
  readonly edge_angle_deg: number;
}
const tooWide = () => absent('width of cut is more than the tool diameter');

function greatestAtWall(v: Wall): number | Absent {
  const q = v.radial_width_mm / v.diameter_mm;
  if (q > 1) return tooWide();
  const radial = q >= 0.5 ? 1 : 2 * Math.sqrt(q * (1 - q));
  return v.chip_load_mm * Math.sin(radians(v.edge_angle_deg)) * radial;
}

function meanAtWall(v: Wall): number | Absent {
  const q = v.radial_width_mm / v.diameter_mm;
  if (q > 1) return tooWide();
  if (q === 0) return 0;
  return (v.chip_load_mm * Math.sin(radians(v.edge_angle_deg)) * q) / Math.asin(Math.sqrt(q));
}

/**
 * Greatest chip thickness of a milling cut along a straight wall. Narrow cuts make thinner chips than the feed per tooth;
 * from half the diameter up the full feed per tooth is reached.
 * @formula h_max = fz sin(kappa) 2 sqrt(q - q^2) for q = ae/D < 0.5, else fz sin(kappa)
 * @units chip_load_mm mm a tooth, radial_width_mm mm, diameter_mm mm, edge_angle_deg degrees (90 when left out); gives mm
 * @range fz 0 or more, ae from 0 to D, kappa between 0 and 180; circular path of the tooth (feed small against the circumference)
 * @source Martellotti 1941 (circular-path approximation); ISO 3002-3 for the edge angle
 */
export function greatestChipThickness(given: {
  chip_load_mm: Given;
  radial_width_mm: Given;
  diameter_mm: Given;
  edge_angle_deg?: Given;
}): number | Absent {
  return compute(given, wallRules, greatestAtWall);
}

/**
 * Greatest chip thickness for many rows at once.
 * @formula as greatestChipThickness, row by row
 * @units as greatestChipThickness; each input one number or an array
 * @range as greatestChipThickness; rows outside it carry a reason
 * @source Martellotti 1941 (circular-path approximation)
 */
export function greatestChipThicknessColumn(given: {
  chip_load_mm: Column;
  radial_width_mm: Column;
  diameter_mm: Column;
  edge_angle_deg?: Column;
}): ColumnResult {
  return computeColumn(given, wallRules, greatestAtWall);
}

/**
 * Mean chip thickness over the arc of a milling cut along a straight wall, exact by the engagement angle.
 * @formula h_m = 2 fz sin(kappa) q / phi, q = ae/D, phi = acos(1 - 2 q) in radians
 * @units chip_load_mm mm a tooth, radial_width_mm mm, diameter_mm mm, edge_angle_deg degrees (90 when left out); gives mm
 * @range fz 0 or more, ae from 0 to D, kappa between 0 and 180
 * @source Dietrich and Tschaetsch, Praxis der Zerspantechnik: h_m = 360/(pi phi) (ae/D) fz sin(kappa)
 */
export function meanChipThickness(given: {
  chip_load_mm: Given;
  radial_width_mm: Given;
  diameter_mm: Given;
  edge_angle_deg?: Given;
}): number | Absent {
  return compute(given, wallRules, meanAtWall);
}

/**
 * Mean chip thickness for many rows at once.
 * @formula as meanChipThickness, row by row
 * @units as meanChipThickness; each input one number or an array
 * @range as meanChipThickness; rows outside it carry a reason
 * @source Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function meanChipThicknessColumn(given: {
  chip_load_mm: Column;
  radial_width_mm: Column;
  diameter_mm: Column;
  edge_angle_deg?: Column;
}): ColumnResult {
  return computeColumn(given, wallRules, meanAtWall);
}

const arcRules = {
  chip_load_mm: notNegative,
  entry_deg: between(0, 180),
  exit_deg: between(0, 180),
  edge_angle_deg: optional(edgeAngle, 90),
};

/**
 * Chip thickness at one place of the arc.
 * @formula h = fz sin(kappa) sin(phi)
 * @units chip_load_mm mm a tooth, angle_deg degrees, edge_angle_deg degrees (90 when left out); gives mm
 * @range fz 0 or more, phi from 0 to 180, kappa between 0 and 180
 * @source Martellotti 1941; ISO 3002-3
 */
export function chipThicknessAt(given: {
  chip_load_mm: Given;
  angle_deg: Given;
  edge_angle_deg?: Given;
}): number | Absent {
  const rules = {
    chip_load_mm: notNegative,
    angle_deg: between(0, 180),
    edge_angle_deg: optional(edgeAngle, 90),
  };
  return compute(given, rules, v => {
    const folded = Math.min(v.angle_deg, 180 - v.angle_deg);
    return v.chip_load_mm * Math.sin(radians(v.edge_angle_deg)) * Math.sin(radians(folded));
  });
}

/**
 * Greatest chip thickness over any arc of engagement (face mill, corner, offset path).
 * @formula fz sin(kappa) when 90 degrees lies in the arc, else fz sin(kappa) times the larger of sin(entry), sin(exit)
 * @units chip_load_mm mm a tooth, entry_deg and exit_deg degrees, edge_angle_deg degrees (90 when left out); gives mm
 * @range fz 0 or more, entry and exit from 0 to 180, exit not before entry
 * @source Martellotti 1941; ISO 3002-3
 */
export function greatestChipThicknessOverArc(given: {
  chip_load_mm: Given;
  entry_deg: Given;
  exit_deg: Given;
  edge_angle_deg?: Given;
}): number | Absent {
  return compute(given, arcRules, v => {
    if (v.exit_deg < v.entry_deg) return absent('the exit angle lies before the entry angle');
    const spans = v.entry_deg <= 90 && v.exit_deg >= 90;
    const at = v.exit_deg < 90 ? v.exit_deg : v.entry_deg;
    const radial = spans ? 1 : Math.sin(radians(Math.min(at, 180 - at)));
    return v.chip_load_mm * Math.sin(radians(v.edge_angle_deg)) * radial;
  });
}

/**
 * Mean chip thickness over any arc of engagement (face mill, corner, offset path).
 * @formula h_m = fz sin(kappa) (cos entry - cos exit) / (exit - entry), angles in radians
 * @units chip_load_mm mm a tooth, entry_deg and exit_deg degrees, edge_angle_deg degrees (90 when left out); gives mm
 * @range fz 0 or more, entry and exit from 0 to 180, exit not before entry
 * @source mean of fz sin(kappa) sin(phi) over the arc; Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function meanChipThicknessOverArc(given: {
  chip_load_mm: Given;
  entry_deg: Given;
  exit_deg: Given;
  edge_angle_deg?: Given;
}): number | Absent {
  return compute(given, arcRules, v => {
    if (v.exit_deg < v.entry_deg) return absent('the exit angle lies before the entry angle');
    const half = radians(v.exit_deg - v.entry_deg) / 2;
    const middle = Math.sin(radians((v.entry_deg + v.exit_deg) / 2));
    const spread = half === 0 ? 1 : Math.sin(half) / half;
    return v.chip_load_mm * Math.sin(radians(v.edge_angle_deg)) * middle * spread;
  });
}

/** Chip load for a wanted thickness, and whether the cap holds it. */
export interface CappedChipLoad {
  readonly chip_load_mm: number;
  readonly capped: boolean;
}

/**
 * Feed per tooth that restores a wanted greatest chip thickness in a narrow cut, held at a cap that gullet and machine allow.
 * @formula fz = h_max / (sin(kappa) 2 sqrt(q - q^2)) for q = ae/D < 0.5, else h_max / sin(kappa); at most the cap
 * @units chip_thickness_mm mm, radial_width_mm mm, diameter_mm mm, cap_mm mm a tooth, edge_angle_deg degrees (90 when left out); gives mm a tooth and whether the cap bites
 * @range h 0 or more, ae from over 0 to D, cap over 0; towards ae = 0 the formula grows without bound, so the cap is required
 * @source inverse of greatestChipThickness; cap of 2 to 3 times the catalogue value is common practice, no source
 */
export function chipLoadForThickness(given: {
  chip_thickness_mm: Given;
  radial_width_mm: Given;
  diameter_mm: Given;
  cap_mm: Given;
  edge_angle_deg?: Given;
}): CappedChipLoad | Absent {
  const rules = {
    chip_thickness_mm: notNegative,
    radial_width_mm: positive,
    diameter_mm: positive,
    cap_mm: positive,
    edge_angle_deg: optional(edgeAngle, 90),
  };
  return compute(given, rules, v => {
    const thinning = greatestAtWall({ ...v, chip_load_mm: 1 });
    if (typeof thinning !== 'number') return thinning;
    const wanted = thinning > 0 ? v.chip_thickness_mm / thinning : Number.POSITIVE_INFINITY;
    return { chip_load_mm: Math.min(wanted, v.cap_mm), capped: wanted > v.cap_mm };
  });
}

/**
 * How far the circular-path approximation of chip thickness is from the true path of a tooth.
 * @formula relative difference about fz z / (pi D)
 * @units chip_load_mm mm a tooth, teeth count, diameter_mm mm; gives a share of 1
 * @range fz 0 or more, z a whole number from 1, D over 0; under 0.01 the approximation is good
 * @source Martellotti 1941; order of magnitude derived here
 */
export function circularPathError(given: {
  chip_load_mm: Given;
  teeth: Given;
  diameter_mm: Given;
}): number | Absent {
  return compute(
    given,
    { chip_load_mm: notNegative, teeth: toothCount, diameter_mm: positive },
    v => (v.chip_load_mm * v.teeth) / (Math.PI * v.diameter_mm),
  );
}
