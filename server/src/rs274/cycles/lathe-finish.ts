import type { Point } from '../geometry/plane.ts';
import { type CycleResult, type CycleSink, runCycle, startIsKnown } from './emit.ts';
import { type Profile, shiftProfile, writeProfile } from './profile.ts';

/**
 * G70: the profile once, each block with its own F and S (the moves carry the index of the block), then back to
 * the start: X first, then Z. Source: common practice, no source.
 */
export function expandLatheFinish(profile: Profile, position: Point, sink: CycleSink): CycleResult {
  return runCycle(sink, position, (writer, notes) => {
    if (!startIsKnown(position, notes)) return false;
    if (profile.segments.length === 0) {
      notes.error('cycle-profile-missing', 'the cycle has no profile to cut');
      return false;
    }
    writeProfile(writer, profile, 0, true);
    writer.rapid({ x: position.x, y: position.y, z: writer.position.z });
    writer.rapid(position);
    return true;
  });
}

/** Pattern repeating, mm, X values as radius. */
export interface LathePattern {
  readonly profile: Profile;
  /** Total shift of the first pass along X (U of the first block) and Z (W). */
  readonly shift_x: number;
  readonly shift_z: number;
  /** Number of passes (R of the first block). */
  readonly passes: number;
  readonly allowance_x: number;
  readonly allowance_z: number;
}

/** Passes that G73 may make. */
export const MOST_PATTERN_PASSES = 1000;

/**
 * G73: the whole profile n times, pass m shifted by (i, k) x (n - m) / (n - 1) on top of the finishing allowance.
 * Source: common practice, no source.
 */
export function expandLathePattern(cycle: LathePattern, position: Point, sink: CycleSink): CycleResult {
  return runCycle(sink, position, (writer, notes) => {
    if (!startIsKnown(position, notes)) return false;
    if (cycle.profile.segments.length < 2) {
      notes.error('cycle-profile-missing', 'the cycle has no profile to cut');
      return false;
    }
    const passes = Math.round(cycle.passes);
    if (!(passes >= 1 && passes <= MOST_PATTERN_PASSES)) {
      notes.error('cycle-repeat-bad', `the number of passes must be 1 to ${MOST_PATTERN_PASSES}`);
      return false;
    }
    for (let m = 1; m <= passes && !writer.spent; m += 1) {
      const share = passes === 1 ? 0 : (passes - m) / (passes - 1);
      const x = cycle.allowance_x + cycle.shift_x * share;
      const z = cycle.allowance_z + cycle.shift_z * share;
      const shifted = shiftProfile(cycle.profile, x, z);
      writer.rapid({ x: position.x + x, y: position.y, z: position.z + z });
      writer.rapid(shifted.segments[0].to);
      writeProfile(writer, shifted, 1, false);
      writer.rapid({ x: position.x + x, y: position.y, z: writer.position.z });
    }
    writer.rapid({ x: position.x, y: position.y, z: writer.position.z });
    writer.rapid(position);
    return true;
  });
}
