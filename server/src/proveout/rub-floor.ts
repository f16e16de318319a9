/** The override under which a tooth rubs instead of cutting. */
export interface RubFloor {
  /** With the middle of the range of k, not rounded. */
  readonly percent: number;
  /** With the ends of the range of k. */
  readonly range_percent: readonly [low: number, high: number];
}

/** What the rub floor is worked out from, at the first entry. */
export interface RubInput {
  /** Greatest chip thickness at the programmed feed, mm. */
  readonly h_max_mm: number;
  /** Rounding of the cutting edge, mm. */
  readonly edge_radius_mm: number;
  /** Least chip thickness over edge radius: range for the material. */
  readonly k: { readonly low: number; readonly high: number };
}

/**
 * The rub floor: the feed override at which the greatest chip is as thin as the least one that can form.
 *
 * floor = 100 h_min/h_max with h_min = k r_n; k 0.14 to 0.43 in the literature (Cheng et al. 2018). mm in, percent out.
 * Undefined when an input is not above zero.
 */
export function rubFloor(input: RubInput): RubFloor | undefined {
  const { h_max_mm, edge_radius_mm, k } = input;
  if (!(h_max_mm > 0 && edge_radius_mm > 0 && k.low > 0 && k.high >= k.low)) return undefined;
  const at = (share: number) => (100 * share * edge_radius_mm) / h_max_mm;
  const floor = { percent: at((k.low + k.high) / 2), range_percent: [at(k.low), at(k.high)] as const };
  return Number.isFinite(floor.range_percent[1]) ? floor : undefined;
}
