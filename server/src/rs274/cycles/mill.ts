import { PLANE_AXES, pointInPlane } from '../geometry/plane.ts';
import { type CycleNotes, type CycleResult, type CycleSink, type CycleWriter, runCycle } from './emit.ts';
import {
  type HoleBody,
  hasHoles,
  type MillCycleContext,
  type MillCycleState,
  type MillCycleWords,
  type MillHoles,
  resolveMillCycle,
} from './levels.ts';
import { backBoreBody, boreBody, fineBoreBody } from './mill-bore.ts';
import { drillBody, peckBody } from './mill-drill.ts';
import { tapBody } from './mill-tap.ts';
import { MILL_CYCLES, type MillCycleFamily } from './table.ts';

/** What became of a block in cycle mode. */
export interface MillCycleResult extends CycleResult {
  /** Keep for the next block of the mode; drop it when a motion code or G80 ends the mode. */
  readonly state: MillCycleState | undefined;
}

const BODIES: Readonly<Record<MillCycleFamily, HoleBody>> = {
  drill: drillBody,
  peck: peckBody,
  'chip-break': peckBody,
  bore: boreBody,
  'back-bore': backBoreBody,
  'fine-bore': fineBoreBody,
  tap: tapBody,
};

/**
 * Makes one block of mill cycle mode (G73, G74, G76, G81 to G89) into moves.
 * Once a block: if the tool is below R, rapid to R. For each hole: rapid in the plane, rapid to R, the body, out to clear.
 * G17, G18 and G19 all work: the tool axis is the plane's normal. At most 100 000 moves a block.
 * Source: NISTIR 6556 section 3.5.16 (from memory).
 */
export function expandMillCycle(
  words: MillCycleWords,
  state: MillCycleState | undefined,
  context: MillCycleContext,
  sink: CycleSink,
): MillCycleResult {
  let next = state;
  const result = runCycle(sink, context.position, (writer, notes) => {
    const levels = resolveMillCycle(words, state, context, notes);
    if (levels === undefined) return false;
    next = hasHoles(levels) ? levels.state : levels;
    if (!hasHoles(levels)) return false;
    writeHoles(levels, context, writer, notes);
    return true;
  });
  return { ...result, state: next };
}

function writeHoles(
  levels: MillHoles,
  context: MillCycleContext,
  writer: CycleWriter,
  notes: CycleNotes,
): void {
  const axes = PLANE_AXES[context.plane];
  const cycle = MILL_CYCLES[levels.state.code];
  const body = BODIES[cycle.family];
  const r_above = cycle.family !== 'back-bore' || !Number.isNaN(levels.state[BACK_BORE_TOP[axes.normal]]);
  const at = (hole: { first: number; second: number }, normal: number) =>
    pointInPlane(context.plane, hole.first, hole.second, normal);

  const here = { first: context.position[axes.first], second: context.position[axes.second] };
  if (levels.holes.length > 0 && r_above && context.position[axes.normal] < levels.r_level) {
    writer.rapid(at(here, levels.r_level));
  }
  for (const hole of levels.holes) {
    if (writer.spent) break;
    writer.rapid(at(hole, writer.position[axes.normal]));
    if (r_above) writer.rapid(at(hole, levels.r_level));
    body(hole, levels, context, writer, notes);
  }
}

const BACK_BORE_TOP = { x: 'i', y: 'j', z: 'k' } as const;
