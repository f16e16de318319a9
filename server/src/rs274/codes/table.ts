import { BUILDER_CODES } from './builder.ts';
import { CALL_CODES } from './calls.ts';
import { COMPENSATION_CODES } from './compensation.ts';
import { FEED_MODE_CODES } from './feed-modes.ts';
import { INTERPOLATION_CODES } from './interpolation.ts';
import { LATHE_CYCLE_CODES } from './lathe-cycles.ts';
import { MACHINE_CODES } from './machine.ts';
import { MILL_CYCLE_CODES } from './mill-cycles.ts';
import { MODE_CODES } from './modes.ts';
import { MOTION_CODES } from './motion.ts';
import { OFFSET_CODES } from './offsets.ts';
import { type CodeRow, DIALECTS, type Dialect, MACHINE_KINDS, type MachineKind } from './shape.ts';
import { SWITCH_CODES } from './switches.ts';
import { TRAVEL_CODES } from './travel.ts';

/** The one table of codes: reader, hover, completion and manual are all driven by it. */
export const CODES: readonly CodeRow[] = [
  ...MOTION_CODES,
  ...TRAVEL_CODES,
  ...INTERPOLATION_CODES,
  ...MODE_CODES,
  ...FEED_MODE_CODES,
  ...COMPENSATION_CODES,
  ...OFFSET_CODES,
  ...MILL_CYCLE_CODES,
  ...LATHE_CYCLE_CODES,
  ...CALL_CODES,
  ...MACHINE_CODES,
  ...SWITCH_CODES,
  ...BUILDER_CODES,
];

/** Codes are looked up by their number times ten: 0 to 9999 for G, 0 to 99990 for M. */
const G_SIZE = 10_000;
const M_SIZE = 100_000;
const BUILDER_M_FROM = 2000;

type Index = Int16Array<ArrayBuffer>;
const indexes = new Map<string, { G: Index; M: Index }>();

function indexFor(dialect: Dialect, kind: MachineKind): { G: Index; M: Index } {
  const key = `${dialect} ${kind}`;
  const known = indexes.get(key);
  if (known) return known;
  const index = { G: new Int16Array(G_SIZE).fill(-1), M: new Int16Array(BUILDER_M_FROM).fill(-1) };
  // Ranges first, so that a code of its own wins over the range it lies in.
  const rows = CODES.map((row, at) => ({ row, at })).filter(
    ({ row }) => row.dialects.includes(dialect) && (row.kind === undefined || row.kind === kind),
  );
  for (const { row, at } of rows.filter(({ row }) => row.through !== undefined)) {
    const table = index[row.letter];
    const last = Math.min(row.through ?? row.number, (table.length - 1) / 10);
    for (let number = row.number; number <= last; number += 1) table[number * 10] = at;
  }
  for (const { row, at } of rows.filter(({ row }) => row.through === undefined)) {
    index[row.letter][Math.round(row.number * 10)] = at;
  }
  indexes.set(key, index);
  return index;
}

/** The index of G or M codes of one dialect: number times ten -> row of `CODES`, -1 without. For hot paths. */
export function codeIndex(letter: 'G' | 'M', dialect: Dialect, kind: MachineKind): Int16Array {
  return indexFor(dialect, kind)[letter];
}

/**
 * The row of a code in a dialect on a kind of machine, or undefined when the dialect has no such code.
 * `number` is the code as written: 81, 43.1. A number within 0.0001 of a code is that code (NISTIR 6556 section 3.3.2.1).
 */
export function codeFor(
  letter: 'G' | 'M',
  number: number,
  dialect: Dialect,
  kind: MachineKind,
): CodeRow | undefined {
  const ten = Math.round(number * 10);
  if (!(ten >= 0) || Math.abs(ten - number * 10) > 0.001) return undefined;
  const index = codeIndex(letter, dialect, kind);
  if (ten >= index.length) {
    if (letter === 'M' && ten < M_SIZE && ten % 10 === 0) {
      return CODES.find(
        row =>
          row.through !== undefined &&
          row.through * 10 >= ten &&
          row.letter === 'M' &&
          row.dialects.includes(dialect),
      );
    }
    return undefined;
  }
  const at = index[ten];
  return at === undefined || at < 0 ? undefined : CODES[at];
}

/** All rows of a code, whatever the dialect, for the hover of a code that the dialect in force does not have. */
export function meaningsOf(letter: 'G' | 'M', number: number): CodeRow[] {
  return CODES.filter(
    row =>
      row.letter === letter &&
      (row.number === number || (row.through !== undefined && number >= row.number && number <= row.through)),
  );
}

/** Dialects that have the code at all, for 'this code belongs to ...'. */
export function dialectsOf(letter: 'G' | 'M', number: number): Dialect[] {
  return DIALECTS.filter(dialect =>
    MACHINE_KINDS.some(kind => codeFor(letter, number, dialect, kind) !== undefined),
  );
}

/** A code as people write it: G1, G43.1, M30. */
export function codeName(row: Pick<CodeRow, 'letter' | 'number'>): string {
  return `${row.letter}${row.number}`;
}
