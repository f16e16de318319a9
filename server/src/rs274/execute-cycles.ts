import { planeOf } from './arc-words.ts';
import { type Block, L } from './block.ts';
import { isChanged, PLANE } from './coordinate-change.ts';
import { type MillCycleState, type MillCycleWords, tapLead_mm } from './cycles/levels.ts';
import { expandMillCycle } from './cycles/mill.ts';
import { dwellSeconds } from './dwell.ts';
import { cycleLength } from './execute-lathe-point.ts';
import type { Plane, Point } from './geometry/plane.ts';
import type { Machine } from './machine.ts';
import { MachineSink, report } from './machine-sink.ts';
import { S } from './state.ts';
import { hasPolarWords, readTarget, Target } from './targets.ts';

const target = new Target();

/** A block in mill cycle mode. */
export function executeMillCycle(machine: Machine, block: Block, motion: number): void {
  const { v } = machine.state;
  readTarget(machine, block, target);
  if (turnsLevels(v)) {
    machine.problem('not-followed', 0, block.length, 'a cycle mirrored along the tool is not followed');
    machine.lose();
    return;
  }
  const position: Point = { x: v[S.x], y: v[S.y], z: v[S.z] };
  const lathe = machine.lathe_words;
  const side = motion >= 870 && motion <= 890;
  const plane: Plane = lathe ? (side ? 'yz' : 'xy') : planeOf(v);
  const result = expandMillCycle(
    lathe ? latheWords(machine, block, motion, side) : cycleWords(machine, block, motion),
    keptState(v),
    {
      plane,
      position,
      incremental: v[S.distance] === 91 && !lathe,
      zero: lathe ? 0 : normalShift(v),
      return_to: v[S.return_level] === 99 ? 'r' : 'initial',
      rules: machine.report ? 'report' : 'common',
      spindle_direction: v[S.direction],
      lead_mm: lead(v),
      inverse_time: v[S.feed_mode] === 93,
      compensation_on: v[S.compensation] !== 40,
      rotary_word: target.others !== 0 && !lathe,
    },
    new MachineSink(machine),
  );
  keepState(v, result.state);
  report(machine, block, result);
  if (!result.expanded) {
    machine.forget(target.linear === 0 ? 7 : target.linear);
  }
}

/** Drilling on lathes: along Z with G83 to G85, along X with G87 to G89 (peck, tap, bore). */
const SIDE_AS: Readonly<Record<number, number>> = { 870: 830, 880: 840, 890: 850 };

/**
 * Words of a lathe's drilling cycle. R is the distance from the initial level, Q without a point counts least
 * increments (common practice, no source).
 */
function latheWords(machine: Machine, block: Block, motion: number, side: boolean): MillCycleWords {
  const { v } = machine.state;
  const words: Writable<MillCycleWords> = { code: (SIDE_AS[motion] ?? motion) / 10 };
  if ((target.named & 1) !== 0) words.x = target.x;
  if ((target.named & 2) !== 0) words.y = target.y;
  if ((target.named & 4) !== 0) words.z = target.z;
  const here = side ? v[S.x] : v[S.z];
  const initial = Number.isNaN(v[S.cycle]) ? here : v[S.cycle_level];
  const r = block.index(L.R);
  if (r >= 0) words.r = initial + machine.length(block, r);
  else if (Number.isNaN(v[S.cycle])) words.r = initial;
  if (block.has(L.P)) words.p_seconds = dwellSeconds(machine, block, block.index(L.P));
  if (block.has(L.Q)) words.q = cycleLength(machine, block, L.Q);
  const count = block.has(L.K) ? block.number(L.K) : block.number(L.L);
  if (!Number.isNaN(count)) words.repeats = count;
  return words;
}

