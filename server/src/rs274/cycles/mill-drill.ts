import { pointInPlane } from '../geometry/plane.ts';
import type { CycleNotes } from './emit.ts';
import type { HoleBody, MillHoles } from './levels.ts';

/** Pecks that one hole may have. */
export const MOST_PECKS = 10_000;

/** G81, G82: feed to the bottom, dwell P, rapid to clear. Source: NISTIR 6556 section 3.5.16.1 and .2 (from memory). */
export const drillBody: HoleBody = (hole, levels, context, writer) => {
  const at = (normal: number) => pointInPlane(context.plane, hole.first, hole.second, normal);
  writer.feed(at(levels.bottom));
  if (levels.state.code === 820) writer.dwell(levels.state.p_seconds);
  writer.rapid(at(levels.clear));
};

/**
 * G83: after each peck rapid to R and back to the last depth + gap. G73: after each peck rapid up by the gap.
 * The last peck ends at the bottom, then rapid to clear; P dwells at every peck on other controls than the report's.
 * Source: NISTIR 6556 section 3.5.16.3 (G83, from memory); G73 and the size of the gap: common practice, no source.
 */
export const peckBody: HoleBody = (hole, levels, context, writer, notes) => {
  const at = (normal: number) => pointInPlane(context.plane, hole.first, hole.second, normal);
  const gap = levels.peck_clearance_mm;
  const depths = peckDepths(levels, context.rules, notes);
  const full_retract = levels.state.code === 830;
  for (const [index, depth] of depths.entries()) {
    if (writer.spent) return;
    writer.feed(at(depth));
    if (context.rules === 'common') writer.dwell(levels.state.p_seconds);
    if (index === depths.length - 1) break;
    if (full_retract) writer.rapid(at(levels.r_level));
    writer.rapid(at(Math.min(levels.r_level, depth + gap)));
  }
  if (depths.length > 1) notePeckClearance(levels, notes);
  writer.rapid(at(levels.clear));
};

/** Names the gap above the last depth when it is assumed. */
export function notePeckClearance(levels: MillHoles, notes: CycleNotes): void {
  if (levels.peck_clearance_known) return;
  notes.assume(
    'peck-clearance',
    'the gap left above the last depth is a parameter of the control; 0.254 mm (0.010 in) was taken',
    levels.peck_clearance_mm,
  );
}

/**
 * Depths where the pecks of a hole end, the bottom last: R - Q, R - 2 Q ... With I J K instead of Q: the first peck
 * is I, each next one J less, none under K (common practice, no source). Without a usable peck: the bottom alone.
 */
export function peckDepths(
  levels: Pick<MillHoles, 'state' | 'r_level' | 'bottom'>,
  rules: 'report' | 'common',
  notes: CycleNotes,
): number[] {
  const { r_level, bottom, state } = levels;
  const by_parts = rules === 'common' && Number.isNaN(state.q) && !Number.isNaN(state.i);
  const first = Math.abs(by_parts ? state.i : state.q);
  const less = by_parts && !Number.isNaN(state.j) ? Math.abs(state.j) : 0;
  const least = by_parts && !Number.isNaN(state.k) ? Math.abs(state.k) : less > 0 ? 0 : first;
  if (!(first > 0) || !(r_level > bottom)) return [bottom];
  const depths: number[] = [];
  let depth = r_level;
  for (let n = 0; n < MOST_PECKS; n += 1) {
    const peck = Math.max(least, first - n * less);
    depth = less === 0 ? r_level - (n + 1) * first : depth - peck;
    if (!(peck > 0) || depth <= bottom + 1e-9) {
      depths.push(bottom);
      return depths;
    }
    depths.push(depth);
  }
  notes.error('cycle-too-long', `more than ${MOST_PECKS} pecks in one hole; it was taken in one`);
  return [bottom];
}
