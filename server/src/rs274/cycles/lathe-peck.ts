import type { Point } from '../geometry/plane.ts';
import { type CycleResult, type CycleSink, runCycle, startIsKnown } from './emit.ts';

/** Face pecking (G74, feeds along Z) or grooving (G75, feeds along X), mm, X values as radius. */
export interface LathePeck {
  readonly direction: 'face' | 'groove';
  /** Last place across; absent: one plunge where the tool stands. */
  readonly x?: number;
  readonly z?: number;
  /** Step along X (P) and along Z (Q), without sign; 0 or absent: in one. */
  readonly step_x?: number;
  readonly step_z?: number;
  /** Way back after each peck (R of the first block). */
  readonly back_mm: number;
  /** Step aside at the bottom (R of the second block). */
  readonly relief_mm?: number;
}

/**
 * G74 and G75: at each place across, feed one step, back by R, ... to the bottom, rapid out; then the next place.
 * The last step and the last place are shortened to reach the end; ends where it began.
 * Source: common practice, no source.
 */
export function expandLathePeck(cycle: LathePeck, position: Point, sink: CycleSink): CycleResult {
  return runCycle(sink, position, (writer, notes) => {
    if (!startIsKnown(position, notes)) return false;
    const groove = cycle.direction === 'groove';
    const [deep, across] = groove ? (['x', 'z'] as const) : (['z', 'x'] as const);
    const bottom = cycle[deep];
    if (bottom === undefined) {
      notes.error('cycle-word-missing', `the cycle has no end in ${deep.toUpperCase()}`);
      return false;
    }
    const deep_step = groove ? cycle.step_x : cycle.step_z;
    const across_step = groove ? cycle.step_z : cycle.step_x;
    const at = (deep_at: number, across_at: number): Point =>
      groove ? { x: deep_at, y: position.y, z: across_at } : { x: across_at, y: position.y, z: deep_at };
    const top = position[deep];
    const into = Math.sign(bottom - top);
    const depths = stops(top, bottom, deep_step);
    const places = [
      position[across],
      ...stops(position[across], cycle[across] ?? position[across], across_step),
    ];
    const aside = Math.sign((cycle[across] ?? position[across]) - position[across]) * (cycle.relief_mm ?? 0);
    if (depths.length > MOST_STOPS || places.length > MOST_STOPS) {
      notes.error('cycle-too-long', 'the steps of the cycle are too small');
      return false;
    }
    for (const place of places) {
      if (writer.spent) break;
      writer.rapid(at(top, place));
      for (const [index, depth] of depths.entries()) {
        writer.feed(at(depth, place));
        if (index < depths.length - 1) writer.rapid(at(depth - into * cycle.back_mm, place));
      }
      if (aside !== 0 && place !== position[across]) writer.rapid(at(bottom, place - aside));
      writer.rapid(at(top, writer.position[across]));
    }
    writer.rapid(position);
    return true;
  });
}

/** Steps of one plunge or places of one cycle. */
const MOST_STOPS = 20_000;

/** Places from `from` (left out) to `to` at equal steps, the last one shortened. */
function stops(from: number, to: number, step: number | undefined): number[] {
  const way = Math.abs(to - from);
  if (way < 1e-9) return [];
  if (step === undefined || !(Math.abs(step) > 0)) return [to];
  const count = Math.min(Math.ceil(way / Math.abs(step) - 1e-9), MOST_STOPS + 1);
  const direction = Math.sign(to - from);
  return Array.from({ length: count }, (_, n) =>
    n === count - 1 ? to : from + direction * (n + 1) * Math.abs(step),
  );
}
