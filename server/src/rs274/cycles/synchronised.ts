import type { Point } from '../geometry/plane.ts';
import { type CycleResult, type CycleSink, runCycle } from './emit.ts';

/** G33, G32: one spindle-locked straight move. Source: ISO 6983-1; lead along the line: the report's successor, from memory. */
export function expandSinglePass(
  target: Point,
  lead_mm: number,
  position: Point,
  sink: CycleSink,
): CycleResult {
  return runCycle(sink, position, writer => {
    writer.thread(target, lead_mm);
    return true;
  });
}

/** G33.1: spindle-locked in, reverse, locked back to the start, direction restored. Source: the report's successor, from memory. */
export function expandRigidTap(
  target: Point,
  lead_mm: number,
  position: Point,
  sink: CycleSink,
): CycleResult {
  return runCycle(sink, position, writer => {
    writer.tap(target, lead_mm);
    writer.spindle('reverse');
    writer.tap(position, lead_mm);
    writer.spindle('reverse');
    return true;
  });
}
