import { compute, notNegative } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Chip that each tooth takes, and what runout makes of the load. */
export interface RunoutChips {
  /** Thickness at the middle of a full-width arc for each tooth, in order of passing; 0 where a tooth does not touch. */
  readonly chips_mm: readonly number[];
  readonly least_mm: number;
  readonly greatest_mm: number;
  readonly cutting_teeth: number;
}

/**
 * Chip of each tooth when the teeth stand at different radii: what a tooth misses the next ones take.
 * @formula h_i = max(0, reach_i - surface left by the teeth before), surface advancing fz a tooth; for two teeth fz + d and fz - d
 * @units chip_load_mm mm a tooth, radius_offsets_mm mm for each tooth in order of passing (differences matter only); gives mm
 * @range fz 0 or more, 1 to 1000 teeth, finite offsets
 * @source h = fz + (r_i - r_(i-1)) carried over teeth that do not touch, derived here
 */
export function runoutChips(given: {
  chip_load_mm: Given;
  radius_offsets_mm: readonly number[] | undefined;
}): RunoutChips | Absent {
  const offsets = given.radius_offsets_mm;
  if (offsets === undefined || offsets.length === 0)
    return absent('radius offsets not known', ['radius_offsets_mm']);
  if (offsets.length > 1000) return absent('more than 1000 teeth');
  if (!offsets.every(offset => Number.isFinite(offset))) return absent('radius offsets must be finite');
  return compute({ chip_load_mm: given.chip_load_mm }, { chip_load_mm: notNegative }, v => {
    const chips = steadyChips(v.chip_load_mm, offsets);
    return {
      chips_mm: chips,
      least_mm: Math.min(...chips),
      greatest_mm: Math.max(...chips),
      cutting_teeth: chips.filter(chip => chip > 0).length,
    };
  });
}

/** In steady state the surface before tooth i is the deepest reach of any tooth within the last turn. */
function steadyChips(feed: number, offsets: readonly number[]): number[] {
  const teeth = offsets.length;
  return offsets.map((offset, i) => {
    let chip = Number.POSITIVE_INFINITY;
    for (let back = 1; back <= teeth; back++) {
      const before = offsets[(i - back + teeth) % teeth] as number;
      chip = Math.min(chip, back * feed + offset - before);
    }
    return Math.max(0, chip);
  });
}

/**
 * Least and greatest chip of a two-tooth tool, or of the worst neighbours of any tool, for a difference in radius.
 * @formula fz - d and fz + d; once d reaches fz one tooth does all the work at 2 fz
 * @units chip_load_mm mm a tooth, radius_difference_mm mm; gives mm
 * @range both 0 or more; the difference is at most the dial reading
 * @source derived here
 */
export function runoutExtremes(given: {
  chip_load_mm: Given;
  radius_difference_mm: Given;
}): { readonly least_mm: number; readonly greatest_mm: number } | Absent {
  return compute(given, { chip_load_mm: notNegative, radius_difference_mm: notNegative }, v => {
    const difference = Math.min(v.radius_difference_mm, v.chip_load_mm);
    return { least_mm: v.chip_load_mm - difference, greatest_mm: v.chip_load_mm + difference };
  });
}

/**
 * Dial reading above which runout spoils the chip load.
 * @formula limit = fz / 3
 * @units chip_load_mm mm a tooth; gives mm (total indicated reading)
 * @range fz 0 or more
 * @source common practice, no source
 */
export function runoutLimit(given: { chip_load_mm: Given }): number | Absent {
  return compute(given, { chip_load_mm: notNegative }, v => v.chip_load_mm / 3);
}
