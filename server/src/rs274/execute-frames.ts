import { type Block, L, WORD } from './block.ts';
import type { CodeRow } from './codes/shape.ts';
import { PLANE, programmedPoint } from './coordinate-change.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

const LETTERS = [L.X, L.Y, L.Z] as const;
const FACTORS = [L.I, L.J, L.K] as const;
const here = new Float64Array(3);

/** G68, G69, G51, G50, G51.1, G50.1: the coordinates that follow are turned, scaled or mirrored. Returns whether it was one. */
export function executeFrames(machine: Machine, block: Block, row: CodeRow, word: number): boolean {
  const { v } = machine.state;
  switch (row.effect) {
    case 'rotation-on':
      turnOn(machine, block, word);
      return true;
    case 'rotation-off':
      v[S.turned] = 0;
      return false;
    case 'scaling-on':
      scaleOn(machine, block, word);
      return true;
    case 'scaling-off':
      v[S.scaled] = 0;
      return false;
    case 'mirror-on':
      for (let axis = 0; axis < 3; axis += 1) {
        if (block.has(LETTERS[axis])) v[S.mirror_x + axis] = point(machine, block, axis);
      }
      return true;
    case 'mirror-off':
      mirrorOff(v, block);
      return true;
    default:
      return false;
  }
}

/** A coordinate word as a point in the work offset. */
function point(machine: Machine, block: Block, axis: number): number {
  const { v } = machine.state;
  const at = block.index(LETTERS[axis]);
  if (at < 0) return here[axis];
  const value = axis === 0 ? machine.lengthAlongX(block, at) : machine.length(block, at);
  return v[S.distance] === 91 ? here[axis] + value : value + v[S.local_x + axis] + v[S.set_x + axis];
}

function turnOn(machine: Machine, block: Block, word: number): void {
  const { v } = machine.state;
  if (block.has(L.I) || block.has(L.J) || block.has(L.K)) {
    machine.problemAt(block, word, 'not-followed', 'G68 about an axis in space (I J K) is not followed');
    v[S.lost] |= 2;
    return;
  }
  programmedPoint(machine, here);
  const [first, second] = PLANE[v[S.plane] - 17];
  const angle = block.number(L.R);
  if (Number.isNaN(angle)) machine.problemAt(block, word, 'rotation-angle-missing', 'G68 has no angle (R)');
  const before = v[S.turned] !== 0 && v[S.distance] === 91 ? v[S.turn_deg] : 0;
  v[S.turn_first] = point(machine, block, first);
  v[S.turn_second] = point(machine, block, second);
  v[S.turn_deg] = before + angle;
  v[S.turned] = v[S.plane];
}

/** P or I J K of G51: without a point in thousandths (P2000 is 2). */
function factor(block: Block, at: number): number {
  return (block.marks[at] & WORD.point) !== 0 ? block.value[at] : block.value[at] / 1000;
}

function scaleOn(machine: Machine, block: Block, word: number): void {
  const { v } = machine.state;
  programmedPoint(machine, here);
  let stated = false;
  for (let axis = 0; axis < 3; axis += 1) {
    const own = block.index(FACTORS[axis]);
    const all = block.index(L.P);
    const at = all >= 0 ? all : own;
    if (at >= 0) stated = true;
    v[S.scale_x + axis] = at < 0 ? 1 : factor(block, at);
    const centre = point(machine, block, axis);
    // An axis that keeps its scale needs no centre.
    v[S.scale_cx + axis] = v[S.scale_x + axis] === 1 ? 0 : centre;
    if (v[S.scale_x + axis] === 0) {
      machine.problemAt(block, at, 'scale-zero', 'a scale of 0 is not possible');
      v[S.scale_x + axis] = Number.NaN;
    }
  }
  if (!stated) machine.problemAt(block, word, 'scale-missing', 'G51 says no scale (P, or I J K)');
  v[S.scaled] = stated ? 1 : 0;
}

function mirrorOff(v: Float64Array, block: Block): void {
  const named = LETTERS.some(letter => block.has(letter));
  for (let axis = 0; axis < 3; axis += 1) {
    if (!named || block.has(LETTERS[axis])) v[S.mirror_x + axis] = Number.NaN;
  }
}
