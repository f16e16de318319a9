import { type Block, L } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import { closePath } from './execute-compensation.ts';
import { readOffset } from './execute-compensation-mode.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { KIND } from './steps.ts';

/**
 * T and M6. Mills: T prepares, M6 changes to the last T, in one block in either order. Lathes (code systems A to C):
 * T0101 is tool 1 with offset 1 and changes at once; T0100 cancels the offset (common practice, no source).
 */
export function executeToolChange(machine: Machine, block: Block, codes: BlockCodes): void {
  const { v } = machine.state;
  const at = block.index(L.T);
  if (at >= 0) {
    const value = block.value[at];
    if (value < 0 || Math.abs(value - Math.round(value)) > 1e-4) {
      machine.problemAt(block, at, 'tool-number-bad', 'a tool number is a whole number, 0 or more');
      return;
    }
    if (machine.lathe_words) {
      turretWord(machine, value, block.digits[at]);
      return;
    }
    v[S.prepared_tool] = Math.round(value);
  }
  const set = codes.find('set-tool-number');
  if (set >= 0 && block.has(L.Q)) v[S.tool] = block.number(L.Q);
  const change = codes.find('tool-change');
  if (change < 0 || machine.lathe_words) return;
  if (Number.isNaN(v[S.prepared_tool])) {
    const word = codes.words[change];
    machine.problemAt(
      block,
      word,
      'tool-change-without-tool',
      'M6 without a T before it: which tool comes is not known',
    );
  }
  v[S.tool] = v[S.prepared_tool];
  machine.step(KIND.toolchange);
}

function turretWord(machine: Machine, value: number, digits: number): void {
  const { v } = machine.state;
  const split = digits >= 5 ? 1000 : 100;
  const joined = digits >= 3 || value >= 100;
  const tool = joined ? Math.floor(value / split) : value;
  const offset = joined ? value % split : Number.NaN;
  if (tool === 0) {
    v[S.length_offset] = offset;
    return;
  }
  const changes = tool !== v[S.tool];
  const compensated = v[S.compensation] !== 40;
  if (compensated) closePath(machine);
  v[S.tool] = tool;
  v[S.prepared_tool] = tool;
  if (!Number.isNaN(offset)) {
    v[S.length_offset] = offset;
    v[S.radius_offset] = offset;
  }
  if (compensated) readOffset(machine);
  if (changes) machine.step(KIND.toolchange);
}

/** M3, M4, M13, M14, M19. */
export function executeSpindleStart(machine: Machine, _block: Block, codes: BlockCodes): void {
  const { v } = machine.state;
  for (const row of codes.rows) {
    switch (row.effect) {
      case 'spindle-clockwise':
        v[S.direction] = 1;
        break;
      case 'spindle-counter-clockwise':
        v[S.direction] = -1;
        break;
      case 'spindle-clockwise-coolant':
        v[S.direction] = 1;
        v[S.coolant] |= 2;
        break;
      case 'spindle-counter-clockwise-coolant':
        v[S.direction] = -1;
        v[S.coolant] |= 2;
        break;
      case 'rigid-tapping':
        v[S.rigid_tapping] = 1;
        break;
      case 'overrides-locked':
        v[S.overrides_locked] = 1;
        break;
      case 'overrides-on':
        v[S.overrides_locked] = 0;
        break;
      default:
        break;
    }
  }
}

/** M5 and M19: before the move in the report, after it on ISO controls. */
export function executeSpindleStop(machine: Machine, codes: BlockCodes): void {
  if (codes.has('spindle-stop') || codes.has('spindle-orient')) machine.state.v[S.direction] = 0;
}

/** M7, M8 (before the move), M9 (after it on ISO controls). */
export function executeCoolant(machine: Machine, codes: BlockCodes, which: 'all' | 'before' | 'after'): void {
  const { v } = machine.state;
  for (const row of codes.rows) {
    if (row.effect === 'coolant-off') {
      if (which !== 'before') v[S.coolant] = 0;
    } else if (which !== 'after') {
      if (row.effect === 'coolant-mist') v[S.coolant] |= 1;
      else if (row.effect === 'coolant-flood') v[S.coolant] |= 2;
    }
  }
}
