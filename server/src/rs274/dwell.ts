import { type Block, L, WORD } from './block.ts';
import type { Machine } from './machine.ts';

/**
 * Seconds of a P word: seconds in the report; on word-address controls a whole number is milliseconds where that is
 * settled, and P with a point is seconds (common practice, no source).
 */
export function dwellSeconds(machine: Machine, block: Block, at: number): number {
  const value = block.value[at];
  const whole = (block.marks[at] & WORD.point) === 0;
  return machine.settings.dwell_ms && whole ? value / 1000 : value;
}

/** Seconds of a dwell block: P, or X, U, F in seconds on word-address controls; NaN without any. */
export function dwellOfBlock(machine: Machine, block: Block): number {
  if (block.has(L.P)) return dwellSeconds(machine, block, block.index(L.P));
  if (machine.report) return Number.NaN;
  for (const letter of [L.X, L.U, L.F]) {
    const at = block.index(letter);
    if (at < 0) continue;
    const whole = (block.marks[at] & WORD.point) === 0;
    const thousandths = whole && (machine.settings.dwell_ms || block.value[at] >= 100) && letter !== L.F;
    return thousandths && machine.settings.least_increment_mm !== 0
      ? block.value[at] / 1000
      : block.value[at];
  }
  return Number.NaN;
}
