import type { Reading, Stretch } from '../rs274/index.ts';

/** Some neighbouring stretches of a program. Never changes: what is summed over it is kept with it. */
export interface StretchBlock {
  readonly stretches: readonly Stretch[];
  readonly lineCount: number;
}

/** A block at its place in the program. */
export interface PlacedBlock {
  readonly block: StretchBlock;
  readonly first_line: number;
}

/** Stretches in a block: an edit sums so many again, and then all blocks. */
const STRETCHES_A_BLOCK = 32;

interface Kept {
  stretches: readonly Stretch[];
  placed: readonly PlacedBlock[];
}

const kept = new WeakMap<Reading, Kept>();

/** The blocks of a program in order. After an edit all blocks but those it touched are the same objects. */
export function blocksOf(reading: Reading): readonly PlacedBlock[] {
  const { stretches } = reading;
  const before = kept.get(reading);
  if (before?.stretches === stretches) return before.placed;
  const placed = place(join(before?.placed ?? [], stretches));
  kept.set(reading, { stretches, placed });
  return placed;
}

function join(old: readonly PlacedBlock[], stretches: readonly Stretch[]): StretchBlock[] {
  let head = 0;
  let from = 0;
  while (head < old.length && standsAt(old[head].block, stretches, from)) {
    from += old[head].block.stretches.length;
    head++;
  }
  let tail = old.length;
  let to = stretches.length;
  while (tail > head) {
    const { block } = old[tail - 1];
    const start = to - block.stretches.length;
    if (start < from || !standsAt(block, stretches, start)) break;
    to = start;
    tail--;
  }
  const joined = [
    ...old.slice(0, head).map(({ block }) => block),
    ...cut(stretches, from, to),
    ...old.slice(tail).map(({ block }) => block),
  ];
  // Many small blocks are left after many edits.
  const few = joined.length <= 8 + (4 * stretches.length) / STRETCHES_A_BLOCK;
  return few ? joined : cut(stretches, 0, stretches.length);
}

function standsAt(block: StretchBlock, stretches: readonly Stretch[], at: number): boolean {
  const { stretches: own } = block;
  if (at + own.length > stretches.length) return false;
  for (let i = 0; i < own.length; i++) if (own[i] !== stretches[at + i]) return false;
  return true;
}

/** Cuts stretches from `from` to `to` into blocks of about the same size. */
function cut(stretches: readonly Stretch[], from: number, to: number): StretchBlock[] {
  const count = Math.max(1, Math.round((to - from) / STRETCHES_A_BLOCK));
  const blocks: StretchBlock[] = [];
  for (let i = 0; i < count && to > from; i++) {
    const start = from + Math.floor((i * (to - from)) / count);
    const end = from + Math.floor(((i + 1) * (to - from)) / count);
    const own = stretches.slice(start, end);
    blocks.push({ stretches: own, lineCount: own.reduce((sum, stretch) => sum + stretch.lineCount, 0) });
  }
  return blocks;
}

function place(blocks: readonly StretchBlock[]): PlacedBlock[] {
  let first_line = 0;
  return blocks.map(block => {
    const placed = { block, first_line };
    first_line += block.lineCount;
    return placed;
  });
}

/** Keeps what a function makes of a block with the block. */
export function keptByBlock<T>(make: (block: StretchBlock) => T): (block: StretchBlock) => T {
  const values = new WeakMap<StretchBlock, { value: T }>();
  return block => {
    let held = values.get(block);
    if (!held) {
      held = { value: make(block) };
      values.set(block, held);
    }
    return held.value;
  };
}
