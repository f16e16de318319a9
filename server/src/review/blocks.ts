import type { Reading, Stretch } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';

/** Something that stands at a line: a stretch, or a block of things. */
interface Lines {
  readonly lineCount: number;
}

/** Some neighbouring stretches, or neighbouring blocks of them. Never changes: what is summed over it is kept with it. */
interface Block<T extends Lines> extends Lines {
  readonly items: readonly T[];
  /** By the number of the sum. */
  readonly sums: unknown[];
}

/** What was summed over a piece of the program that begins at a line. */
export interface Piece<T> {
  value: T;
  by: number;
}

/** How many items stand in a block, level by level: an edit sums one block of each level again, then all of the last. */
const ITEMS_A_BLOCK = [4, 6, 6];

interface Kept {
  stretches: readonly Stretch[];
  /** None before the first edit. */
  levels: readonly Gathered<Lines>[];
  /** Before the first edit all stretches in one: most programs are looked at once and never edited. */
  whole: Block<Stretch> | undefined;
}

const kept = new WeakMap<Reading, Kept>();

/**
 * Sums over a program piece by piece: `ofBlock` over some stretches, `join` over neighbouring pieces. Gives the pieces of
 * the whole program in order; after an edit only those that it touches are summed again. With `again` the same stretches
 * will be asked for once more: what was noted of them must stay.
 */
export function summedInPieces<T>(
  ofBlock: (stretches: readonly Stretch[], again: boolean) => T,
  join: (pieces: readonly Piece<T>[]) => T,
): (reading: Reading) => Piece<T>[] {
  const number = sums_made++;
  const sumOf = (block: Lines, level: number): T => {
    const { items, sums } = block as Block<Lines>;
    if (!(number in sums))
      sums[number] =
        level === 0
          ? ofBlock(items as readonly Stretch[], false)
          : join(piecesOf(items, item => sumOf(item, level - 1)));
    return sums[number] as T;
  };
  const last = ITEMS_A_BLOCK.length - 1;
  return reading => {
    const { whole, levels } = blocksOf(reading);
    if (!whole) return piecesOf(levels[last].pieces, block => sumOf(block, last));
    if (!(number in whole.sums)) whole.sums[number] = ofBlock(whole.items, true);
    return [{ value: whole.sums[number] as T, by: 0 }];
  };
}

let sums_made = 0;

/** Puts what was summed over a piece where it stands in the program; until lines move before it, that is the same object. */
export function whereItStands<V extends object, T>(
  place: (value: V, by: number) => T,
): (piece: Piece<V>) => T {
  const held = new Slot<V, { by: number; placed: T }>();
  return ({ value, by }) => {
    let found = held.get(value);
    if (found?.by !== by) {
      found = { by, placed: place(value, by) };
      held.set(value, found);
    }
    return found.placed;
  };
}

/** Lists in one. `flatMap` takes several times as long. */
export function joinLists<T>(lists: readonly (readonly T[])[]): T[] {
  const all: T[] = [];
  for (const list of lists) for (const item of list) all.push(item);
  return all;
}

/** The stretches of a block with the lines before each. */
export function linesBefore(stretches: readonly Stretch[]): { stretch: Stretch; by: number }[] {
  let by = 0;
  return stretches.map(stretch => {
    const placed = { stretch, by };
    by += stretch.lineCount;
    return placed;
  });
}

function piecesOf<K extends Lines, T>(items: readonly K[], sum: (item: K) => T): Piece<T>[] {
  let by = 0;
  return items.map(item => {
    const piece = { value: sum(item), by };
    by += item.lineCount;
    return piece;
  });
}

/** The stretches gathered into blocks. After an edit all blocks but those it touched are the same objects. */
function blocksOf(reading: Reading): Kept {
  const { stretches } = reading;
  const before = kept.get(reading);
  if (before?.stretches === stretches) return before;
  let made: Kept;
  if (before === undefined) {
    made = { stretches, levels: [], whole: { items: stretches, lineCount: reading.lineCount, sums: [] } };
  } else {
    const same =
      reading.kept.from === before.stretches ? reading.kept : sameEnds(before.stretches, stretches);
    made = { stretches, levels: gatherLevels(before, stretches, same), whole: undefined };
  }
  kept.set(reading, made);
  return made;
}

