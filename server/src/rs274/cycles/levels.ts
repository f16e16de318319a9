import { PLANE_AXES, type Plane, type Point } from '../geometry/plane.ts';
import type { CycleNotes, CycleWriter } from './emit.ts';
import { MILL_CYCLES } from './table.ts';

/** Words of one block in cycle mode. Lengths in mm, P in seconds, L and S bare numbers. Absent = not written. */
export interface MillCycleWords {
  /** G number when the block has one (83, 84.2); absent in the blocks that follow. */
  readonly code?: number;
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
  readonly r?: number;
  readonly p_seconds?: number;
  readonly q?: number;
  readonly i?: number;
  readonly j?: number;
  readonly k?: number;
  readonly d?: number;
  /** Repeats: L, or K on controls that count with K. */
  readonly repeats?: number;
}

/**
 * The sticky words of cycle mode, kept by the core between blocks. NaN = not given yet.
 * R and Z are kept as written and read again in the distance mode of each block.
 */
export interface MillCycleState {
  readonly code: number;
  readonly initial_level: number;
  readonly r: number;
  readonly depth: number;
  readonly p_seconds: number;
  readonly q: number;
  readonly i: number;
  readonly j: number;
  readonly k: number;
}

/** Everything outside the block's own words that decides what a cycle does. */
export interface MillCycleContext {
  readonly plane: Plane;
  /** Position before the block, mm, in the offset in force; NaN = not known. */
  readonly position: Point;
  /** G91. */
  readonly incremental: boolean;
  /** G98: to the initial level; G99: to the R level. */
  readonly return_to: 'initial' | 'r';
  /** report: NISTIR 6556 and its successor; common: the other controls. */
  readonly rules: 'report' | 'common';
  /** 1 clockwise, -1 counter-clockwise, 0 stopped, NaN not known. */
  readonly spindle_direction: number;
  /** Advance a revolution of a tapping cycle, see `tapLead_mm`; NaN when not known. */
  readonly lead_mm: number;
  readonly inverse_time?: boolean;
  readonly compensation_on?: boolean;
  readonly rotary_word?: boolean;
  /** Where words along the tool axis count from in G90 (shifts of G52 and G92), mm. */
  readonly zero?: number;
  /** Gap above the last peck when the machine's own is known, mm. */
  readonly peck_clearance_mm?: number;
}

/** A block of cycle mode, ready to be made into moves. */
export interface MillHoles {
  readonly state: MillCycleState;
  /** Holes along the plane's first and second axis, in order. */
  readonly holes: readonly { readonly first: number; readonly second: number }[];
  readonly r_level: number;
  readonly bottom: number;
  readonly clear: number;
  /** Gap left above the last depth when a peck begins again. */
  readonly peck_clearance_mm: number;
  /** False when the gap is our assumption and neither the block nor the machine told it. */
  readonly peck_clearance_known: boolean;
}

/** Writes the moves of one hole from the R level to clear. */
export type HoleBody = (
  hole: { readonly first: number; readonly second: number },
  levels: MillHoles,
  context: MillCycleContext,
  writer: CycleWriter,
  notes: CycleNotes,
) => void;

/** Holes that one block may make. */
export const MOST_REPEATS = 10_000;

const PECK_CLEARANCE_MM = 0.254;

/**
 * Resolves levels, sticky words and repeats of one block in cycle mode.
 * G90: R and Z are positions. G91: R from the initial level, Z from the R level, X and Y from the last hole.
 * Clear = initial level, or R if that is higher (G98); R (G99). The initial level is taken when the mode is entered
 * (`state` undefined) and kept until it ends. Returns no `holes` when the block cannot be understood.
 * Source: NISTIR 6556 section 3.5.16 (from memory); level of entry kept, K or L 0: common practice, no source.
 */
