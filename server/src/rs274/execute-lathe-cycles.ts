import { type Block, L } from './block.ts';
import type { CodeRow, Effect } from './codes/shape.ts';
import { CODES } from './codes/table.ts';
import { expandLatheSimple, type LatheSimpleKind, type LatheSimpleState } from './cycles/lathe-simple.ts';
import { executePointCycle } from './execute-lathe-point.ts';
import { executeProfileCycle } from './execute-lathe-profile.ts';
import { requestProfile } from './execute-report-profile.ts';
import { executeThreadLine } from './execute-thread.ts';
import type { Machine } from './machine.ts';
import { MachineSink, report } from './machine-sink.ts';
import { S } from './state.ts';
import { namesAxes, readTarget, Target } from './targets.ts';

const PROFILE: ReadonlySet<Effect> = new Set<Effect>([
  'finishing',
  'turning-roughing',
  'facing-roughing',
  'pattern-repeating',
]);
const POINT: ReadonlySet<Effect> = new Set<Effect>(['face-peck', 'groove', 'multi-pass-thread']);
const SIMPLE: Partial<Record<Effect, LatheSimpleKind>> = {
  'turning-cycle': 'turn',
  'facing-cycle': 'face',
  'thread-cycle': 'thread',
};

/** Whether an effect is a lathe cycle. */
export function isLatheCycle(effect: Effect): boolean {
  return PROFILE.has(effect) || POINT.has(effect) || SIMPLE[effect] !== undefined;
}

/** A block with the code of a lathe cycle. */
export function executeLatheCycle(machine: Machine, block: Block, row: CodeRow): void {
  const simple = SIMPLE[row.effect];
  if (machine.state.v[S.lost] !== 0) machine.lose();
  else if (simple !== undefined) simpleCycle(machine, block, simple);
  else if (machine.report && row.effect === 'multi-pass-thread') executeThreadLine(machine, block);
  else if (machine.report) requestProfile(machine, block, row);
  else if (POINT.has(row.effect)) executePointCycle(machine, block, row.effect);
  else executeProfileCycle(machine, block, row.effect);
}

/** A block without a code while a simple lathe cycle is in force; false when none is. */
export function executeLatheMode(machine: Machine, block: Block, motion: number): boolean {
  const at = motion >= 0 && motion < machine.g.length ? machine.g[motion] : -1;
  const simple = at < 0 ? undefined : SIMPLE[CODES[at].effect];
  if (simple === undefined) return false;
  simpleCycle(machine, block, simple);
  return true;
}

const target = new Target();

function simpleCycle(machine: Machine, block: Block, kind: LatheSimpleKind): void {
  const { v } = machine.state;
  if (!namesAxes(block) && !block.has(L.R)) return;
  readTarget(machine, block, target);
  const result = expandLatheSimple(
    {
      kind,
      ...((target.named & 1) !== 0 ? { x: target.x } : {}),
      ...((target.named & 4) !== 0 ? { z: target.z } : {}),
      ...(block.has(L.R) ? { taper: machine.length(block, block.index(L.R)) } : {}),
    },
    keptState(v, kind),
    { position: { x: v[S.x], y: v[S.y], z: v[S.z] }, lead_mm: v[S.feed] },
    new MachineSink(machine),
  );
  v[S.simple_x] = result.state?.x ?? Number.NaN;
  v[S.simple_z] = result.state?.z ?? Number.NaN;
  v[S.simple_r] = result.state?.taper ?? Number.NaN;
  report(machine, block, result);
  if (!result.expanded) machine.forget(7);
}

function keptState(v: Float64Array, kind: LatheSimpleKind): LatheSimpleState | undefined {
  if (Number.isNaN(v[S.simple_x]) && Number.isNaN(v[S.simple_z])) return undefined;
  return { kind, x: v[S.simple_x], z: v[S.simple_z], taper: v[S.simple_r] };
}
