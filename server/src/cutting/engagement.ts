import { acosClamped, degrees, radians } from './angles.ts';
import type { Column, ColumnResult } from './compute.ts';
import {
  anyNumber,
  between,
  compute,
  computeColumn,
  notNegative,
  optional,
  positive,
  toothCount,
} from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Where a tooth enters and leaves the stock, measured the way the tooth turns from the wall where chips start thin. */
export interface EngagementArc {
  readonly entry_deg: number;
  readonly exit_deg: number;
}

const widthRules = { radial_width_mm: notNegative, diameter_mm: positive };
const angle = (v: { radial_width_mm: number; diameter_mm: number }) =>
  v.radial_width_mm > v.diameter_mm
    ? absent('width of cut is more than the tool diameter')
    : degrees(2 * Math.asin(Math.sqrt(v.radial_width_mm / v.diameter_mm)));

/**
 * Engagement angle of a cut along a straight wall: the part of the tool's circle that lies in the stock.
 * @formula phi = acos(1 - 2 ae/D)
 * @units radial_width_mm mm (ae), diameter_mm mm; gives degrees
 * @range D over 0, ae from 0 to D (more is an error of the set-up)
 * @source Altintas, Manufacturing Automation, ch. 2; geometry
 */
export function engagementAngle(given: { radial_width_mm: Given; diameter_mm: Given }): number | Absent {
  return compute(given, widthRules, angle);
}

/**
 * Engagement angle for many rows at once.
 * @formula phi = acos(1 - 2 ae/D), row by row
 * @units as engagementAngle; each input one number or an array
 * @range as engagementAngle; rows outside it carry a reason
 * @source Altintas, Manufacturing Automation, ch. 2; geometry
 */
export function engagementAngleColumn(given: { radial_width_mm: Column; diameter_mm: Column }): ColumnResult {
  return computeColumn(given, widthRules, angle);
}

/**
 * Width of cut that belongs to an engagement angle.
 * @formula ae = D (1 - cos phi) / 2
 * @units engagement_deg degrees, diameter_mm mm; gives mm
 * @range phi from 0 to 180, D over 0
 * @source inverse of engagementAngle
 */
export function widthForEngagement(given: { engagement_deg: Given; diameter_mm: Given }): number | Absent {
  return compute(
    given,
    { engagement_deg: between(0, 180), diameter_mm: positive },
    v => v.diameter_mm * Math.sin(radians(v.engagement_deg) / 2) ** 2,
  );
}

/**
 * Engagement angle when the cutter's path runs along the middle of the stock (centred face milling).
 * @formula phi = 2 asin(ae/D)
 * @units radial_width_mm mm (ae), diameter_mm mm; gives degrees
 * @range D over 0, ae from 0 to D
 * @source geometry
 */
export function centredEngagementAngle(given: {
  radial_width_mm: Given;
  diameter_mm: Given;
}): number | Absent {
  return compute(given, widthRules, v =>
    v.radial_width_mm > v.diameter_mm
      ? absent('width of cut is more than the tool diameter')
      : degrees(2 * Math.asin(v.radial_width_mm / v.diameter_mm)),
  );
}

/** Climb: the chip starts thick. Conventional: it starts at nothing. */
export type MillingMode = 'climb' | 'conventional';

/**
 * Climb or conventional, from the side of the stock and the direction of the spindle.
 * @formula clockwise spindle (M3): stock on the right is climb, on the left conventional; counter-clockwise (M4) swaps them
 * @units stock_side as seen along the feed; spindle as seen from the spindle towards the work; gives the mode
 * @range the four combinations
 * @source Altintas, Manufacturing Automation, ch. 2 (convention)
 */
export function millingMode(given: {
  stock_side: 'left' | 'right';
  spindle: 'clockwise' | 'counter-clockwise';
}): MillingMode {
  return (given.stock_side === 'right') === (given.spindle === 'clockwise') ? 'climb' : 'conventional';
}

/**
 * Entry and exit angle of a tooth along a straight wall, 0 at the wall where a conventional chip starts.
 * @formula conventional: 0 to phi; climb: 180 - phi to 180; phi = acos(1 - 2 ae/D)
 * @units radial_width_mm mm, diameter_mm mm, mode; gives degrees
 * @range D over 0, ae from 0 to D (ae = D is a slot: 0 to 180 either way)
 * @source Altintas, Manufacturing Automation, ch. 2 (convention)
 */
