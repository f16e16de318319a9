import { type Block, L } from './block.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { KIND } from './steps.ts';
import { arrive, readTarget, Target } from './targets.ts';

const target = new Target();

/**
 * Spindle-locked moves: G32, G33, G34 (lead F, finer E; `ngc`: K along the path) and G33.1 (tap out and back).
 * A lead that changes (G34) is written with its first value.
 */
export function executeThread(machine: Machine, block: Block, motion: number): void {
  const { v } = machine.state;
  const lead = leadOf(machine, block);
  if (Number.isNaN(lead)) {
    const wanted = machine.report ? 'K' : 'F';
    machine.problem('thread-lead-missing', 0, block.length, `the thread has no lead (${wanted})`);
  }
  const from = { x: v[S.x], y: v[S.y], z: v[S.z] };
  readTarget(machine, block, target);
  arrive(machine, target);
  if (motion !== 331) {
    machine.step(KIND.thread, 0, -1, lead);
    return;
  }
  machine.step(KIND.tap, 0, -1, lead);
  v[S.x] = from.x;
  v[S.y] = from.y;
  v[S.z] = from.z;
  machine.step(KIND.tap, 0, -1, lead);
}

function leadOf(machine: Machine, block: Block): number {
  const letter = machine.report ? L.K : block.has(L.E) ? L.E : L.F;
  const at = block.index(letter);
  if (at >= 0) return Math.abs(machine.length(block, at));
  const { v } = machine.state;
  return machine.report ? Number.NaN : v[S.feed];
}
