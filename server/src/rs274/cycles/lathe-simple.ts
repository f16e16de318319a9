import type { Point } from '../geometry/plane.ts';
import { type CycleResult, type CycleSink, runCycle } from './emit.ts';

/** The simple lathe cycles: G90, G94, G92 of code system A (B: G77, G79, G78; C: G20, G24, G21). */
export type LatheSimpleKind = 'turn' | 'face' | 'thread';

/**
 * Words of one block. x and z are end positions, mm, X as radius, U and W already added to the start point;
 * taper = R, a radius (turn, thread) or a length along Z (face): value at the start minus value at the end.
 */
export interface LatheSimpleWords {
  readonly kind?: LatheSimpleKind;
  readonly x?: number;
  readonly z?: number;
  readonly taper?: number;
}

/** Sticky words of the mode; NaN = not given yet. */
export interface LatheSimpleState {
  readonly kind: LatheSimpleKind;
  readonly x: number;
  readonly z: number;
  readonly taper: number;
}

/**
 * One block of a simple lathe cycle; ends where it began.
 * Turn: rapid to X (+ taper), feed to Z, feed to X0, rapid to Z0. Face: rapid to Z (+ taper), feed to X, feed to Z0,
 * rapid to X0. Thread: as turn, the cut locked to the spindle with the lead, out by rapid.
 * Source: common practice, no source.
 */
export function expandLatheSimple(
  words: LatheSimpleWords,
  state: LatheSimpleState | undefined,
  context: { readonly position: Point; readonly lead_mm: number },
  sink: CycleSink,
): CycleResult & { readonly state: LatheSimpleState | undefined } {
  const kind = words.kind ?? state?.kind;
  if (kind === undefined) {
    return { ...runCycle(sink, context.position, () => false), state: undefined };
  }
  const kept = state?.kind === kind ? state : undefined;
  const next: LatheSimpleState = {
    kind,
    x: words.x ?? kept?.x ?? Number.NaN,
    z: words.z ?? kept?.z ?? Number.NaN,
    taper: words.taper ?? kept?.taper ?? 0,
  };
  const result = runCycle(sink, context.position, (writer, notes) => {
    if (Number.isNaN(next.x) || Number.isNaN(next.z)) {
      notes.error('cycle-word-missing', 'the cycle needs an end in X and in Z');
      return false;
    }
    const { x: x0, y, z: z0 } = context.position;
    const at = (x: number, z: number): Point => ({ x, y, z });
    if (kind === 'face') {
      writer.rapid(at(x0, next.z + next.taper));
      writer.feed(at(next.x, next.z));
      writer.feed(at(next.x, z0));
      writer.rapid(at(x0, z0));
      return true;
    }
    writer.rapid(at(next.x + next.taper, z0));
    if (kind === 'thread') {
      notes.assume(
        'thread-chamfer',
        'the run-out at the end of the thread is a parameter of the control; none was taken',
      );
      writer.thread(at(next.x, next.z), context.lead_mm);
      writer.rapid(at(x0, next.z));
    } else {
      writer.feed(at(next.x, next.z));
      writer.feed(at(x0, next.z));
    }
    writer.rapid(at(x0, z0));
    return true;
  });
  return { ...result, state: next };
}
