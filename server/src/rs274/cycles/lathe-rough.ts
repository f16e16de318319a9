import type { Point } from '../geometry/plane.ts';
import {
  type CycleNotes,
  type CycleResult,
  type CycleSink,
  type CycleWriter,
  runCycle,
  startIsKnown,
} from './emit.ts';
import { isMonotone, type Profile, type Span, shiftProfile, spansBeyond, writeProfile } from './profile.ts';

/** Roughing along a profile, mm, all X values as radius. */
export interface LatheRough {
  /** turn: levels in X, cuts along Z (G71); face: levels in Z, cuts along X (G72). */
  readonly direction: 'turn' | 'face';
  readonly profile: Profile;
  /** Depth of one cut, without sign. */
  readonly depth_mm: number;
  /** How far the tool escapes at 45 degrees after a cut. */
  readonly retract_mm: number;
  /** Left for finishing along X (half of U; negative inside) and along Z. */
  readonly allowance_x: number;
  readonly allowance_z: number;
  /** Type II: the profile may have pockets. */
  readonly pockets: boolean;
}

/** Levels that one cycle may cut. */
export const MOST_LEVELS = 2000;

/**
 * G71 and G72: cuts at equal levels down to the offset profile, then one pass along it, then back to the start.
 * Type I: rapid to level, feed to the profile, 45 degree escape, rapid back. Type II: pockets are cut level by level, each
 * entered along its own wall from the level before. Inside work is seen from the first point of the profile.
 * Source: common practice, no source; what differs between controls is in the assumptions.
 */
export function expandLatheRough(cycle: LatheRough, position: Point, sink: CycleSink): CycleResult {
  return runCycle(sink, position, (writer, notes) => {
    if (!startIsKnown(position, notes)) return false;
    const first = cycle.profile.segments[0];
    const last = cycle.profile.segments.at(-1);
    if (first === undefined || last === undefined || cycle.profile.segments.length < 2) {
      notes.error('cycle-profile-missing', 'the cycle has no profile to cut');
      return false;
    }
    const [deep, along] = cycle.direction === 'turn' ? (['x', 'z'] as const) : (['z', 'x'] as const);
    const profile = shiftProfile(cycle.profile, cycle.allowance_x, cycle.allowance_z);
    const allowance = cycle.direction === 'turn' ? cycle.allowance_x : cycle.allowance_z;
    const toward = Math.sign(first.to[deep] - position[deep]) || -Math.sign(allowance) || -1;
    const frame: Frame = {
      deep,
      along,
      sign: toward < 0 ? -1 : 1,
      feed_sign: last.to[along] < position[along] ? -1 : 1,
      start: position,
    };
    if (!cycle.pockets) checkMonotone(profile, notes);
    if (cycle.depth_mm > 0) writeLevels(cycle, profile, frame, writer, notes);
    else notes.error('cycle-depth-bad', 'the depth of cut must be more than 0');

    notes.assume(
      'rough-profile-pass',
      'one pass along the profile follows the last level, also without allowance',
    );
    notes.assume('rough-escape-rapid', 'the escape at 45 degrees is taken as rapid');
    const begin = profile.segments[0].to;
    writer.rapid(place(frame, begin[deep], writer.position[along]));
    writer.rapid(place(frame, begin[deep], begin[along]));
    writeProfile(writer, profile, 1, false);
    writer.rapid(place(frame, position[deep], writer.position[along]));
    writer.rapid(position);
    return true;
  });
}

/** The two working axes: levels along `deep` in the direction `sign`, cuts along `along` in the direction `feed_sign`. */
interface Frame {
  readonly deep: 'x' | 'z';
  readonly along: 'x' | 'z';
  readonly sign: 1 | -1;
  readonly feed_sign: 1 | -1;
  readonly start: Point;
}

function place(frame: Frame, deep: number, along: number): Point {
  const { y } = frame.start;
  return frame.deep === 'x' ? { x: deep, y, z: along } : { x: along, y, z: deep };
}

function checkMonotone(profile: Profile, notes: CycleNotes): void {
  if (isMonotone(profile, 'x') && isMonotone(profile, 'z')) return;
  notes.warn(
    'cycle-profile-not-monotone',
    'the profile turns back in X or Z; a pocket is only cut by the pass along it',
  );
}

function writeLevels(
  cycle: LatheRough,
  profile: Profile,
  frame: Frame,
  writer: CycleWriter,
  notes: CycleNotes,
): void {
  const { deep, along, sign, start } = frame;
  const deepest = Math.max(...profile.segments.map(segment => sign * segment.to[deep]));
  const count = Math.ceil((deepest - sign * start[deep]) / cycle.depth_mm - 1e-9) - 1;
  if (count > MOST_LEVELS) {
    notes.error('cycle-too-long', `the depth of cut is too small: more than ${MOST_LEVELS} levels`);
    return;
  }
  for (let n = 1; n <= count && !writer.spent; n += 1) {
    const level = start[deep] + sign * n * cycle.depth_mm;
    for (const [index, span] of spansBeyond(profile, deep, level, sign).entries()) {
      const ahead = frame.feed_sign * (span.to - (span.open ? start[along] : span.from)) > 1e-9;
      if (!ahead) continue;
      if (index === 0 && span.open) writeOpenCut(cycle, frame, level, span, writer);
      else if (cycle.pockets) writePocketCut(cycle, profile, frame, level, span, writer, notes);
    }
  }
}

function writeOpenCut(cycle: LatheRough, frame: Frame, level: number, span: Span, writer: CycleWriter): void {
  const { along, sign, feed_sign, start } = frame;
  writer.rapid(place(frame, level, start[along]));
  writer.feed(place(frame, level, span.to));
  const escaped = level - sign * cycle.retract_mm;
  writer.rapid(place(frame, escaped, span.to - feed_sign * cycle.retract_mm));
  writer.rapid(place(frame, escaped, start[along]));
}

/** A cut in a pocket: in from the start level, down the wall from the level before, along, out. */
function writePocketCut(
  cycle: LatheRough,
  profile: Profile,
  frame: Frame,
  level: number,
  span: Span,
  writer: CycleWriter,
  notes: CycleNotes,
): void {
  const { deep, along, sign, feed_sign, start } = frame;
  notes.assume('rough-pockets', 'pockets are taken level by level, entered along their own wall');
  const before = level - sign * cycle.depth_mm;
  const reach = (span_before: Span) =>
    feed_sign * (span.from - span_before.from) >= 0 && feed_sign * (span_before.to - span.from) >= 0;
  const wall = spansBeyond(profile, deep, before, sign).find(reach);
  const from = wall === undefined || wall.open ? span.from : wall.from;
  writer.rapid(place(frame, start[deep], writer.position[along]));
  writer.rapid(place(frame, start[deep], from));
  writer.rapid(place(frame, before, from));
  writer.feed(place(frame, level, span.from));
  writer.feed(place(frame, level, span.to));
  const retract = Math.min(cycle.retract_mm, Math.abs(span.to - span.from));
  writer.rapid(place(frame, level - sign * retract, span.to - feed_sign * retract));
  writer.rapid(place(frame, start[deep], writer.position[along]));
  writer.rapid(place(frame, start[deep], start[along]));
}
