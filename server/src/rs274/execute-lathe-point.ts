import { type Block, L, WORD } from './block.ts';
import type { Effect } from './codes/shape.ts';
import type { CycleResult } from './cycles/emit.ts';
import { expandLathePeck } from './cycles/lathe-peck.ts';
import { expandLatheThread } from './cycles/lathe-thread.ts';
import { latheCycleLength_mm, pointForm, splitThreadSetup } from './cycles/lathe-words.ts';
import type { Point } from './geometry/plane.ts';
import type { Machine } from './machine.ts';
import { MachineSink, report } from './machine-sink.ts';
import { S } from './state.ts';
import { readTarget, Target } from './targets.ts';

const target = new Target();

/** First blocks are kept under these numbers in the state. */
const FIRST: Partial<Record<Effect, number>> = { 'face-peck': 74, groove: 75, 'multi-pass-thread': 76 };

/** G74, G75 and G76 of the lathe code systems, in two blocks or one. */
export function executePointCycle(machine: Machine, block: Block, effect: Effect): void {
  const { v } = machine.state;
  const code = FIRST[effect] ?? Number.NaN;
  const seen = v[S.first_code] === code;
  const form = pointForm(lettersOf(block), seen);
  if (form === 'first-block') {
    v[S.first_code] = code;
    v[S.first_r] = smallLength(machine, block);
    v[S.first_p] = block.number(L.P);
    v[S.first_q] = cycleLength(machine, block, L.Q);
    return;
  }
  readTarget(machine, block, target);
  const start: Point = { x: v[S.x], y: v[S.y], z: v[S.z] };
  const two = form === 'second-block';
  const result =
    effect === 'multi-pass-thread'
      ? thread(machine, block, start, two)
      : peck(machine, block, start, effect === 'groove', two);
  report(machine, block, result);
  if (!result.expanded) machine.forget(5);
}

/** Letters of a block, for the form of a cycle. */
export function lettersOf(block: Block): Set<string> {
  const letters = new Set<string>();
  for (let at = 0; at < block.count; at += 1) letters.add(String.fromCharCode(block.letter[at]));
  return letters;
}

/** Length of a word without sign of X doubling, mm; NaN without the word. */
export function length(machine: Machine, block: Block, letter: number): number {
  const at = block.index(letter);
  return at < 0 ? Number.NaN : machine.length(block, at);
}

/** Length of P, Q or D of a lathe cycle: without a point always in least increments. */
export function cycleLength(machine: Machine, block: Block, letter: number): number {
  const at = block.index(letter);
  if (at < 0) return Number.NaN;
  const point = (block.marks[at] & WORD.point) !== 0;
  return latheCycleLength_mm(block.value[at], point, machine.state.v[S.inch] === 1);
}

/**
 * R of the first block, a retract or a finishing depth, mm: without a point a whole number that would be larger than any
 * of those counts least increments (common practice, no source).
 */
function smallLength(machine: Machine, block: Block): number {
  const at = block.index(L.R);
  const whole = at >= 0 && (block.marks[at] & WORD.point) === 0;
  return whole && Math.abs(block.value[at]) >= LARGE_RETRACT
    ? cycleLength(machine, block, L.R)
    : length(machine, block, L.R);
}

const LARGE_RETRACT = 10;

function or(value: number, other: number): number {
  return Number.isNaN(value) ? other : value;
}

function peck(machine: Machine, block: Block, start: Point, groove: boolean, two: boolean): CycleResult {
  const { v } = machine.state;
  const back = two ? or(v[S.first_r], 0) : 0;
  const across = or(cycleLength(machine, block, L.P), Math.abs(or(length(machine, block, L.I), 0)));
  const deep = or(cycleLength(machine, block, L.Q), Math.abs(or(length(machine, block, L.K), 0)));
  const relief = length(machine, block, L.R);
  return expandLathePeck(
    {
      direction: groove ? 'groove' : 'face',
      ...((target.named & 1) !== 0 ? { x: target.x } : {}),
      ...((target.named & 4) !== 0 ? { z: target.z } : {}),
      step_x: Math.abs(across),
      step_z: Math.abs(deep),
      back_mm: Math.abs(back),
      ...(Number.isNaN(relief) ? {} : { relief_mm: relief }),
    },
    start,
    new MachineSink(machine),
  );
}

function thread(machine: Machine, block: Block, start: Point, two: boolean): CycleResult {
  const { v } = machine.state;
  const setup = two ? splitThreadSetup(v[S.first_p]) : undefined;
  if (two && setup === undefined && !Number.isNaN(v[S.first_p])) {
    machine.problem('thread-setup-bad', 0, block.length, 'P of the first G76 block must be six digits');
  }
  const depth = two ? cycleLength(machine, block, L.P) : Math.abs(length(machine, block, L.K));
  const first = two ? cycleLength(machine, block, L.Q) : cycleLength(machine, block, L.D);
  const taper = two ? length(machine, block, L.R) : length(machine, block, L.I);
  const angle = two ? (setup?.angle_deg ?? 60) : or(block.number(L.A), 0);
  return expandLatheThread(
    {
      x: target.x,
      z: target.z,
      depth_mm: depth,
      first_mm: first,
      least_mm: two ? or(v[S.first_q], 0) : 0,
      finish_mm: two ? or(v[S.first_r], 0) : 0,
      finish_passes: setup?.finish_passes ?? 1,
      angle_deg: angle,
      taper_mm: or(taper, 0),
      lead_mm: v[S.feed],
      chamfer_tenths: setup?.chamfer_tenths ?? 0,
    },
    start,
    new MachineSink(machine),
  );
}
