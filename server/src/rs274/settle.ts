import type { Dialect, MachineKind } from './codes/shape.ts';
import { type Evidence, evidenceOfChunks } from './evidence.ts';
import type { NotCutting } from './not-cutting.ts';
import { settleDialect, settleKind } from './settle-dialect.ts';
import type { Hints, Item } from './settled-item.ts';
import type { ProgramText } from './text.ts';

/** Everything about reading a program that its text may leave open. */
export interface Settled {
  dialect: Item<Dialect>;
  kind: Item<MachineKind>;
  units: Item<'mm' | 'inch'>;
  /** mm a word without a point counts by in mm programs; 0: whole units. */
  least_increment_mm: Item<number>;
  /** The same in inch programs, inch. */
  least_increment_inch: number;
  dwell: Item<'s' | 'ms'>;
  diameter: Item<boolean>;
  semicolon_ends_block: Item<boolean>;
  /** Lines before the first % that are leader. */
  leader_lines: number;
  /** Control bytes (NUL, SUB, tape marks) that are passed over, counted in what was looked at. */
  control_bytes: number;
  /** The text is not a program of this language. */
  not_cutting?: NotCutting;
}

/** Settles how a text is to be read: hints > what it states > what fits only one reading > likely > not known. */
export function settle(text: ProgramText, hints: Hints = {}): Settled {
  const e = evidenceOfChunks(text.chunks);
  const kind = settleKind(e, hints);
  const dialect = settleDialect(e, kind, hints);
  const least = leastIncrement(e, hints);
  const settled: Settled = {
    dialect,
    kind,
    units: units(e, hints),
    least_increment_mm: least,
    least_increment_inch: hints.least_increment_inch ?? least.value / 10,
    dwell: dwell(e, dialect.value, hints),
    diameter: diameter(e, kind.value, dialect.value, hints),
    semicolon_ends_block: semicolons(e),
    leader_lines: leaderLines(text, e),
    control_bytes: e.control_bytes,
  };
  const not_cutting = e.signs.verdict(e.filled_lines) ?? noBlocks(e);
  if (not_cutting !== undefined) settled.not_cutting = not_cutting;
  return settled;
}

function units(e: Evidence, hints: Hints): Item<'mm' | 'inch'> {
  const unit = e.first_unit;
  if (unit !== 0) {
    const value = unit === 20 || unit === 70 ? 'inch' : 'mm';
    if (!e.motion_before_unit || hints.units === undefined) {
      return { value, how: 'stated', why: `the program says G${unit}` };
    }
  }
  if (hints.units !== undefined)
    return { value: hints.units, how: 'given', why: 'from the setup sheet or the machine' };
  return { value: 'mm', how: 'unknown', why: 'the program does not say G20 or G21; read as mm' };
}

/** No machine of a usual shop travels this far, mm. */
const FARTHEST_MM = 5000;

function leastIncrement(e: Evidence, hints: Hints): Item<number> {
  if (hints.least_increment_mm !== undefined) {
    return { value: hints.least_increment_mm ?? 0, how: 'given', why: 'from the setup sheet or the machine' };
  }
  if (e.axis_whole === 0)
    return { value: 0, how: 'only-fit', why: 'every axis word that is not zero has a point' };
  const all_whole = !e.axis_with_point;
  if (all_whole && e.axis_largest > FARTHEST_MM && e.axis_whole_long * 2 > e.axis_whole) {
    const why = `no axis word has a point and the largest is ${e.axis_largest}: read as thousandths`;
    return { value: 0.001, how: 'likely', why };
  }
  return { value: 0, how: 'likely', why: 'words without a point were read as whole units' };
}

function dwell(e: Evidence, dialect: Dialect, hints: Hints): Item<'s' | 'ms'> {
  if (hints.dwell !== undefined)
    return { value: hints.dwell, how: 'given', why: 'from the setup sheet or the machine' };
  if (dialect === 'ngc') return { value: 's', how: 'stated', why: 'P of a dwell is seconds in this dialect' };
  if (e.dwell_words === 0) return { value: 'ms', how: 'likely', why: 'no dwell leaves it open' };
  if (e.dwell_largest >= 100)
    return { value: 'ms', how: 'likely', why: `P${e.dwell_largest} would be too long in seconds` };
  return { value: 's', how: 'likely', why: `P${e.dwell_least} would be too short in milliseconds` };
}

function diameter(e: Evidence, kind: MachineKind, dialect: Dialect, hints: Hints): Item<boolean> {
  if (kind === 'mill') return { value: false, how: 'only-fit', why: 'a mill' };
  if (hints.diameter !== undefined)
    return { value: hints.diameter, how: 'given', why: 'from the setup sheet or the machine' };
  if (dialect === 'ngc') {
    const stated = e.hasG(7, 8);
    const why = stated ? 'the program says G7 or G8' : 'radius until G7 in this dialect';
    return { value: false, how: stated ? 'stated' : 'likely', why };
  }
  return { value: true, how: 'likely', why: 'lathes of this dialect read X as a diameter' };
}

function semicolons(e: Evidence): Item<boolean> {
  if (e.semicolon_ends > 0 && e.semicolon_ends >= e.block_lines / 2) {
    return { value: true, how: 'only-fit', why: 'most blocks end with ;' };
  }
  return { value: false, how: e.semicolon_comments > 0 ? 'only-fit' : 'likely', why: '; begins a comment' };
}

const MOST_LEADER_LINES = 40;

/** Lines before the first %, when nothing in them is a block with motion. */
function leaderLines(text: ProgramText, e: Evidence): number {
  if (e.percent_lines === 0) return 0;
  // Lines that are not there are empty; counting those of a long text would cost a pass over it.
  for (let line = 0; line < MOST_LEADER_LINES; line += 1) {
    const words = text.lineText(line).replace(/\([^)]*\)?|;.*$/g, '');
    if (words.trim().startsWith('%')) return line;
    if (/(?<![A-Z])(?:[GMT]\s*\d|[XYZ]\s*[-+.]?\d)/i.test(words)) return 0;
  }
  return 0;
}

/** Control bytes that no tape or transfer leaves in a program. */
const MOST_CONTROL_BYTES = 20;

function noBlocks(e: Evidence): NotCutting | undefined {
  if (e.control_bytes > MOST_CONTROL_BYTES && e.block_lines === 0)
    return { reason: 'this looks like data, not like text', line: 0 };
  if (e.filled_lines < 10 || e.block_lines * 10 >= e.filled_lines || e.g.size + e.m.size >= 2)
    return undefined;
  return { reason: 'hardly a line of this text looks like a block', line: 0 };
}
