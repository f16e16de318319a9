import { type Block, L } from './block.ts';
import { isChanged, programmedPoint, toReal } from './coordinate-change.ts';
import { executeToolData } from './execute-tool-data.ts';
import { offsetColumn, turnByFrame, turnColumn } from './frame-columns.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { forgetStored } from './stored-reference.ts';

const LETTERS = [L.X, L.Y, L.Z] as const;

/**
 * G10. L2 P n sets work offset n (P0 the active one in `ngc`, the external one elsewhere); L20 sets it so that the present
 * point gets the values. L1, L10 to L13 and the lathe form without L set tool data (execute-tool-data.ts); P0 of that form moves work
 * zero.
 */
export function executeSetData(machine: Machine, block: Block): void {
  const kind = block.number(L.L);
  if (kind !== 2 && kind !== 20) {
    if (Number.isNaN(kind) && block.number(L.P) === 0) loseNamed(machine, block);
    executeToolData(machine, block, kind);
    if (!Number.isNaN(kind) && ![1, 3, 10, 11, 12, 13, 14, 50, 52].includes(kind)) {
      machine.problemAt(block, block.index(L.L), 'set-data-kind-unknown', 'this kind of G10 is not known');
    }
    return;
  }
  const { v } = machine.state;
  const number = block.number(L.P);
  if (Number.isNaN(number) || number < 0) {
    machine.problem('set-data-number-missing', 0, block.length, 'G10 does not say which work offset (P)');
    return;
  }
  const frame = number === 0 && machine.report ? v[S.frame] : frameOfNumber(number);
  const active = frame === v[S.frame] || (Number.isNaN(v[S.frame]) && frame === 540);
  if (number === 0 && !machine.report) {
    loseNamed(machine, block);
    return;
  }
  const column = offsetColumn(frame);
  let moved = false;
  readShown(machine, block);
  for (let axis = 0; axis < 3; axis += 1) {
    const at = block.index(LETTERS[axis]);
    if (at < 0) continue;
    const value = axis === 0 ? machine.lengthAlongX(block, at) : machine.length(block, at);
    const before = column < 0 ? Number.NaN : v[column + axis];
    const position = v[S.x + axis];
    const fresh = offsetValue(kind, value, before, position, shown[axis], v, active, machine.report);
    if (column >= 0) v[column + axis] = fresh.offset;
    if (active && fresh.position !== position && !(Number.isNaN(fresh.position) && Number.isNaN(position))) {
      v[S.x + axis] = fresh.position;
      moved = true;
    }
  }
  if (block.has(L.R) && kind === 2) {
    if (column < 0) {
      machine.problemAt(block, block.index(L.R), 'not-followed', 'a work offset turned by R is not followed');
      v[S.lost] = 1;
    } else {
      v[turnColumn(column)] = block.number(L.R);
      if (active) turnByFrame(machine);
    }
  }
  if (!Number.isNaN(frame)) forgetStored(v, frame);
  if (moved) machine.place();
}

const shown = new Float64Array(3);

/** Where the words of G10 L20 put the present point, in the axes of the work offset before it is turned. */
function readShown(machine: Machine, block: Block): void {
  const { v } = machine.state;
  programmedPoint(machine, shown);
  for (let axis = 0; axis < 3; axis += 1) {
    const at = block.index(LETTERS[axis]);
    if (at < 0) continue;
    const value = axis === 0 ? machine.lengthAlongX(block, at) : machine.length(block, at);
    shown[axis] = value + v[S.local_x + axis] + v[S.set_x + axis];
  }
  if (isChanged(v)) toReal(v, shown);
}

function offsetValue(
  kind: number,
  value: number,
  before: number,
  position: number,
  shown: number,
  v: Float64Array,
  active: boolean,
  report: boolean,
): { offset: number; position: number } {
  const incremental = kind === 2 && !report && v[S.distance] === 91;
  if (kind === 2) {
    const offset = incremental ? before + value : value;
    const shift = incremental ? -value : before - value;
    return { offset, position: active ? position + shift : position };
  }
  if (!active) return { offset: Number.NaN, position };
  return { offset: before + position - shown, position: shown };
}

function frameOfNumber(number: number): number {
  if (number <= 6) return 530 + number * 10;
  return number <= 9 ? 584 + number : Number.NaN;
}

function loseNamed(machine: Machine, block: Block): void {
  const { v } = machine.state;
  let lost = false;
  for (let axis = 0; axis < 3; axis += 1) {
    if (!block.has(LETTERS[axis]) || Number.isNaN(v[S.x + axis])) continue;
    v[S.x + axis] = Number.NaN;
    lost = true;
  }
  if (lost) machine.place();
}
