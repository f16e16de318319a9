/** Which form a multi-pass lathe cycle block is written in. */
export type LatheForm = 'first-block' | 'second-block' | 'one-block';

/**
 * Form of a G71, G72 or G73 block by its letters: the first of two blocks has no P and Q; the second has them, and a
 * first block came before; P and Q with D (or I, K), or without a first block, is the one-block form.
 * Source: common practice, no source.
 */
export function roughForm(letters: ReadonlySet<string>, first_block_seen: boolean): LatheForm {
  if (!letters.has('P') && !letters.has('Q')) return 'first-block';
  return letters.has('D') || letters.has('I') || letters.has('K') || !first_block_seen
    ? 'one-block'
    : 'second-block';
}

/**
 * Form of a G74, G75 or G76 block: the first of two has no end point; K, D or I beside an end point, or an end without
 * a first block, is the one-block form. Source: common practice, no source.
 */
export function pointForm(letters: ReadonlySet<string>, first_block_seen: boolean): LatheForm {
  const ends = ['X', 'Z', 'U', 'W'].some(letter => letters.has(letter));
  if (!ends) return 'first-block';
  return letters.has('D') || letters.has('I') || letters.has('K') || !first_block_seen
    ? 'one-block'
    : 'second-block';
}

/**
 * Length of a P, Q or D word of a lathe cycle, mm: with a decimal point in the program's units, without one a whole
 * number of 0.001 mm or 0.0001 in. Source: common practice, no source.
 */
export function latheCycleLength_mm(value: number, has_point: boolean, inch: boolean): number {
  if (has_point) return inch ? value * 25.4 : value;
  return inch ? (value * 25.4) / 10_000 : value / 1000;
}

/** P of the first G76 block: six digits m m r r a a. */
export interface ThreadSetup {
  readonly finish_passes: number;
  readonly chamfer_tenths: number;
  readonly angle_deg: number;
}

/** Splits P of the first G76 block (020060 = 2 passes, no run-out, 60 degrees). Undefined when it is not such a number. */
export function splitThreadSetup(p: number): ThreadSetup | undefined {
  if (!Number.isInteger(p) || p < 0 || p > 999_999) return undefined;
  return {
    finish_passes: Math.floor(p / 10_000),
    chamfer_tenths: Math.floor(p / 100) % 100,
    angle_deg: p % 100,
  };
}
