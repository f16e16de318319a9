import type { Column, ColumnResult } from './compute.ts';
import { compute, computeColumn, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';

const rules = { diameter_mm: positive, spindle_rpm: notNegative };
const speed = (v: { diameter_mm: number; spindle_rpm: number }) =>
  (Math.PI * v.diameter_mm * v.spindle_rpm) / 1000;

/**
 * Surface speed: how fast the cutting edge passes the work (milling, drilling) or the work the edge (turning).
 * @formula vc = pi D n / 1000
 * @units diameter_mm mm (the working diameter), spindle_rpm rev/min; gives m/min
 * @range D over 0, n 0 or more
 * @source ISO 3002-1, definition of cutting speed
 */
export function surfaceSpeed(given: { diameter_mm: Given; spindle_rpm: Given }): number | Absent {
  return compute(given, rules, speed);
}

/**
 * Surface speed for many rows at once.
 * @formula vc = pi D n / 1000, row by row
 * @units as surfaceSpeed; each input one number or an array
 * @range as surfaceSpeed; rows outside it carry a reason
 * @source ISO 3002-1, definition of cutting speed
 */
export function surfaceSpeedColumn(given: { diameter_mm: Column; spindle_rpm: Column }): ColumnResult {
  return computeColumn(given, rules, speed);
}

/**
 * Spindle speed that gives a wanted surface speed.
 * @formula n = 1000 vc / (pi D)
 * @units surface_speed_m_min m/min, diameter_mm mm; gives rev/min
 * @range vc 0 or more, D over 0
 * @source ISO 3002-1, definition of cutting speed, solved for n
 */
export function spindleForSurfaceSpeed(given: {
  surface_speed_m_min: Given;
  diameter_mm: Given;
}): number | Absent {
  return compute(
    given,
    { surface_speed_m_min: notNegative, diameter_mm: positive },
    v => (1000 * v.surface_speed_m_min) / (Math.PI * v.diameter_mm),
  );
}

/**
 * Diameter that runs at a wanted surface speed when the spindle turns at a given speed.
 * @formula D = 1000 vc / (pi n)
 * @units surface_speed_m_min m/min, spindle_rpm rev/min; gives mm
 * @range vc 0 or more, n over 0
 * @source ISO 3002-1, definition of cutting speed, solved for D
 */
export function diameterForSurfaceSpeed(given: {
  surface_speed_m_min: Given;
  spindle_rpm: Given;
}): number | Absent {
  return compute(
    given,
    { surface_speed_m_min: notNegative, spindle_rpm: positive },
    v => (1000 * v.surface_speed_m_min) / (Math.PI * v.spindle_rpm),
  );
}
