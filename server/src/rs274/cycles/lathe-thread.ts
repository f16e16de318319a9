import type { Point } from '../geometry/plane.ts';
import { type CycleResult, type CycleSink, runCycle, startIsKnown } from './emit.ts';

/** Multi-pass threading, mm and degrees, all X values as radius. */
export interface LatheThread {
  /** Root of the thread at the end, and the end along Z. */
  readonly x: number;
  readonly z: number;
  /** Depth of thread k. */
  readonly depth_mm: number;
  /** Depth of the first pass q. */
  readonly first_mm: number;
  /** Least step; 0 = none. */
  readonly least_mm: number;
  /** Left for the finishing passes r. */
  readonly finish_mm: number;
  /** Finishing passes m at full depth. */
  readonly finish_passes: number;
  /** Angle of the tool; half of it is the direction of infeed, 0 = straight in. */
  readonly angle_deg: number;
  /** Radius at the start minus radius at the end. */
  readonly taper_mm: number;
  readonly lead_mm: number;
  /** Run-out asked for, in tenths of the lead: named, not followed. */
  readonly chamfer_tenths?: number;
}

/** Passes of one thread. */
export const MOST_THREAD_PASSES = 1000;

/**
 * Depths below the crest of all passes of a G76 thread: D(n) = q sqrt(n) (equal chip area), each step at least the least
 * one, until k - r, then m passes at k; with r = 0 the last deepening pass is the first of the m.
 * Undefined when k or q is not more than 0, r is not under k, or there would be over 1000 passes.
 * Source: common practice, no source.
 */
export function threadDepths_mm(
  thread: Pick<LatheThread, 'depth_mm' | 'first_mm' | 'least_mm' | 'finish_mm' | 'finish_passes'>,
): number[] | undefined {
  const { depth_mm, first_mm, least_mm, finish_mm } = thread;
  const rough = depth_mm - finish_mm;
  if (!(depth_mm > 0 && first_mm > 0 && rough > 0 && finish_mm >= 0)) return undefined;
  const finish_passes = Math.min(Math.max(1, Math.round(thread.finish_passes)), MOST_THREAD_PASSES);
  const depths: number[] = [];
  let depth = 0;
  for (let n = 1; depth < rough - 1e-9; n += 1) {
    if (n > MOST_THREAD_PASSES) return undefined;
    depth = Math.min(rough, Math.max(first_mm * Math.sqrt(n), depth + least_mm));
    depths.push(depth);
  }
  const more = finish_mm === 0 ? finish_passes - 1 : finish_passes;
  for (let n = 0; n < more; n += 1) depths.push(depth_mm);
  return depths;
}

/**
 * G76 in its two-block and one-block form. Each pass: rapid along Z to the start moved by D tan(a / 2), rapid to depth,
 * thread to Z, rapid out to X0, back; ends at the start point. Outside or inside is seen from the start.
 * Source: common practice, no source.
 */
export function expandLatheThread(thread: LatheThread, position: Point, sink: CycleSink): CycleResult {
  return runCycle(sink, position, (writer, notes) => {
    if (!startIsKnown(position, notes)) return false;
    const depths = threadDepths_mm(thread);
    if (depths === undefined) {
      notes.error('cycle-depth-bad', 'the depths of the thread passes cannot be worked out');
      return false;
    }
    if (thread.chamfer_tenths) {
      notes.assume(
        'thread-chamfer',
        'the run-out at the end of the thread was not followed; the pass goes to Z',
      );
    }
    const { x: x0, y, z: z0 } = position;
    const at = (x: number, z: number): Point => ({ x, y, z });
    const outward = x0 >= thread.x ? 1 : -1;
    const direction = thread.z < z0 ? -1 : 1;
    const infeed = Math.tan(((thread.angle_deg / 2) * Math.PI) / 180);
    for (const depth of depths) {
      if (writer.spent) break;
      const z = z0 + direction * depth * infeed;
      const x = thread.x + outward * (thread.depth_mm - depth);
      writer.rapid(at(x0, z));
      writer.rapid(at(x + thread.taper_mm, z));
      writer.thread(at(x, thread.z), thread.lead_mm, depth);
      writer.rapid(at(x0, thread.z));
    }
    writer.rapid(position);
    return true;
  });
}
