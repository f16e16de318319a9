import { type Block, L, WORD } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import type { Effect } from './codes/shape.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { namesAxes, readTarget, Target } from './targets.ts';

/** Limits of the report: characters a line, M codes a block. NISTIR 6556 section 3.3 and 3.4, from memory. */
const MOST_CHARACTERS = 256;
const MOST_M_CODES = 4;
export const LARGEST_N = 99_999;

const WANTS_AXES: ReadonlySet<Effect> = new Set<Effect>([
  'reference',
  'second-reference',
  'set-data',
  'set-position',
  'local-shift',
]);
const COMPENSATION_FORBIDS: ReadonlySet<Effect> = new Set<Effect>([
  'reference',
  'second-reference',
  'set-position',
  'machine-coordinates',
  'drill-cycle',
  'tool-change',
  'probe',
  'plane',
  'inch',
  'millimetre',
  'work-offset',
]);
const NOT_NEGATIVE = [L.D, L.H, L.L] as const;
const WHOLE = [L.D, L.H, L.L, L.T] as const;
const FREE_LETTERS = new Set<number>([
  L.F,
  L.G,
  L.M,
  L.N,
  L.O,
  L.S,
  L.T,
  L.X,
  L.Y,
  L.Z,
  L.A,
  L.B,
  L.C,
  L.U,
  L.V,
  L.W,
]);

/**
 * Errors that a strict reader of the report stops at and other controls pass over: NISTIR 6556 sections 3.3 to 3.5 and
 * its appendix of error messages, from memory. Only for the `ngc` dialect.
 */
export function checkReportRules(machine: Machine, block: Block, codes: BlockCodes): void {
  if (block.length > MOST_CHARACTERS) {
    machine.problem('line-too-long', MOST_CHARACTERS, block.length, 'a line has at most 256 characters');
  }
  if (block.n > LARGEST_N)
    machine.problem('block-number-large', 0, block.length, 'N has at most five digits');
  checkNumbers(machine, block);
  checkAxisWords(machine, block, codes);
  checkCompensation(machine, block, codes);
  checkUnused(machine, block, codes);
  if (codes.has('surface-speed') && !block.has(L.S))
    machine.problem('surface-speed-missing', 0, block.length, 'G96 needs S, the surface speed');
  if (codes.has('probe')) checkProbe(machine, block, codes);
  let m_codes = 0;
  for (const row of codes.rows) if (row.letter === 'M') m_codes += 1;
  if (m_codes > MOST_M_CODES)
    machine.problem('too-many-m-codes', 0, block.length, 'more than four M codes in one block');
}

function checkNumbers(machine: Machine, block: Block): void {
  for (const letter of NOT_NEGATIVE) {
    const at = block.index(letter);
    if (at >= 0 && block.value[at] < 0) {
      machine.problemAt(block, at, 'number-negative', `${String.fromCharCode(letter)} cannot be negative`);
    }
  }
  for (const letter of WHOLE) {
    const at = block.index(letter);
    if (at < 0 || letter === L.D) continue;
    const value = block.value[at];
    if (Math.abs(value - Math.round(value)) > 1e-4) {
      machine.problemAt(
        block,
        at,
        'number-not-whole',
        `${String.fromCharCode(letter)} must be a whole number`,
      );
    }
  }
}

function checkAxisWords(machine: Machine, block: Block, codes: BlockCodes): void {
  const axes = namesAxes(block);
  const wanting = codes.rows.filter(row => WANTS_AXES.has(row.effect)).length;
  const motion = codes.ofGroup('motion');
  const row = motion < 0 ? undefined : codes.rows[motion];
  if (row !== undefined && wanting > 0 && row.effect !== 'cycle-cancel' && row.axis_words) {
    machine.problemAt(
      block,
      codes.words[motion],
      'axis-words-twice',
      'two codes of this block both want its axis words',
    );
  }
  if (!axes) return;
  const cancel = row?.effect === 'cycle-cancel';
  if (cancel && wanting === 0) {
    machine.problemAt(block, codes.words[motion], 'axis-words-unused', 'G80 takes no axis words');
  }
}