function gatherLevels(
  before: Kept,
  stretches: readonly Stretch[],
  kept_ends: { head: number; tail: number },
): Gathered<Lines>[] {
  const levels: Gathered<Lines>[] = [];
  let old: readonly Lines[] = before.levels.length === 0 ? [] : before.stretches;
  let items: readonly Lines[] = stretches;
  let same = old.length === 0 ? NOTHING_SAME : kept_ends;
  for (const [level, size] of ITEMS_A_BLOCK.entries()) {
    const gathered = gather(before.levels[level], old, items, same, size);
    levels.push(gathered);
    old = before.levels[level]?.pieces ?? [];
    items = gathered.pieces;
    same = sameEnds(old, items);
  }
  return levels;
}

const NOTHING_SAME = { head: 0, tail: 0 };

/** Items gathered into pieces, with the item that each piece begins with and, behind, the number of all. */
interface Gathered<T extends Lines> {
  readonly pieces: readonly Block<T>[];
  readonly starts: readonly number[];
}

/** Gathers items by about `size`; pieces gathered before (`old`, of `before`) stay as they are where their items do. */
function gather<T extends Lines>(
  old: Gathered<T> | undefined,
  before: readonly T[],
  items: readonly T[],
  same: { head: number; tail: number },
  size: number,
): Gathered<T> {
  const { pieces, starts } = old ?? { pieces: [], starts: [0] };
  let head = 0;
  while (head < pieces.length && starts[head + 1] <= same.head) head++;
  let tail = pieces.length;
  while (tail > head && before.length - starts[tail - 1] <= same.tail) tail--;
  const from = starts[head];
  const behind = before.length - starts[tail];
  const gathered = [
    ...pieces.slice(0, head),
    ...cutAround(before.slice(from, before.length - behind), items, from, items.length - behind, size),
    ...pieces.slice(tail),
  ];
  // Many small ones are left after many edits.
  if (gathered.length > 8 + (4 * items.length) / size)
    return placed(cut(items, 0, items.length, size), 0, []);
  return placed(gathered, head, starts);
}

/** The places of pieces; those of the first `known` are in `starts`. */
function placed<T extends Lines>(
  pieces: Gathered<T>['pieces'],
  known: number,
  starts: readonly number[],
): Gathered<T> {
  const all = starts.slice(0, known + 1);
  if (all.length === 0) all.push(0);
  for (let at = known; at < pieces.length; at++) all.push(all[at] + pieces[at].items.length);
  return { pieces, starts: all };
}

/** How many items two lists share at the beginning, and how many of the others at the end. */
function sameEnds<T>(a: readonly T[], b: readonly T[]): { head: number; tail: number } {
  const most = Math.min(a.length, b.length);
  let head = 0;
  while (head < most && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < most - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  return { head, tail };
}

/**
 * Cuts items from `from` to `to`, which stand in the place of `old`: those that are new apart from those that stood beside
 * them before, for who edits a place will edit it again.
 */
function cutAround<T extends Lines>(
  old: readonly T[],
  items: readonly T[],
  from: number,
  to: number,
  size: number,
): Gathered<T>['pieces'] {
  const { head, tail } = sameEnds(old, items.slice(from, to));
  return [
    ...cut(items, from, from + head, size),
    ...cut(items, from + head, to - tail, size),
    ...cut(items, to - tail, to, size),
  ];
}

/** Cuts items from `from` to `to` into pieces of about the same size. */
function cut<T extends Lines>(
  items: readonly T[],
  from: number,
  to: number,
  size: number,
): Gathered<T>['pieces'] {
  const count = Math.max(1, Math.round((to - from) / size));
  const made: Block<T>[] = [];
  for (let i = 0; i < count && to > from; i++) {
    const start = from + Math.floor((i * (to - from)) / count);
    const end = from + Math.floor(((i + 1) * (to - from)) / count);
    const own = items.slice(start, end);
    made.push({ items: own, lineCount: own.reduce((sum, item) => sum + item.lineCount, 0), sums: [] });
  }
  return made;
}
