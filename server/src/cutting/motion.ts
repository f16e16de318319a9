import type { Values } from './compute.ts';
import { compute, notNegative, optional, positive, together } from './compute.ts';
import { bisect } from './numeric.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** A move as the machine can make it. */
export interface LimitedMove {
  readonly time_s: number;
  readonly peak_mm_min: number;
  /** Whether the programmed feed is reached. */
  readonly reaches_feed: boolean;
}

const rules = {
  length_mm: notNegative,
  feed_mm_min: positive,
  acceleration_m_s2: positive,
  entry_mm_min: optional(notNegative, 0),
  exit_mm_min: optional(notNegative, 0),
};
/** Jerk is optional: without it acceleration starts at once. */
const jerkRules = together(rules, { jerk_m_s3: positive });

interface Ramp {
  /** Time and length of a change between two speeds, mm/s. */
  readonly time: (from: number, to: number) => number;
}
const length = (ramp: Ramp, from: number, to: number) => ((from + to) / 2) * ramp.time(from, to);

/**
 * Time of a move under an acceleration limit, with its entry and exit speeds (trapezoid; with jerk, an S-shaped one).
 * @formula rest to rest: L/v + v/a when L >= v^2/a, else 2 sqrt(L/a), peak sqrt(a L); with entry and exit peak^2 = (2 a L + v0^2 + v1^2)/2; jerk j: a change of speed dv takes dv/a + a/j, or 2 sqrt(dv/j) when a is not reached
 * @units length_mm mm, feed_mm_min mm/min, acceleration_m_s2 m/s2, entry_mm_min and exit_mm_min mm/min (0), jerk_m_s3 m/s3 (left out: none); gives s and mm/min
 * @range L 0 or more, feed and acceleration over 0, entry and exit from 0 to the feed; absent when the exit speed cannot be reached over L
 * @source kinematics of constant acceleration and constant jerk
 */
export function limitedMove(given: {
  length_mm: Given;
  feed_mm_min: Given;
  acceleration_m_s2: Given;
  entry_mm_min?: Given;
  exit_mm_min?: Given;
  jerk_m_s3?: Given;
}): LimitedMove | Absent {
  const { jerk_m_s3, ...numbers } = given;
  if (jerk_m_s3 === undefined) {
    return compute(numbers, rules, v => {
      const a = 1000 * v.acceleration_m_s2;
      return shape(v, { time: (from, to) => Math.abs(to - from) / a }, a);
    });
  }
  return compute(given, jerkRules, v => {
    const a = 1000 * v.acceleration_m_s2;
    const j = 1000 * v.jerk_m_s3;
    const time = (from: number, to: number) => {
      const change = Math.abs(to - from);
      return change * j >= a * a ? change / a + a / j : 2 * Math.sqrt(change / j);
    };
    return shape(v, { time }, undefined);
  });
}

function shape(v: Values<typeof rules>, ramp: Ramp, constant: number | undefined): LimitedMove | Absent {
  const feed = v.feed_mm_min / 60;
  const entry = v.entry_mm_min / 60;
  const exit = v.exit_mm_min / 60;
  if (entry > feed || exit > feed) return absent('entry and exit speed must not be over the feed');
  if (v.length_mm === 0 && entry === exit)
    return { time_s: 0, peak_mm_min: v.entry_mm_min, reaches_feed: entry === feed };
  if (length(ramp, entry, exit) > v.length_mm * (1 + 1e-12))
    return absent('the exit speed cannot be reached over this length');
  const both = (peak: number) => length(ramp, entry, peak) + length(ramp, peak, exit);
  const reaches = both(feed) <= v.length_mm;
  const peak = reaches ? feed : peakSpeed(v.length_mm, entry, exit, feed, both, constant);
  const cruise = reaches ? (v.length_mm - both(feed)) / feed : 0;
  const time_s = ramp.time(entry, peak) + ramp.time(peak, exit) + cruise;
  return { time_s, peak_mm_min: 60 * peak, reaches_feed: reaches };
}

function peakSpeed(
  distance: number,
  entry: number,
  exit: number,
  feed: number,
  both: (peak: number) => number,
  constant: number | undefined,
): number {
  const least = Math.max(entry, exit);
  if (constant !== undefined) {
    return Math.max(least, Math.sqrt((2 * constant * distance + entry * entry + exit * exit) / 2));
  }
  return bisect(peak => both(peak) - distance, least, feed, 200);
}

/**
 * Highest exit speed that a move can reach from an entry speed, and the other way round: the highest entry speed from which it can still slow down to an exit speed.
 * @formula v1 = sqrt(v0^2 + 2 a L)
 * @units entry_mm_min mm/min, length_mm mm, acceleration_m_s2 m/s2; gives mm/min
 * @range v0 and L 0 or more, a over 0
 * @source kinematics of constant acceleration
 */
export function reachableSpeed(given: {
  entry_mm_min: Given;
  length_mm: Given;
  acceleration_m_s2: Given;
}): number | Absent {
  const own = { entry_mm_min: notNegative, length_mm: notNegative, acceleration_m_s2: positive };
  return compute(given, own, v =>
    Math.hypot(v.entry_mm_min, 60 * Math.sqrt(2000 * v.acceleration_m_s2 * v.length_mm)),
  );
}

/**
 * Time of a rapid move: each axis at its own rapid, the slowest sets the time; straight-line interpolation.
 * @formula t = max over axes of 60 |d_i| / rapid_i
 * @units distances_mm and rapids_mm_min, one a axis in the same order (degrees and deg/min for rotary); gives s
 * @range 1 to 9 axes, finite distances, rapids over 0; no acceleration
 * @source definition
 */
export function rapidTime(given: {
  distances_mm: readonly number[] | undefined;
  rapids_mm_min: readonly number[] | undefined;
}): number | Absent {
  const { distances_mm, rapids_mm_min } = given;
  const missing: string[] = [];
  if (distances_mm === undefined) missing.push('distances_mm');
  if (rapids_mm_min === undefined) missing.push('rapids_mm_min');
  if (distances_mm === undefined || rapids_mm_min === undefined)
    return absent('distances or rapids not known', missing);
  if (distances_mm.length === 0 || distances_mm.length > 9 || rapids_mm_min.length < distances_mm.length)
    return absent('1 to 9 axes, each with a rapid');
  let slowest = 0;
  for (let axis = 0; axis < distances_mm.length; axis++) {
    const one = compute(
      { distance_mm: Math.abs(distances_mm[axis] as number), rapid_mm_min: rapids_mm_min[axis] },
      { distance_mm: notNegative, rapid_mm_min: positive },
      v => (60 * v.distance_mm) / v.rapid_mm_min,
    );
    if (typeof one !== 'number') return one;
    slowest = Math.max(slowest, one);
  }
  return slowest;
}
