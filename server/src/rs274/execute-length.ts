import { type Block, L } from './block.ts';
import type { Effect } from './codes/shape.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

const LETTERS = [L.X, L.Y, L.Z] as const;

/**
 * Tool length offset: G43, G44, G49 and, in the report's successor, G43.1 (the words are the offset) and G43.2 (H or the
 * words are added). Words change the position in the work offset by what they say; what H changes stands in the table of the
 * control, and positions are taken to stay (common practice: the next block programs the axis). Returns whether the axis
 * words of the block are used. Source: NISTIR 6556 section 3.5.11 and its successor, from memory.
 */
export function executeLength(machine: Machine, block: Block, effect: Effect): boolean {
  const { v } = machine.state;
  switch (effect) {
    case 'length-offset':
    case 'length-offset-minus':
      if (block.has(L.H)) v[S.length_offset] = block.number(L.H);
      else if (machine.report) v[S.length_offset] = v[S.tool];
      if (machine.report) offsetOfTable(machine, v[S.length_offset] === 0 ? 0 : Number.NaN);
      return false;
    case 'length-offset-off':
      v[S.length_offset] = 0;
      if (machine.report) takeOff(machine);
      return false;
    case 'length-offset-words':
    case 'length-offset-add':
      return offsetByWords(machine, block, effect === 'length-offset-add');
    default:
      return false;
  }
}

/** The offset of a tool in the table: along Z, on lathes along X too. NaN: not known, positions stay. */
function offsetOfTable(machine: Machine, value_mm: number): void {
  for (const axis of machine.settings.kind === 'lathe' ? [0, 2] : [2]) {
    if (Number.isNaN(value_mm)) machine.state.v[S.tlo_x + axis] = value_mm;
    else shift(machine, axis, value_mm);
  }
}

function takeOff(machine: Machine): void {
  const { v } = machine.state;
  for (let axis = 0; axis < 3; axis += 1) {
    if (Number.isNaN(v[S.tlo_x + axis])) v[S.tlo_x + axis] = 0;
    else shift(machine, axis, 0);
  }
}

function offsetByWords(machine: Machine, block: Block, add: boolean): boolean {
  const { v } = machine.state;
  if (add && block.has(L.H)) {
    offsetOfTable(machine, Number.NaN);
    return false;
  }
  let used = false;
  for (let axis = 0; axis < 3; axis += 1) {
    const at = block.index(LETTERS[axis]);
    if (at < 0) continue;
    used = true;
    const value = axis === 0 ? machine.lengthAlongX(block, at) : machine.length(block, at);
    shift(machine, axis, add ? v[S.tlo_x + axis] + value : value);
  }
  return used;
}

/** Sets the offset along an axis: the tool stands still, so its coordinate changes the other way. */
function shift(machine: Machine, axis: number, offset_mm: number): void {
  const { v } = machine.state;
  const before = v[S.tlo_x + axis];
  v[S.tlo_x + axis] = offset_mm;
  const old = v[S.x + axis];
  if (before === offset_mm || Number.isNaN(old)) return;
  v[S.x + axis] = old + before - offset_mm;
  machine.place();
}
