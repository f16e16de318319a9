import type { Block } from './block.ts';
import type { CodeRow, Effect } from './codes/shape.ts';
import type { Machine } from './machine.ts';

const LATHE_CYCLES: ReadonlySet<Effect> = new Set<Effect>([
  'turning-cycle',
  'thread-cycle',
  'facing-cycle',
  'finishing',
  'turning-roughing',
  'facing-roughing',
  'pattern-repeating',
  'face-peck',
  'groove',
  'multi-pass-thread',
]);

/** Whether an effect is a lathe cycle. */
export function isLatheCycle(effect: Effect): boolean {
  return LATHE_CYCLES.has(effect);
}

/** A block of a lathe cycle; returns false when it is none. */
export function executeLatheCycle(
  machine: Machine,
  block: Block,
  row: CodeRow | undefined,
  word: number,
  _motion = Number.NaN,
): boolean {
  if (row === undefined) return false;
  machine.problemAt(block, word, 'not-followed', `G${row.number} (${row.means}) is not followed`);
  machine.lose();
  return true;
}