function checkCompensation(machine: Machine, block: Block, codes: BlockCodes): void {
  const { v } = machine.state;
  const on = v[S.compensation] !== 40;
  for (let i = 0; i < codes.rows.length; i += 1) {
    const { effect, number } = codes.rows[i];
    const starts = effect.startsWith('compensation-') && effect !== 'compensation-off';
    if (starts && on) {
      machine.problemAt(
        block,
        codes.words[i],
        'compensation-already-on',
        'cutter compensation is already on',
      );
    } else if (starts && v[S.plane] === 19) {
      machine.problemAt(
        block,
        codes.words[i],
        'compensation-plane',
        'cutter compensation needs the XY or the ZX plane',
      );
    } else if (on && COMPENSATION_FORBIDS.has(effect) && !(effect === 'plane' && number === v[S.plane])) {
      const text = `G41 or G42 is on: ${codes.rows[i].letter}${number} is not allowed before G40`;
      machine.problemAt(block, codes.words[i], 'compensation-on', text);
    }
  }
}

/** Nearest point that a probe may be sent to: 0.254 mm (0.010 in). NISTIR 6556 section 3.5.13, from memory. */
const NEAREST_PROBE_MM = 0.254;

/** Codes of the block itself that change how its axis words are read. */
const READS_ANEW: ReadonlySet<Effect> = new Set<Effect>([
  'absolute',
  'incremental',
  'inch',
  'millimetre',
  'plane',
]);

const target = new Target();

function checkProbe(machine: Machine, block: Block, codes: BlockCodes): void {
  const { v } = machine.state;
  readTarget(machine, block, target);
  const way = Math.hypot(target.x - v[S.x], target.y - v[S.y], target.z - v[S.z]);
  const turns = (['a', 'b', 'c'] as const).some(
    axis => target[axis] !== v[S[axis]] && block.has(L[AXIS_LETTERS[axis]]),
  );
  const why =
    v[S.feed_mode] === 93 || codes.has('inverse-time')
      ? 'inverse time feed'
      : v[S.compensation] !== 40
        ? 'cutter compensation'
        : turns
          ? 'a rotary axis that moves'
          : way < NEAREST_PROBE_MM && !codes.rows.some(row => READS_ANEW.has(row.effect))
            ? 'a point nearer than 0.254 mm'
            : undefined;
  if (why !== undefined)
    machine.problem('probe-not-allowed', 0, block.length, `a probing move is not possible with ${why}`);
}

const AXIS_LETTERS = { a: 'A', b: 'B', c: 'C' } as const;

/** Words that no code of the block, and not the cycle or motion in force, has a use for. */
function checkUnused(machine: Machine, block: Block, codes: BlockCodes): void {
  // A code that is not known may be the one that takes the word.
  if (codes.unknown || codes.has('not-followed')) return;
  const motion =
    codes.ofGroup('motion') >= 0
      ? codes.rows[codes.ofGroup('motion')].number * 10
      : machine.state.v[S.motion];
  for (let at = 0; at < block.count; at += 1) {
    const letter = block.letter[at];
    if (FREE_LETTERS.has(letter) || (block.marks[at] & (WORD.comma | WORD.bad)) !== 0) continue;
    if (usesInMotion(motion, letter) || codes.rows.some(row => takes(row.words, letter))) continue;
    const name = String.fromCharCode(letter);
    machine.problemAt(block, at, 'word-unused', `no code of this block uses ${name}`);
  }
}

function takes(words: { required: readonly string[]; optional: readonly string[] }, letter: number): boolean {
  const name = String.fromCharCode(letter);
  const has = (word: string) => word.split('|').includes(name);
  return words.required.some(has) || words.optional.some(has);
}

/** Letters that the motion in force takes: arcs I J K R P, cycles and threads all of theirs, lines none. */
function usesInMotion(motion: number, letter: number): boolean {
  if (motion === 20 || motion === 30)
    return letter === L.P || letter === L.R || (letter >= L.I && letter <= L.K);
  return motion > 30;
}
