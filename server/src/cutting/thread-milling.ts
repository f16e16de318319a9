import { compute, notNegative, positive, toothCount } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Feeds of a thread mill on its helix. */
export interface ThreadMillFeeds {
  /** Feed of the tool's centre in the plane. */
  readonly centre_feed_mm_min: number;
  /** Feed along the tool's axis: one pitch a turn. */
  readonly axial_feed_mm_min: number;
  /** Both together: what F must be where the control feeds along the helix. */
  readonly path_feed_mm_min: number;
  readonly helix_angle_deg: number;
}

/**
 * Feeds of a thread mill: centre and axis, so that each tooth gets its chip load at the thread's wall.
 * @formula centre: fz z n (Dm - Dt)/Dm inside, (Dm + Dt)/Dm outside; axis: centre P/(pi (Dm - Dt)) or (Dm + Dt)
 * @units diameter_mm mm (thread at the wall, Dm), tool_diameter_mm mm (Dt), pitch_mm mm, chip_load_mm mm a tooth, teeth, spindle_rpm rev/min, side; gives mm/min and degrees
 * @range diameters and P over 0, inside Dt under Dm (at most two thirds of it is common practice), fz and n 0 or more
 * @source same angular rate at wall and centre (geometry), derived here
 */
export function threadMillFeeds(given: {
  diameter_mm: Given;
  tool_diameter_mm: Given;
  pitch_mm: Given;
  chip_load_mm: Given;
  teeth: Given;
  spindle_rpm: Given;
  side: 'internal' | 'external';
}): ThreadMillFeeds | Absent {
  const { side, ...numbers } = given;
  const rules = {
    diameter_mm: positive,
    tool_diameter_mm: positive,
    pitch_mm: positive,
    chip_load_mm: notNegative,
    teeth: toothCount,
    spindle_rpm: notNegative,
  };
  return compute(numbers, rules, v => {
    const path =
      side === 'internal' ? v.diameter_mm - v.tool_diameter_mm : v.diameter_mm + v.tool_diameter_mm;
    if (path <= 0) return absent('the thread mill is not smaller than the thread');
    const centre_feed_mm_min = v.chip_load_mm * v.teeth * v.spindle_rpm * (path / v.diameter_mm);
    const lean = v.pitch_mm / (Math.PI * path);
    return {
      centre_feed_mm_min,
      axial_feed_mm_min: centre_feed_mm_min * lean,
      path_feed_mm_min: centre_feed_mm_min * Math.hypot(1, lean),
      helix_angle_deg: (Math.atan(lean) * 180) / Math.PI,
    };
  });
}

/**
 * How a thread mill must run to climb: direction of the circle and of the axis.
 * @formula right-hand thread, clockwise spindle: internal counter-clockwise going up, external clockwise going down; a left-hand thread swaps up and down
 * @units side, hand of the thread (right when left out); gives directions seen from the spindle
 * @range clockwise spindle (M3)
 * @source geometry; common practice
 */
export function threadMillDirection(given: { side: 'internal' | 'external'; hand?: 'right' | 'left' }): {
  readonly circle: 'clockwise' | 'counter-clockwise';
  readonly axis: 'up' | 'down';
} {
  const up = (given.side === 'internal') === (given.hand !== 'left');
  return { circle: given.side === 'internal' ? 'counter-clockwise' : 'clockwise', axis: up ? 'up' : 'down' };
}
