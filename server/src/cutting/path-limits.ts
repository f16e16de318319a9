import { radians } from './angles.ts';
import { between, compute, notNegative, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/**
 * Feed on an arc that an acceleration limit allows.
 * @formula v = sqrt(a R)
 * @units radius_mm mm, acceleration_m_s2 m/s2; gives mm/min
 * @range R 0 or more, a over 0
 * @source centripetal acceleration
 */
export function arcFeedLimit(given: { radius_mm: Given; acceleration_m_s2: Given }): number | Absent {
  return compute(
    given,
    { radius_mm: notNegative, acceleration_m_s2: positive },
    v => 60 * Math.sqrt(1000 * v.acceleration_m_s2) * Math.sqrt(v.radius_mm),
  );
}

const cornerRules = { tolerance_mm: notNegative, inside_angle_deg: between(0, 180) };
const cornerRadius = (v: { tolerance_mm: number; inside_angle_deg: number }) => {
  const sine = Math.sin(radians(v.inside_angle_deg) / 2);
  const gap = 2 * Math.sin(radians(180 - v.inside_angle_deg) / 4) ** 2;
  return (v.tolerance_mm * sine) / gap;
};

/**
 * Radius with which a path tolerance rounds a corner.
 * @formula R = delta sin(t/2) / (1 - sin(t/2)), t the angle inside the corner (180 = straight on)
 * @units tolerance_mm mm, inside_angle_deg degrees; gives mm
 * @range delta 0 or more, t from 0 to under 180
 * @source arc touching both lines, delta from the corner (geometry)
 */
export function cornerRoundingRadius(given: {
  tolerance_mm: Given;
  inside_angle_deg: Given;
}): number | Absent {
  return compute(given, cornerRules, v =>
    v.inside_angle_deg === 180 ? absent('straight on: there is no corner') : cornerRadius(v),
  );
}

/**
 * Feed through a corner that path tolerance and acceleration allow.
 * @formula v = sqrt(a R), R = delta sin(t/2) / (1 - sin(t/2)); exact stop is delta 0
 * @units tolerance_mm mm, inside_angle_deg degrees, acceleration_m_s2 m/s2; gives mm/min
 * @range delta 0 or more, t from 0 to under 180, a over 0
 * @source centripetal acceleration; geometry
 */
export function cornerFeedLimit(given: {
  tolerance_mm: Given;
  inside_angle_deg: Given;
  acceleration_m_s2: Given;
}): number | Absent {
  return compute(given, { ...cornerRules, acceleration_m_s2: positive }, v =>
    v.inside_angle_deg === 180
      ? absent('straight on: the corner sets no limit')
      : 60 * Math.sqrt(1000 * v.acceleration_m_s2) * Math.sqrt(cornerRadius(v)),
  );
}

/**
 * Feed through a corner that an allowed jump of velocity permits.
 * @formula v = dv / (2 sin(turn/2)), turn the change of direction
 * @units jump_mm_min mm/min, turn_deg degrees; gives mm/min
 * @range dv 0 or more, turn over 0 and up to 180
 * @source vector difference of two equal speeds
 */
export function cornerFeedByJump(given: { jump_mm_min: Given; turn_deg: Given }): number | Absent {
  const rules = {
    jump_mm_min: notNegative,
    turn_deg: { accepts: (t: number) => t > 0 && t <= 180, says: 'must be over 0 and at most 180' },
  };
  return compute(given, rules, v => v.jump_mm_min / (2 * Math.sin(radians(v.turn_deg) / 2)));
}

/**
 * Feed that a control's block rate allows on short segments.
 * @formula vf = 60 segment x rate
 * @units segment_mm mm, blocks_per_s 1/s; gives mm/min
 * @range both 0 or more
 * @source one block for each segment (definition)
 */
export function blockRateFeed(given: { segment_mm: Given; blocks_per_s: Given }): number | Absent {
  return compute(
    given,
    { segment_mm: notNegative, blocks_per_s: notNegative },
    v => 60 * v.segment_mm * v.blocks_per_s,
  );
}

/**
 * Length of a chord that stays within a deviation from its arc.
 * @formula c = 2 sqrt(e (2 R - e)), about sqrt(8 R e)
 * @units radius_mm mm, deviation_mm mm; gives mm
 * @range R over 0, e from 0 to R
 * @source sagitta of a circle (geometry)
 */
export function chordForDeviation(given: { radius_mm: Given; deviation_mm: Given }): number | Absent {
  return compute(given, { radius_mm: positive, deviation_mm: notNegative }, v =>
    v.deviation_mm > v.radius_mm
      ? absent('the deviation is more than the radius')
      : 2 * Math.sqrt(v.deviation_mm) * Math.sqrt(2 * v.radius_mm - v.deviation_mm),
  );
}

/**
 * Deviation of a chord from its arc.
 * @formula e = R - sqrt(R^2 - c^2/4)
 * @units radius_mm mm, chord_mm mm; gives mm
 * @range R over 0, c from 0 to 2 R
 * @source inverse of chordForDeviation
 */
export function deviationOfChord(given: { radius_mm: Given; chord_mm: Given }): number | Absent {
  return compute(given, { radius_mm: positive, chord_mm: notNegative }, v => {
    const q = v.chord_mm / 2 / v.radius_mm;
    if (q > 1) return absent('the chord is longer than the diameter');
    return (v.chord_mm * q) / 2 / (1 + Math.sqrt((1 - q) * (1 + q)));
  });
}

/**
 * Feed along a straight path that the axes allow.
 * @formula v = min over axes of limit_i / |direction_i|
 * @units direction: distance along each axis, limits_mm_min mm/min in the same order; gives mm/min
 * @range 1 to 9 axes, finite distances not all 0, limits over 0
 * @source projection on each axis (geometry)
 */
export function axisFeedLimit(given: {
  direction: readonly number[] | undefined;
  limits_mm_min: readonly number[] | undefined;
}): number | Absent {
  const { direction, limits_mm_min: limits } = given;
  if (direction === undefined) return absent('direction not known', ['direction']);
  if (limits === undefined) return absent('limits not known', ['limits_mm_min']);
  if (direction.length === 0 || direction.length > 9 || limits.length < direction.length)
    return absent('1 to 9 axes, each with a limit');
  if (!direction.every(d => Number.isFinite(d))) return absent('the direction must be finite');
  const length = Math.hypot(...direction);
  let least = Number.POSITIVE_INFINITY;
  for (let axis = 0; axis < direction.length; axis++) {
    const limit = limits[axis] as number;
    if (!(limit > 0)) return absent('limits must be greater than 0');
    const part = Math.abs(direction[axis] as number) / length;
    if (part > 0) least = Math.min(least, limit / part);
  }
  return Number.isFinite(least) ? least : absent('no axis moves');
}
