import type { Point } from '../geometry/plane.ts';
import { type CycleResult, type CycleSink, type CycleWriter, runCycle } from './emit.ts';
import { MOST_THREAD_PASSES } from './lathe-thread.ts';

/** G76 of the report's successor, mm and degrees, all X values as radius. The drive line is X at the start. */
export interface ThreadLine {
  readonly z: number;
  /** P: advance a revolution. */
  readonly pitch_mm: number;
  /** I: from the drive line to the thread peak; negative = external. */
  readonly peak_mm: number;
  /** J and K: first and full depth below the peak. */
  readonly first_mm: number;
  readonly depth_mm: number;
  /** R: 1 constant depth, 2 constant area; under 1 or absent = 1. */
  readonly degression?: number;
  /** Q: angle of the compound slide. */
  readonly slide_deg?: number;
  /** H: passes more at full depth. */
  readonly spring_passes?: number;
  /** E: length of the taper, L: 0 none, 1 entry, 2 exit, 3 both. */
  readonly taper_length_mm?: number;
  readonly taper_ends?: number;
}

/**
 * The depths J n^(1/R) until K, then K and H more at K. Undefined when J or K is not more than 0 or over 1000 passes.
 * Source: the successor's manual, from memory.
 */
export function threadLineDepths_mm(
  thread: Pick<ThreadLine, 'first_mm' | 'depth_mm' | 'degression' | 'spring_passes'>,
): number[] | undefined {
  const first = Math.abs(thread.first_mm);
  const full = Math.abs(thread.depth_mm);
  const degression = Math.max(1, thread.degression ?? 1);
  if (!(first > 0 && full > 0)) return undefined;
  const depths: number[] = [];
  for (let n = 1; ; n += 1) {
    const depth = first * n ** (1 / degression);
    if (!(depth < full - 1e-9)) break;
    if (n > MOST_THREAD_PASSES) return undefined;
    depths.push(depth);
  }
  const springs = Math.min(Math.max(0, Math.round(thread.spring_passes ?? 0)), MOST_THREAD_PASSES);
  for (let n = 0; n <= springs; n += 1) depths.push(full);
  return depths;
}

/**
 * G76 of the successor. Each pass: rapid on the drive line to the start moved by depth x tan(Q), rapid to depth, thread to
 * the end, rapid out to the drive line. Ends on the drive line at Z. With `moving_line` the end of each pass moves too, by the
 * full depth less the depth of the pass (the interpreter's own way, from memory); else every pass ends at Z.
 */
export function expandThreadLine(
  thread: ThreadLine,
  position: Point,
  sink: CycleSink,
  moving_line = false,
): CycleResult {
  return runCycle(sink, position, (writer, notes) => {
    const depths = threadLineDepths_mm(thread);
    if (depths === undefined) {
      notes.error('cycle-depth-bad', 'the depths of the thread passes cannot be worked out');
      return false;
    }
    const { x: line, y, z: z0 } = position;
    const inward = thread.peak_mm > 0 ? 1 : -1;
    const direction = thread.z > z0 ? 1 : -1;
    const slide = Math.tan(((thread.slide_deg ?? 0) * Math.PI) / 180);
    const full = Math.abs(thread.depth_mm);
    const last = depths.at(-1) ?? full;
    for (const depth of depths) {
      if (writer.spent) break;
      const shift = direction * depth * slide;
      const end = moving_line ? thread.z + shift - direction * last * slide : thread.z;
      const x = line + inward * (Math.abs(thread.peak_mm) + depth);
      const start = { x: line, y, z: z0 + shift };
      writer.rapid(start);
      writePass(thread, { x, crest: x - inward * full, start, end, depth, direction }, writer);
      writer.rapid({ x: line, y, z: end });
    }
    writer.rapid({ x: line, y, z: thread.z });
    return true;
  });
}

interface Pass {
  readonly x: number;
  /** Where a taper begins or ends: the full depth above the pass. */
  readonly crest: number;
  readonly start: Point;
  readonly end: number;
  readonly depth: number;
  readonly direction: number;
}

function writePass(thread: ThreadLine, pass: Pass, writer: CycleWriter): void {
  const { y } = pass.start;
  const ends = thread.taper_ends ?? 0;
  const length = Math.max(0, thread.taper_length_mm ?? 0);
  const taper_lead =
    length > 0 ? (thread.pitch_mm * Math.hypot(length, thread.depth_mm)) / length : thread.pitch_mm;
  const entry = length > 0 && (ends === 1 || ends === 3);
  const exit = length > 0 && (ends === 2 || ends === 3);
  if (entry) {
    writer.rapid({ x: pass.crest, y, z: pass.start.z });
    writer.thread({ x: pass.x, y, z: pass.start.z + pass.direction * length }, taper_lead, pass.depth);
  } else {
    writer.rapid({ x: pass.x, y, z: pass.start.z });
  }
  if (exit) {
    writer.thread({ x: pass.x, y, z: pass.end - pass.direction * length }, thread.pitch_mm, pass.depth);
    writer.thread({ x: pass.crest, y, z: pass.end }, taper_lead, pass.depth);
  } else {
    writer.thread({ x: pass.x, y, z: pass.end }, thread.pitch_mm, pass.depth);
  }
}
