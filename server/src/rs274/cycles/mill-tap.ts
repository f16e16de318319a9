import { pointInPlane } from '../geometry/plane.ts';
import type { HoleBody } from './levels.ts';
import { notePeckClearance, peckDepths } from './mill-drill.ts';

/**
 * G84, G74, G84.2, G84.3: spindle-locked feed to the bottom, dwell P, reverse, locked feed to R, restore the
 * direction, rapid to clear. By the report the locked feed goes all the way out to clear. Q on other controls taps in pecks.
 * Source: NISTIR 6556 section 3.5.16.4 (G84, from memory); the others: common practice, no source.
 */
export const tapBody: HoleBody = (hole, levels, context, writer, notes) => {
  const at = (normal: number) => pointInPlane(context.plane, hole.first, hole.second, normal);
  const lead = context.lead_mm;
  const common = context.rules === 'common';
  const depths = common && levels.state.q !== 0 ? peckDepths(levels, context.rules, notes) : [levels.bottom];
  for (const [index, depth] of depths.entries()) {
    if (writer.spent) return;
    writer.tap(at(depth), lead);
    if (index === depths.length - 1) break;
    notePeckClearance(levels, notes);
    notes.assume(
      'tap-peck',
      'a tap with Q backs off by the gap after each peck; some controls back out to R',
    );
    writer.spindle('reverse');
    writer.tap(at(Math.min(levels.r_level, depth + levels.peck_clearance_mm)), lead);
    writer.spindle('reverse');
  }
  writer.dwell(levels.state.p_seconds);
  writer.spindle('reverse');
  writer.tap(at(common ? levels.r_level : levels.clear), lead);
  writer.spindle('reverse');
  writer.rapid(at(levels.clear));
};
