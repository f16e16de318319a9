import type { Reading, Stretch } from '../rs274/index.ts';

/** Some neighbouring stretches of a program. Never changes: what is summed over it is kept with it. */
export interface StretchBlock {
  readonly items: readonly Stretch[];
  readonly lineCount: number;
}

/** Some neighbouring blocks. */
interface Group {
  readonly items: readonly StretchBlock[];
  readonly lineCount: number;
}

/** What was summed over a piece of the program that begins at a line. */
export interface Piece<T> {
  value: T;
  by: number;
}

/** An edit sums a block of so many stretches again, then a group of so many blocks, then all groups. */
const STRETCHES_A_BLOCK = 16;
const BLOCKS_A_GROUP = 16;

interface Kept {
  stretches: readonly Stretch[];
  blocks: readonly StretchBlock[];
  groups: readonly Group[];
}

const kept = new WeakMap<Reading, Kept>();

/**
 * Sums over a program piece by piece: `ofBlock` over some stretches, `join` over neighbouring pieces. Gives the pieces of
 * the whole program in order; after an edit only those that it touches are summed again.
 */
export function summedInPieces<T>(
  ofBlock: (stretches: readonly Stretch[]) => T,
  join: (pieces: readonly Piece<T>[]) => T,
): (reading: Reading) => Piece<T>[] {
  const blocks = new WeakMap<StretchBlock, { value: T }>();
  const groups = new WeakMap<Group, { value: T }>();
  const sumOfBlock = (block: StretchBlock): T => once(blocks, block, () => ofBlock(block.items));
  const sumOfGroup = (group: Group): T => once(groups, group, () => join(pieces(group.items, sumOfBlock)));
  return reading => pieces(groupsOf(reading), sumOfGroup);
}

/** The stretches of a block with the lines before each. */
export function* linesBefore(stretches: readonly Stretch[]): Iterable<{ stretch: Stretch; by: number }> {
  let by = 0;
  for (const stretch of stretches) {
    yield { stretch, by };
    by += stretch.lineCount;
  }
}

function once<K extends object, T>(held: WeakMap<K, { value: T }>, key: K, make: () => T): T {
  let found = held.get(key);
  if (!found) {
    found = { value: make() };
    held.set(key, found);
  }
  return found.value;
}

function pieces<K extends { lineCount: number }, T>(items: readonly K[], sum: (item: K) => T): Piece<T>[] {
  let by = 0;
  return items.map(item => {
    const piece = { value: sum(item), by };
    by += item.lineCount;
    return piece;
  });
}

/** The groups of a program in order. After an edit all but those it touched are the same objects. */
function groupsOf(reading: Reading): readonly Group[] {
  const { stretches } = reading;
  const before = kept.get(reading);
  if (before?.stretches === stretches) return before.groups;
  const blocks = gather(before?.blocks ?? [], stretches, STRETCHES_A_BLOCK);
  const groups = gather(before?.groups ?? [], blocks, BLOCKS_A_GROUP);
  kept.set(reading, { stretches, blocks, groups });
  return groups;
}

interface Gathered<T> {
  readonly items: readonly T[];
  readonly lineCount: number;
}

/** Gathers items by about `size`; those gathered before stay as they are where their items do. */
function gather<T extends { lineCount: number }>(
  old: readonly Gathered<T>[],
  items: readonly T[],
  size: number,
): Gathered<T>[] {
  let head = 0;
  let from = 0;
  while (head < old.length && standsAt(old[head].items, items, from)) {
    from += old[head].items.length;
    head++;
  }
  let tail = old.length;
  let to = items.length;
  while (tail > head) {
    const own = old[tail - 1].items;
    const start = to - own.length;
    if (start < from || !standsAt(own, items, start)) break;
    to = start;
    tail--;
  }
  const gathered = [
    ...old.slice(0, head),
    ...cutAround(
      old.slice(head, tail).flatMap(({ items }) => items),
      items,
      from,
      to,
      size,
    ),
    ...old.slice(tail),
  ];
  // Many small ones are left after many edits.
  return gathered.length <= 8 + (4 * items.length) / size ? gathered : cut(items, 0, items.length, size);
}

function standsAt<T>(own: readonly T[], items: readonly T[], at: number): boolean {
  if (at + own.length > items.length) return false;
  for (let i = 0; i < own.length; i++) if (own[i] !== items[at + i]) return false;
  return true;
}

/**
 * Cuts items from `from` to `to`, which stand in the place of `old`: those that are new apart from those that stood beside
 * them before, for who edits a place will edit it again.
 */
function cutAround<T extends { lineCount: number }>(
  old: readonly T[],
  items: readonly T[],
  from: number,
  to: number,
  size: number,
): Gathered<T>[] {
  const most = Math.min(old.length, to - from);
  let head = 0;
  while (head < most && old[head] === items[from + head]) head++;
  let tail = 0;
  while (tail < most - head && old[old.length - 1 - tail] === items[to - 1 - tail]) tail++;
  return [
    ...cut(items, from, from + head, size),
    ...cut(items, from + head, to - tail, size),
    ...cut(items, to - tail, to, size),
  ];
}

/** Cuts items from `from` to `to` into pieces of about the same size. */
function cut<T extends { lineCount: number }>(
  items: readonly T[],
  from: number,
  to: number,
  size: number,
): Gathered<T>[] {
  const count = Math.max(1, Math.round((to - from) / size));
  const made: Gathered<T>[] = [];
  for (let i = 0; i < count && to > from; i++) {
    const start = from + Math.floor((i * (to - from)) / count);
    const end = from + Math.floor(((i + 1) * (to - from)) / count);
    const own = items.slice(start, end);
    made.push({ items: own, lineCount: own.reduce((sum, item) => sum + item.lineCount, 0) });
  }
  return made;
}