export function resolveMillCycle(
  words: MillCycleWords,
  state: MillCycleState | undefined,
  context: MillCycleContext,
  notes: CycleNotes,
): MillHoles | MillCycleState | undefined {
  const axes = PLANE_AXES[context.plane];
  const code = words.code === undefined ? state?.code : Math.round(words.code * 10);
  if (code === undefined || MILL_CYCLES[code] === undefined) return undefined;
  const at_normal = context.position[axes.normal];
  const strict = context.rules === 'report';
  const changed = state !== undefined && state.code !== code;
  const kept = changed && strict ? undefined : state;
  const next: MillCycleState = {
    code,
    initial_level: state?.initial_level ?? at_normal,
    r: words.r ?? kept?.r ?? Number.NaN,
    depth: words[axes.normal] ?? kept?.depth ?? Number.NaN,
    p_seconds: words.p_seconds ?? kept?.p_seconds ?? Number.NaN,
    q: words.q ?? kept?.q ?? Number.NaN,
    i: words.i ?? kept?.i ?? Number.NaN,
    j: words.j ?? kept?.j ?? Number.NaN,
    k: words.k ?? kept?.k ?? Number.NaN,
  };
  if (changed && !strict) noteInherited(words, words[axes.normal], next, notes);
  checkConditions(code, words, context, notes);
  checkNeeds(next, strict, notes);

  if (Number.isNaN(next.depth)) {
    notes.error('cycle-word-missing', `the cycle has no depth (${axes.normal.toUpperCase()})`);
    return next;
  }
  const zero = context.zero ?? 0;
  let r_level = context.incremental ? next.initial_level + next.r : next.r + zero;
  if (Number.isNaN(next.r)) {
    if (strict) {
      notes.error('cycle-word-missing', 'the cycle has no R');
      return next;
    }
    if (words.r === undefined && state === undefined)
      notes.warn('cycle-word-missing', 'the cycle has no R; the level where it began was taken');
    if (words.r === undefined) r_level = next.initial_level;
  }
  const bottom = context.incremental ? r_level + next.depth : next.depth + zero;
  const backwards = code === 870 && Number.isNaN(next.k);
  if (r_level < bottom && !backwards) {
    if (strict) notes.error('cycle-r-below-z', 'R is below the bottom of the hole');
    else notes.warn('cycle-r-below-z', 'R is below the bottom of the hole: the tool is fed upwards');
  }
  const clear = context.return_to === 'initial' ? Math.max(next.initial_level, r_level) : r_level;

  if (Number.isNaN(clear) && state === undefined) {
    notes.warn('cycle-position-unknown', 'the level where the cycle began is not known');
  }

  const repeats = repeatCount(words.repeats, strict, notes);
  const from = { first: context.position[axes.first], second: context.position[axes.second] };
  const holes: { first: number; second: number }[] = [];
  const word = { first: words[axes.first], second: words[axes.second] };
  for (let n = 1; n <= repeats; n += 1) {
    holes.push(
      context.incremental
        ? { first: from.first + n * (word.first ?? 0), second: from.second + n * (word.second ?? 0) }
        : { first: word.first ?? from.first, second: word.second ?? from.second },
    );
  }
  const written = strict && words.d !== undefined ? Math.abs(words.d) : undefined;
  const known = written ?? context.peck_clearance_mm;
  return {
    state: next,
    holes,
    r_level,
    bottom,
    clear,
    peck_clearance_mm: known ?? PECK_CLEARANCE_MM,
    peck_clearance_known: known !== undefined,
  };
}

/**
 * Repeats of a cycle block from its letters, as bare numbers. The report counts with L. Elsewhere L, or a K that
 * is a whole number and not the third word of a shift or of a peck series (I or J beside it).
 */
export function millCycleRepeats(
  letters: { readonly l?: number; readonly k?: number; readonly i?: number; readonly j?: number },
  rules: 'report' | 'common',
): number | undefined {
  if (letters.l !== undefined || rules === 'report') return letters.l;
  const whole = letters.k !== undefined && letters.k >= 0 && Number.isInteger(letters.k);
  return whole && letters.i === undefined && letters.j === undefined ? letters.k : undefined;
}