function lead(v: Float64Array): number {
  const mode = v[S.feed_mode] === 95 ? 'per-revolution' : v[S.feed_mode] === 93 ? 'inverse' : 'per-minute';
  return tapLead_mm(v[S.feed], mode, v[S.css] === 1 ? Number.NaN : v[S.spindle]);
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

function cycleWords(machine: Machine, block: Block, motion: number): MillCycleWords {
  const { v } = machine.state;
  const shift = v[S.distance] === 91 ? 0 : 1;
  const words: Writable<MillCycleWords> = { code: motion / 10 };
  const at = (letter: number) => block.index(letter);
  // Along the tool the words stay as written: they are read again in each block (context.zero).
  const from = (axis: number) =>
    axis === normalOf(v) ? 0 : shift * (v[S.local_x + axis] + v[S.set_x + axis]);
  if (at(L.X) >= 0) words.x = machine.lengthAlongX(block, at(L.X)) + from(0);
  if (at(L.Y) >= 0) words.y = machine.length(block, at(L.Y)) + from(1);
  if (at(L.Z) >= 0) words.z = machine.length(block, at(L.Z)) + from(2);
  if (isChanged(v) || v[S.polar] === 1 || hasPolarWords(block)) placeWords(v, words);
  if (at(L.R) >= 0) words.r = machine.length(block, at(L.R));
  if (v[S.scaled] === 1) scaleLevels(v, words);
  if (at(L.P) >= 0) words.p_seconds = dwellSeconds(machine, block, at(L.P));
  if (at(L.Q) >= 0) words.q = machine.length(block, at(L.Q));
  if (at(L.I) >= 0) words.i = machine.length(block, at(L.I));
  if (at(L.J) >= 0) words.j = machine.length(block, at(L.J));
  if (at(L.D) >= 0) words.d = machine.length(block, at(L.D));
  const counts_with_k = !machine.report && at(L.L) < 0 && motion !== 870;
  if (at(L.L) >= 0) words.repeats = block.value[at(L.L)];
  else if (counts_with_k && at(L.K) >= 0) words.repeats = block.value[at(L.K)];
  if (at(L.K) >= 0 && !counts_with_k) words.k = machine.length(block, at(L.K));
  return words;
}

/** Places in the plane under rotation, scaling, mirror or polar words come from the target that was read. */
function placeWords(v: Float64Array, words: Writable<MillCycleWords>): void {
  const [first, second] = PLANE[v[S.plane] - 17];
  const named = (target.named & ((1 << first) | (1 << second))) !== 0;
  if (!named) return;
  const to = [target.x, target.y, target.z];
  for (const axis of [first, second]) {
    words[PLACES[axis]] = v[S.distance] === 91 ? to[axis] - v[S.x + axis] : to[axis];
  }
}

/** Tool axis of G17, G18, G19. */
const NORMAL = [2, 1, 0] as const;

const PLACES = ['x', 'y', 'z'] as const;

/** R and depth along the tool under scaling; pecks, gaps and dwells keep their size (common practice, no source). */
function scaleLevels(v: Float64Array, words: Writable<MillCycleWords>): void {
  const normal = normalOf(v);
  const factor = v[S.scale_x + normal];
  const centre = v[S.distance] === 91 ? 0 : v[S.scale_cx + normal] - normalShift(v);
  const level = (value: number | undefined) => value !== undefined && centre + (value - centre) * factor;
  const r = level(words.r);
  const depth = level(words[PLACES[normal]]);
  if (r !== false) words.r = r;
  if (depth !== false) words[PLACES[normal]] = depth;
}

/** Whether levels along the tool axis would have to be turned over. */
function turnsLevels(v: Float64Array): boolean {
  const normal = normalOf(v);
  return !Number.isNaN(v[S.mirror_x + normal]) || (v[S.scaled] === 1 && !(v[S.scale_x + normal] > 0));
}

/** Tool axis of the plane: 0 X, 1 Y, 2 Z. */
function normalOf(v: Float64Array): number {
  return NORMAL[v[S.plane] - 17];
}

function normalShift(v: Float64Array): number {
  const normal = normalOf(v);
  return v[S.local_x + normal] + v[S.set_x + normal];
}

function keptState(v: Float64Array): MillCycleState | undefined {
  if (Number.isNaN(v[S.cycle])) return undefined;
  return {
    code: v[S.cycle],
    initial_level: v[S.cycle_level],
    r: v[S.cycle_r],
    depth: v[S.cycle_depth],
    p_seconds: v[S.cycle_p],
    q: v[S.cycle_q],
    i: v[S.cycle_i],
    j: v[S.cycle_j],
    k: v[S.cycle_k],
  };
}

function keepState(v: Float64Array, state: MillCycleState | undefined): void {
  v[S.cycle] = state?.code ?? Number.NaN;
  v[S.cycle_level] = state?.initial_level ?? Number.NaN;
  v[S.cycle_r] = state?.r ?? Number.NaN;
  v[S.cycle_depth] = state?.depth ?? Number.NaN;
  v[S.cycle_p] = state?.p_seconds ?? Number.NaN;
  v[S.cycle_q] = state?.q ?? Number.NaN;
  v[S.cycle_i] = state?.i ?? Number.NaN;
  v[S.cycle_j] = state?.j ?? Number.NaN;
  v[S.cycle_k] = state?.k ?? Number.NaN;
}
