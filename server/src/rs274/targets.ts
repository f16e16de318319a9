import { type Block, L, WORD } from './block.ts';
import { isChanged, PLANE, toProgrammed, toReal } from './coordinate-change.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

/** Bits of the axes X Y Z A B C U V W, in this order. */
export const AXIS = { x: 1, y: 2, z: 4, a: 8, b: 16, c: 32, u: 64, v: 128, w: 256 } as const;

/** Where the words of a block send the axes; mm in the active work offset, degrees for the rotary ones. */
export class Target {
  /** Axes that the block names. */
  named = 0;
  x = 0;
  y = 0;
  z = 0;
  a = 0;
  b = 0;
  c = 0;
  u = 0;
  v = 0;
  w = 0;

  get linear(): number {
    return this.named & 7;
  }

  get others(): number {
    return this.named & ~7;
  }
}

const LINEAR = [
  { letter: L.X, bit: AXIS.x, local: S.local_x, set: S.set_x },
  { letter: L.Y, bit: AXIS.y, local: S.local_y, set: S.set_y },
  { letter: L.Z, bit: AXIS.z, local: S.local_z, set: S.set_z },
] as const;

const INCREMENTS = [
  { letter: L.U, bit: AXIS.x },
  { letter: L.V, bit: AXIS.y },
  { letter: L.W, bit: AXIS.z },
] as const;

const OTHERS = [
  { letter: L.A, bit: AXIS.a, at: S.a, field: 'a', degrees: true },
  { letter: L.B, bit: AXIS.b, at: S.b, field: 'b', degrees: true },
  { letter: L.C, bit: AXIS.c, at: S.c, field: 'c', degrees: true },
  { letter: L.U, bit: AXIS.u, at: S.u, field: 'u', degrees: false },
  { letter: L.V, bit: AXIS.v, at: S.v, field: 'v', degrees: false },
  { letter: L.W, bit: AXIS.w, at: S.w, field: 'w', degrees: false },
] as const;

const here = new Float64Array(3);
const there = new Float64Array(3);

/**
 * Reads the axis words of a block into `target`: absolute words with the shifts of G52 and G92, incremental words from
 * the position, U V W as increments of X Y Z on lathes (code systems A to C). Axes not named keep their position. Mirror,
 * scaling, rotation and polar words are worked in.
 */
export function readTarget(machine: Machine, block: Block, target: Target): void {
  const { v, pending } = machine.state;
  target.named = 0;
  const incremental = v[S.distance] === 91;
  const changed = isChanged(v);
  here[0] = pending === null ? v[S.x] : pending.x;
  here[1] = pending === null ? v[S.y] : pending.y;
  here[2] = pending === null ? v[S.z] : pending.z;
  if (changed) toProgrammed(v, here);
  for (let i = 0; i < 3; i += 1) {
    const axis = LINEAR[i];
    there[i] = here[i];
    const at = block.index(axis.letter);
    if (at < 0) continue;
    const value = i === 0 ? machine.lengthAlongX(block, at) : machine.length(block, at);
    there[i] = incremental ? here[i] + value : value + v[axis.local] + v[axis.set];
    target.named |= axis.bit;
  }
  if (v[S.polar] === 1 || hasPolarWords(block)) polarWords(machine, block);
  readOthers(machine, block, target, incremental);
  if (machine.lathe_words) increments(machine, block, target);
  if (changed) toReal(v, there);
  target.x = there[0];
  target.y = there[1];
  target.z = there[2];
}

function readOthers(machine: Machine, block: Block, target: Target, incremental: boolean): void {
  const { v } = machine.state;
  for (const axis of OTHERS) target[axis.field] = v[axis.at];
  const others = machine.lathe_words ? 3 : OTHERS.length;
  for (let i = 0; i < others; i += 1) {
    const axis = OTHERS[i];
    const at = block.index(axis.letter);
    if (at < 0) continue;
    const value = axis.degrees ? machine.plain(block, at) : machine.length(block, at);
    target[axis.field] = incremental ? v[axis.at] + value : value;
    target.named |= axis.bit;
  }
}

function increments(machine: Machine, block: Block, target: Target): void {
  for (let i = 0; i < 3; i += 1) {
    const axis = INCREMENTS[i];
    const at = block.index(axis.letter);
    if (at < 0) continue;
    if ((target.named & axis.bit) !== 0) {
      machine.problemAt(block, at, 'axis-twice', 'position and increment of one axis stand in one block');
    }
    const value = i === 0 ? machine.lengthAlongX(block, at) : machine.length(block, at);
    there[i] = here[i] + value;
    target.named |= axis.bit;
  }
}

/** Whether `@` or `^` stands in a block. */
export function hasPolarWords(block: Block): boolean {
  const [x, y] = [block.index(L.X), block.index(L.Y)];
  return (
    ((x < 0 ? 0 : block.marks[x]) & WORD.polar) !== 0 || ((y < 0 ? 0 : block.marks[y]) & WORD.polar) !== 0
  );
}

/** G16 and the words `@` and `^`: the word of the plane's first axis is a radius about work zero, that of the second an angle. */
function polarWords(machine: Machine, block: Block): void {
  const { v } = machine.state;
  const [first, second] = PLANE[v[S.plane] - 17];
  const radius_at = block.index(LINEAR[first].letter);
  const angle_at = block.index(LINEAR[second].letter);
  if (radius_at < 0 && angle_at < 0) return;
  const zero_first = v[LINEAR[first].local] + v[LINEAR[first].set];
  const zero_second = v[LINEAR[second].local] + v[LINEAR[second].set];
  const [a, b] = [here[first] - zero_first, here[second] - zero_second];
  const incremental = v[S.distance] === 91;
  let radius = Math.hypot(a, b);
  let angle = (Math.atan2(b, a) * 180) / Math.PI;
  if (radius_at >= 0) radius = machine.length(block, radius_at) + (incremental ? radius : 0);
  if (angle_at >= 0) angle = machine.plain(block, angle_at) + (incremental ? angle : 0);
  there[first] = zero_first + radius * Math.cos((angle * Math.PI) / 180);
  there[second] = zero_second + radius * Math.sin((angle * Math.PI) / 180);
}

/** Whether the block has a word of any axis. */
export function namesAxes(block: Block): boolean {
  const { last } = block;
  for (let i = 0; i < AXIS_INDEX.length; i += 1) if (last[AXIS_INDEX[i]] >= 0) return true;
  return false;
}

const AXIS_INDEX = [L.X, L.Y, L.Z, L.A, L.B, L.C, L.U, L.V, L.W].map(letter => letter - 65);

/** Puts the target into the state. */
export function arrive(machine: Machine, target: Target): void {
  const { v } = machine.state;
  v[S.x] = target.x;
  v[S.y] = target.y;
  v[S.z] = target.z;
  if (target.others === 0) return;
  for (const axis of OTHERS) v[axis.at] = target[axis.field];
}