/** Whether `resolveMillCycle` understood the block. */
export function hasHoles(result: MillHoles | MillCycleState): result is MillHoles {
  return 'holes' in result;
}

/**
 * Advance of a tap per revolution, mm: F / S in feed per minute, F in feed per revolution.
 * NaN when feed or speed is not known or the spindle stands still; inverse time has no lead.
 */
export function tapLead_mm(
  feed: number,
  feed_mode: 'per-minute' | 'per-revolution' | 'inverse',
  rpm: number,
): number {
  if (feed_mode === 'per-revolution') return feed;
  return feed_mode === 'per-minute' && rpm > 0 ? feed / rpm : Number.NaN;
}

function repeatCount(repeats: number | undefined, strict: boolean, notes: CycleNotes): number {
  if (repeats === undefined) return 1;
  const count = Math.round(repeats);
  if (!(count >= 0) || Math.abs(count - repeats) > 1e-4) {
    notes.error('cycle-repeat-bad', 'the number of repeats must be a whole number');
    return 1;
  }
  if (count === 0 && strict) notes.error('cycle-repeat-zero', 'L0 is not allowed here');
  if (count > MOST_REPEATS) {
    notes.error('cycle-too-long', `only the first ${MOST_REPEATS} of ${count} repeats were followed`);
  }
  return Math.min(count, MOST_REPEATS);
}

function noteInherited(
  words: MillCycleWords,
  depth_word: number | undefined,
  next: MillCycleState,
  notes: CycleNotes,
): void {
  const inherited: string[] = [];
  if (words.r === undefined && !Number.isNaN(next.r)) inherited.push('R');
  if (depth_word === undefined && !Number.isNaN(next.depth)) inherited.push('the depth');
  if (inherited.length > 0) {
    notes.warn('cycle-words-inherited', `${inherited.join(' and ')} come from the cycle before`);
  }
}

function checkNeeds(state: MillCycleState, strict: boolean, notes: CycleNotes): void {
  const values = { p: state.p_seconds, q: state.q, i: state.i, j: state.j, k: state.k };
  const by_parts = !strict && !Number.isNaN(state.i);
  for (const letter of MILL_CYCLES[state.code].needs) {
    const value = values[letter];
    const negative = (letter === 'p' || letter === 'q') && value < 0;
    if (negative && strict)
      notes.error('cycle-word-negative', `${letter.toUpperCase()} of the cycle is negative`);
    if (!Number.isNaN(value)) continue;
    if (strict) notes.error('cycle-word-missing', `the cycle has no ${letter.toUpperCase()}`);
    else if (letter === 'q' && !by_parts) notes.warn('cycle-word-missing', 'the cycle has no Q');
  }
}

function checkConditions(
  code: number,
  words: MillCycleWords,
  context: MillCycleContext,
  notes: CycleNotes,
): void {
  const cycle = MILL_CYCLES[code];
  const report = context.rules === 'report';
  if (context.compensation_on && report)
    notes.error('cycle-compensation-on', 'cutter compensation is on in a cycle');
  if (context.inverse_time) notes.error('cycle-inverse-time', 'a cycle cannot run in inverse-time feed');
  if (context.rotary_word && report)
    notes.error('cycle-rotary-word', 'a rotary word stands in a cycle block');
  if (
    report &&
    words.code !== undefined &&
    words.x === undefined &&
    words.y === undefined &&
    words.z === undefined
  ) {
    notes.error('cycle-no-axis-word', 'the cycle block has no axis word');
  }
  if (cycle.spindle === undefined) return;
  if (context.spindle_direction === 0) {
    notes.error('cycle-spindle-off', `${cycle.name} with the spindle stopped`);
  } else if (report && cycle.spindle !== 0 && context.spindle_direction === -cycle.spindle) {
    const turning = cycle.spindle === 1 ? 'clockwise' : 'counter-clockwise';
    notes.error('cycle-spindle-direction', `${cycle.name} needs the spindle turning ${turning}`);
  }
}
