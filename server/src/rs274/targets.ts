import { type Block, L } from './block.ts';
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
  { letter: L.X, bit: AXIS.x, at: S.x, local: S.local_x, set: S.set_x, field: 'x' },
  { letter: L.Y, bit: AXIS.y, at: S.y, local: S.local_y, set: S.set_y, field: 'y' },
  { letter: L.Z, bit: AXIS.z, at: S.z, local: S.local_z, set: S.set_z, field: 'z' },
] as const;

const INCREMENTS = [
  { letter: L.U, bit: AXIS.x, at: S.x, field: 'x' },
  { letter: L.V, bit: AXIS.y, at: S.y, field: 'y' },
  { letter: L.W, bit: AXIS.z, at: S.z, field: 'z' },
] as const;

const OTHERS = [
  { letter: L.A, bit: AXIS.a, at: S.a, field: 'a', degrees: true },
  { letter: L.B, bit: AXIS.b, at: S.b, field: 'b', degrees: true },
  { letter: L.C, bit: AXIS.c, at: S.c, field: 'c', degrees: true },
  { letter: L.U, bit: AXIS.u, at: S.u, field: 'u', degrees: false },
  { letter: L.V, bit: AXIS.v, at: S.v, field: 'v', degrees: false },
  { letter: L.W, bit: AXIS.w, at: S.w, field: 'w', degrees: false },
] as const;

/**
 * Reads the axis words of a block into `target`: absolute words with the shifts of G52 and G92, incremental words from
 * the position, U V W as increments of X Y Z on lathes (code systems A to C). Axes not named keep their position.
 */
export function readTarget(machine: Machine, block: Block, target: Target): void {
  const { v } = machine.state;
  target.named = 0;
  const incremental = v[S.distance] === 91;
  const { pending } = machine.state;
  for (const axis of LINEAR) {
    const here = pending === null ? v[axis.at] : pending[axis.field];
    target[axis.field] = here;
    const at = block.index(axis.letter);
    if (at < 0) continue;
    const value = axis.bit === AXIS.x ? machine.lengthAlongX(block, at) : machine.length(block, at);
    target[axis.field] = incremental ? here + value : value + v[axis.local] + v[axis.set];
    target.named |= axis.bit;
  }
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
  if (machine.lathe_words) increments(machine, block, target);
}

function increments(machine: Machine, block: Block, target: Target): void {
  const { v, pending } = machine.state;
  for (const axis of INCREMENTS) {
    const at = block.index(axis.letter);
    if (at < 0) continue;
    if ((target.named & axis.bit) !== 0) {
      machine.problemAt(block, at, 'axis-twice', 'position and increment of one axis stand in one block');
    }
    const value = axis.bit === AXIS.x ? machine.lengthAlongX(block, at) : machine.length(block, at);
    target[axis.field] = (pending === null ? v[axis.at] : pending[axis.field]) + value;
    target.named |= axis.bit;
  }
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
