import { degrees } from './angles.ts';
import { compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Estimate, Given } from './result.ts';

/** Share of the edge radius under which no chip forms: range of the literature and its middle. */
export const MINIMUM_CHIP_SHARE = { low: 0.14, middle: 0.285, high: 0.43 } as const;

/**
 * Smallest thickness at which an edge still makes a chip; under it metal is only pressed and rubbed.
 * @formula h_min = k r, k = 0.14 to 0.43, middle 0.285 (own k narrows it: then low = value = high of the k given)
 * @units edge_radius_mm mm (rounding of the edge), share_low and share_high (left out: the literature's); gives mm as an estimate
 * @range r over 0, shares over 0; sharp edges for aluminium 3 to 8 um, coated end mills 8 to 20 um, worn edges 40 to 100 um (from memory)
 * @source Cheng et al. 2018 (range of k, abstract); the middle is the mean of that range
 */
export function minimumChipThickness(given: {
  edge_radius_mm: Given;
  share_low?: Given;
  share_high?: Given;
}): Estimate | Absent {
  const rules = {
    edge_radius_mm: positive,
    share_low: optional(positive, MINIMUM_CHIP_SHARE.low),
    share_high: optional(positive, MINIMUM_CHIP_SHARE.high),
  };
  return compute(given, rules, v => {
    const low = Math.min(v.share_low, v.share_high);
    const high = Math.max(v.share_low, v.share_high);
    return {
      value: (v.edge_radius_mm * (low + high)) / 2,
      low: v.edge_radius_mm * low,
      high: v.edge_radius_mm * high,
      basis: `${low} to ${high} of the edge radius`,
    };
  });
}

/**
 * Arc at the start of a conventional cut in which the edge only rubs, because the chip is still thinner than the edge can cut.
 * @formula phi = asin(h_min / fz); the whole quarter turn when fz is not more than h_min
 * @units min_chip_mm mm, chip_load_mm mm a tooth; gives degrees, 90 at most
 * @range both 0 or more; absent when both are 0
 * @source fz sin(phi) = h_min (Martellotti 1941)
 */
export function rubbingArc(given: { min_chip_mm: Given; chip_load_mm: Given }): number | Absent {
  return compute(given, { min_chip_mm: notNegative, chip_load_mm: notNegative }, v =>
    v.chip_load_mm <= v.min_chip_mm ? 90 : degrees(Math.asin(v.min_chip_mm / v.chip_load_mm)),
  );
}

/** How a cut's thickest chip compares with the thinnest that the edge can cut. */
export interface ChipForming {
  /** Thickest chip over the thinnest that cuts; under 1 the whole arc rubs. */
  readonly ratio: number;
  readonly ratio_low: number;
  readonly ratio_high: number;
  /** 'rubs' under the whole range, 'may rub' inside it, 'cuts' above it. */
  readonly verdict: 'rubs' | 'may rub' | 'cuts';
}

/**
 * Whether a cut makes a chip at all: its thickest chip against what the edge needs.
 * @formula ratio = h_max / (k r) with k = 0.14 to 0.43; rubs below 1 for the least k, cuts above 1 for the most
 * @units chip_thickness_mm mm (greatest), edge_radius_mm mm; gives ratios and a verdict
 * @range h 0 or more, r over 0
 * @source Cheng et al. 2018 (range of k, abstract)
 */
export function chipForming(given: {
  chip_thickness_mm: Given;
  edge_radius_mm: Given;
}): ChipForming | Absent {
  return compute(given, { chip_thickness_mm: notNegative, edge_radius_mm: positive }, v => {
    const against = (k: number) => v.chip_thickness_mm / (k * v.edge_radius_mm);
    const ratio_low = against(MINIMUM_CHIP_SHARE.high);
    const ratio_high = against(MINIMUM_CHIP_SHARE.low);
    const verdict = ratio_high < 1 ? 'rubs' : ratio_low < 1 ? 'may rub' : 'cuts';
    return { ratio: against(MINIMUM_CHIP_SHARE.middle), ratio_low, ratio_high, verdict } as const;
  });
}
