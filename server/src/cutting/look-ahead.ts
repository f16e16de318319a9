import { compute, optional, positive, wholeNumber } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** What a path planner makes of a row of moves. */
export interface PlannedPath {
  readonly time_s: Float64Array;
  readonly peak_mm_min: Float64Array;
  /** Speed at the end of each move. */
  readonly exit_mm_min: Float64Array;
  readonly total_s: number;
}

/**
 * Times of a row of moves under an acceleration limit along the path, corner limits and a look-ahead.
 * @formula backward v_i^2 <= v_(i+1)^2 + 2 a L_i from a stop at the end of the look-ahead, forward v_(i+1)^2 <= v_i^2 + 2 a L_i, then a trapezoid each
 * @units length_mm, feed_mm_min and corner_mm_min (limit at the end of each move) arrays a move, acceleration_m_s2 m/s2, blocks_ahead count (left out: all); gives s and mm/min
 * @range arrays of one length, 1 or more; lengths 0 or more, feeds over 0, corners 0 or more (missing numbers: absent), acceleration over 0, 1 to 1000 blocks ahead; starts and ends at rest
 * @source kinematics of constant acceleration; the usual two-pass planning
 */
export function planPath(given: {
  length_mm: ArrayLike<number>;
  feed_mm_min: ArrayLike<number>;
  corner_mm_min: ArrayLike<number>;
  acceleration_m_s2: Given;
  blocks_ahead?: Given;
}): PlannedPath | Absent {
  const { length_mm, feed_mm_min, corner_mm_min, acceleration_m_s2, blocks_ahead } = given;
  const rules = {
    acceleration_m_s2: positive,
    blocks_ahead: optional(wholeNumber(1, 1000), Number.MAX_SAFE_INTEGER),
  };
  return compute({ acceleration_m_s2, blocks_ahead }, rules, v => {
    const wrong = checkRows(length_mm, feed_mm_min, corner_mm_min);
    if (wrong !== undefined) return wrong;
    const a = 1000 * v.acceleration_m_s2;
    const rows = { length_mm, feed_mm_min, corner_mm_min };
    const ends = v.blocks_ahead >= length_mm.length ? wholePath(rows, a) : window(rows, a, v.blocks_ahead);
    return times(rows, a, ends);
  });
}

interface Rows {
  readonly length_mm: ArrayLike<number>;
  readonly feed_mm_min: ArrayLike<number>;
  readonly corner_mm_min: ArrayLike<number>;
}

function checkRows(...[lengths, feeds, corners]: readonly ArrayLike<number>[]): Absent | undefined {
  if (lengths === undefined || feeds === undefined || corners === undefined) return absent('moves not known');
  if (lengths.length === 0 || feeds.length !== lengths.length || corners.length !== lengths.length)
    return absent('lengths, feeds and corners must be given for each move');
  for (let i = 0; i < lengths.length; i++) {
    const [length, feed, corner] = [lengths[i] as number, feeds[i] as number, corners[i] as number];
    if (!(length >= 0 && length <= Number.MAX_VALUE)) return absent(`length of move ${i + 1} not known`);
    if (!(feed > 0 && feed <= Number.MAX_VALUE))
      return absent(`feed of move ${i + 1} must be greater than 0`);
    if (!(corner >= 0)) return absent(`corner limit after move ${i + 1} not known`);
  }
  return undefined;
}

/** Limit at the end of a move: its corner, and the feeds on both sides; mm/s. */
const endLimit = (rows: Rows, i: number): number =>
  i + 1 >= rows.length_mm.length
    ? 0
    : Math.min(
        rows.corner_mm_min[i] as number,
        rows.feed_mm_min[i] as number,
        rows.feed_mm_min[i + 1] as number,
      ) / 60;

function wholePath(rows: Rows, a: number): Float64Array {
  const count = rows.length_mm.length;
  const ends = new Float64Array(count);
  for (let i = count - 2; i >= 0; i--) {
    const next = ends[i + 1] as number;
    ends[i] = Math.min(endLimit(rows, i), Math.sqrt(next * next + 2 * a * (rows.length_mm[i + 1] as number)));
  }
  let speed = 0;
  for (let i = 0; i < count; i++) {
    speed = Math.min(ends[i] as number, Math.sqrt(speed * speed + 2 * a * (rows.length_mm[i] as number)));
    ends[i] = speed;
  }
  return ends;
}

/** Sees only some moves ahead and must be able to stop at the end of what it sees. */
function window(rows: Rows, a: number, ahead: number): Float64Array {
  const count = rows.length_mm.length;
  const ends = new Float64Array(count);
  let speed = 0;
  for (let i = 0; i < count; i++) {
    let allowed = 0;
    for (let seen = Math.min(count - 1, i + ahead); seen > i; seen--) {
      const limit = Math.sqrt(allowed * allowed + 2 * a * (rows.length_mm[seen] as number));
      allowed = Math.min(endLimit(rows, seen - 1), limit);
    }
    speed = Math.min(allowed, Math.sqrt(speed * speed + 2 * a * (rows.length_mm[i] as number)));
    ends[i] = speed;
  }
  return ends;
}

function times(rows: Rows, a: number, ends: Float64Array): PlannedPath {
  const count = ends.length;
  const time_s = new Float64Array(count);
  const peak_mm_min = new Float64Array(count);
  let entry = 0;
  let total_s = 0;
  for (let i = 0; i < count; i++) {
    const length = rows.length_mm[i] as number;
    const feed = (rows.feed_mm_min[i] as number) / 60;
    const exit = ends[i] as number;
    const peak = Math.max(
      entry,
      exit,
      Math.min(feed, Math.sqrt(a * length + (entry * entry + exit * exit) / 2)),
    );
    const ramps = (2 * peak * peak - entry * entry - exit * exit) / (2 * a);
    const seconds = (2 * peak - entry - exit) / a + Math.max(0, length - ramps) / (peak || 1);
    time_s[i] = seconds;
    peak_mm_min[i] = 60 * peak;
    total_s += seconds;
    entry = exit;
  }
  return { time_s, peak_mm_min, exit_mm_min: ends.map(speed => 60 * speed), total_s };
}
