import { arcAngle } from './arcs.ts';
import { compute, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/**
 * Largest engagement of a trochoidal slot, and the one at the foremost point of the circle.
 * The largest lies 30 to 40 degrees before that point and is 8 to 9 % larger.
 * @formula foremost: acos(((w/2)^2 - (rho + s)^2 - r^2)/(2 (rho + s) r)), rho = (w - D)/2; greatest: search over the circle against the one before
 * @units slot_width_mm mm (w), diameter_mm mm (D), step_mm mm (s, advance per circle); gives degrees
 * @range w over D, D over 0, s over 0 and at most D
 * @source law of cosines; the search derived here and checked by brute force
 */
export function trochoidEngagement(given: {
  slot_width_mm: Given;
  diameter_mm: Given;
  step_mm: Given;
}): { readonly foremost_deg: number; readonly greatest_deg: number } | Absent {
  return compute(given, { slot_width_mm: positive, diameter_mm: positive, step_mm: positive }, v => {
    const rho = (v.slot_width_mm - v.diameter_mm) / 2;
    if (rho <= 0) return absent('the slot is not wider than the tool');
    if (v.step_mm > v.diameter_mm) return absent('the step is more than the tool diameter');
    const r = v.diameter_mm / 2;
    const foremost_deg = arcAngle(rho + v.step_mm, r, v.slot_width_mm / 2, 'inside');
    let greatest_deg = foremost_deg;
    for (let i = 0; i <= 3600; i++) {
      greatest_deg = Math.max(
        greatest_deg,
        trochoidAt((i * Math.PI) / 3600, rho, r, v.step_mm, v.slot_width_mm / 2),
      );
    }
    return { foremost_deg, greatest_deg };
  });
}

/**
 * Engagement at one place of the circle: the tool's circle outside the disc that the circle before left and on the stock's
 * side of the tool. The centre stands at angle `at` from the direction of advance.
 */
function trochoidAt(at: number, rho: number, r: number, step: number, wall: number): number {
  const x = step + rho * Math.cos(at);
  const y = rho * Math.sin(at);
  const centre = Math.hypot(x, y);
  const inside = arcAngle(centre, r, wall, 'inside');
  const outward = Math.atan2(y, x);
  // the circle under way has already cleared what lies behind the normal of its own path
  const swept = Math.abs(((at - outward) * 180) / Math.PI);
  return Math.max(0, Math.min(inside + swept, 2 * inside, 180));
}