export function engagementArc(given: {
  radial_width_mm: Given;
  diameter_mm: Given;
  mode: MillingMode;
}): EngagementArc | Absent {
  const inputs = { radial_width_mm: given.radial_width_mm, diameter_mm: given.diameter_mm };
  return compute(inputs, widthRules, v => {
    const phi = angle(v);
    if (typeof phi !== 'number') return phi;
    return given.mode === 'climb' ? { entry_deg: 180 - phi, exit_deg: 180 } : { entry_deg: 0, exit_deg: phi };
  });
}

/**
 * Entry and exit angle of a face mill over stock between two lines beside its path.
 * @formula entry = acos(y2/R), exit = acos(y1/R), y to the left of the path; a line outside the cutter counts as its edge
 * @units diameter_mm mm, stock_from_mm and stock_to_mm mm to the left of the path (negative: right); spindle direction, clockwise when left out; gives degrees
 * @range D over 0, stock_from_mm < stock_to_mm; absent when the stock lies wholly beside the cutter
 * @source Altintas, Manufacturing Automation, ch. 2; geometry
 */
export function faceMillArc(given: {
  diameter_mm: Given;
  stock_from_mm: Given;
  stock_to_mm: Given;
  spindle?: 'clockwise' | 'counter-clockwise';
}): EngagementArc | Absent {
  const { diameter_mm, stock_from_mm, stock_to_mm } = given;
  const rules = { diameter_mm: positive, stock_from_mm: anyNumber, stock_to_mm: anyNumber };
  return compute({ diameter_mm, stock_from_mm, stock_to_mm }, rules, v => {
    const radius = v.diameter_mm / 2;
    if (v.stock_from_mm >= v.stock_to_mm) return absent('the stock must reach from the right to the left');
    if (v.stock_from_mm >= radius || v.stock_to_mm <= -radius)
      return absent('the stock lies beside the cutter');
    const entry_deg = degrees(acosClamped(v.stock_to_mm / radius));
    const exit_deg = degrees(acosClamped(v.stock_from_mm / radius));
    return given.spindle === 'counter-clockwise'
      ? { entry_deg: 180 - exit_deg, exit_deg: 180 - entry_deg }
      : { entry_deg, exit_deg };
  });
}

/**
 * Mean number of teeth in the cut, with the lag of the helix counted when depth and helix are given.
 * @formula ze = z phi/360; with helix each edge is in cut over phi + psi, psi = 2 ap tan(lambda)/D
 * @units teeth count, engagement_deg degrees, lag_deg degrees (0 when left out); gives teeth
 * @range z a whole number from 1, phi from 0 to 360, lag 0 or more
 * @source Altintas, Manufacturing Automation, ch. 2; Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function teethInCut(given: { teeth: Given; engagement_deg: Given; lag_deg?: Given }): number | Absent {
  const rules = { teeth: toothCount, engagement_deg: between(0, 360), lag_deg: optional(notNegative, 0) };
  return compute(given, rules, v => (v.teeth * (v.engagement_deg + v.lag_deg)) / 360);
}

/**
 * Angle by which the top of a helical edge lags behind its bottom over the depth of cut.
 * @formula psi = 2 ap tan(lambda)/D radians
 * @units diameter_mm mm, helix_deg degrees, axial_depth_mm mm; gives degrees
 * @range D over 0, helix over -90 and under 90 (left-hand helix negative), ap 0 or more
 * @source Altintas, Manufacturing Automation, ch. 2
 */
export function helixLag(given: {
  diameter_mm: Given;
  helix_deg: Given;
  axial_depth_mm: Given;
}): number | Absent {
  return compute(
    given,
    { diameter_mm: positive, helix_deg: between(-90, 90, 'open'), axial_depth_mm: notNegative },
    v => degrees((2 * v.axial_depth_mm * Math.tan(radians(v.helix_deg))) / v.diameter_mm),
  );
}

/**
 * Axial distance from tooth to tooth along the tool: at whole multiples of it as depth of cut the torque is constant.
 * @formula pitch = pi D / (z tan lambda)
 * @units diameter_mm mm, teeth count, helix_deg degrees; gives mm
 * @range D over 0, z a whole number from 1, helix between 0 and 90
 * @source geometry of the helix; constancy checked here by numeric integration
 */
export function axialPitch(given: { diameter_mm: Given; teeth: Given; helix_deg: Given }): number | Absent {
  return compute(
    given,
    { diameter_mm: positive, teeth: toothCount, helix_deg: between(0, 90, 'open') },
    v => (Math.PI * v.diameter_mm) / (v.teeth * Math.tan(radians(v.helix_deg))),
  );
}
