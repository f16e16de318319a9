import { type Block, L } from './block.ts';
import type { Effect } from './codes/shape.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { KIND } from './steps.ts';
import { type StoredPoint, storedReference } from './stored-reference.ts';
import { arrive, namesAxes, readTarget, Target } from './targets.ts';

const target = new Target();

/**
 * G28, G30, G27, G29. G28 and G30: rapid to the point of the words (where that is another one), then the named axes go to
 * a reference position that the program does not tell unless it has stored one. Without axis words the report moves all axes.
 */
export function executeReference(machine: Machine, block: Block, effect: Effect): void {
  const { v } = machine.state;
  if (!namesAxes(block)) {
    if (effect === 'reference' || effect === 'second-reference') home(machine, 63, pointOf(effect));
    return;
  }
  if (effect === 'return-from-reference') {
    readTarget(machine, block, target);
    arrive(machine, target);
    machine.step(KIND.rapid);
    return;
  }
  readTarget(machine, block, target);
  const moves = target.x !== v[S.x] || target.y !== v[S.y] || target.z !== v[S.z];
  const known = !stays(target.x, v[S.x]) || !stays(target.y, v[S.y]) || !stays(target.z, v[S.z]);
  if (moves && known && !zeroIncrements(machine, block)) {
    arrive(machine, target);
    machine.step(KIND.rapid);
  }
  home(machine, target.named & 63, pointOf(effect));
}

function stays(to: number, from: number): boolean {
  return to === from || (Number.isNaN(to) && Number.isNaN(from));
}

function zeroIncrements(machine: Machine, block: Block): boolean {
  if (machine.state.v[S.distance] !== 91 && !machine.lathe_words) return false;
  for (const letter of [L.X, L.Y, L.Z, L.U, L.V, L.W]) {
    const at = block.index(letter);
    if (at < 0) continue;
    const increment =
      machine.state.v[S.distance] === 91 || letter === L.U || letter === L.V || letter === L.W;
    if (!increment || block.value[at] !== 0) return false;
  }
  return true;
}

function pointOf(effect: Effect): StoredPoint {
  return effect === 'second-reference' ? 'second' : 'first';
}

/** To the point that the program stored (G28.1, G30.1) where it is known, else to one that the program does not tell. */
function home(machine: Machine, axes: number, point: StoredPoint): void {
  const { v } = machine.state;
  const to = [0, 1, 2].map(axis => storedReference(machine, point, axis));
  let known = false;
  for (let axis = 0; axis < 6; axis += 1) {
    if ((axes & (1 << axis)) === 0) continue;
    const stored = axis < 3 ? to[axis] : Number.NaN;
    if (!Number.isNaN(stored)) known = true;
    v[S.x + axis] = stored;
  }
  if (known) machine.step(KIND.rapid);
  else machine.step(KIND.home, 0, axes);
}
