import { type Block, L } from './block.ts';
import { expandThreadLine } from './cycles/thread-line.ts';
import type { Machine } from './machine.ts';
import { MachineSink, report } from './machine-sink.ts';
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

/** G76 of the report's successor on a lathe: P Z I J K R Q H E L; X words and I J K are diameters under G7. */
export function executeThreadLine(machine: Machine, block: Block): void {
  const { v } = machine.state;
  const radial = (letter: number) => {
    const at = block.index(letter);
    return at < 0 ? Number.NaN : machine.lengthAlongX(block, at);
  };
  readTarget(machine, block, target);
  const pitch = block.has(L.P) ? machine.length(block, block.index(L.P)) : Number.NaN;
  if (Number.isNaN(pitch)) {
    machine.problem('thread-lead-missing', 0, block.length, 'the thread has no lead (P)');
  }
  const result = expandThreadLine(
    {
      z: target.z,
      pitch_mm: pitch,
      peak_mm: radial(L.I),
      first_mm: radial(L.J),
      depth_mm: radial(L.K),
      ...(block.has(L.R) ? { degression: block.number(L.R) } : {}),
      ...(block.has(L.Q) ? { slide_deg: block.number(L.Q) } : {}),
      ...(block.has(L.H) ? { spring_passes: block.number(L.H) } : {}),
      ...(block.has(L.E) ? { taper_length_mm: machine.length(block, block.index(L.E)) } : {}),
      ...(block.has(L.L) ? { taper_ends: block.number(L.L) } : {}),
    },
    { x: v[S.x], y: v[S.y], z: v[S.z] },
    new MachineSink(machine),
  );
  report(machine, block, result);
  if (!result.expanded) machine.forget(5);
}
