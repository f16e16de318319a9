import { type Block, L } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import type { Group } from './codes/shape.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

/** Modal groups whose codes turn or bend the coordinates; each has a bit of the state's `lost` column from 2 on. */
const TURNING_GROUPS: readonly Group[] = [
  'rotation',
  'scaling',
  'mirror',
  'polar',
  'interpolation',
  'length-offset',
  'plane',
];

/**
 * After a code that is not followed and changes what the words mean, positions stay unknown until a code of its group
 * ends it. Cylindrical interpolation ends with C0.
 */
export function followFrame(machine: Machine, block: Block, codes: BlockCodes): void {
  const { v } = machine.state;
  for (const row of codes.rows) {
    const bit = TURNING_GROUPS.indexOf(row.group);
    if (bit < 0) continue;
    const mask = 2 << bit;
    const starts = row.effect === 'not-followed' && row.motion === 'unknown-position';
    const ends_by_word = row.group === 'interpolation' && block.number(L.C) === 0;
    if (starts && !ends_by_word) v[S.lost] |= mask;
    else if ((v[S.lost] & mask) !== 0) {
      v[S.lost] &= ~mask;
      machine.lose();
    }
  }
}
