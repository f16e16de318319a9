/** What one move has met in the bar: summed slice by slice, then told as figures. */

export interface LatheFigures {
  readonly removed_mm3: number;
  /** Greatest thickness taken off in the radius. */
  readonly radial_depth_mm: number;
  /** Depth across the feed (`depthAcross`); else cut area in the plane of the axis over the length that cuts. */
  readonly depth_mm: number;
  /** Thread: depth of this pass under the passes before it. */
  readonly thread_pass_mm: number;
  /** Extent along z of what was cut, NaN when nothing was. */
  readonly from_z_mm: number;
  readonly to_z_mm: number;
  /** Greatest and least radius that was cut. */
  readonly outer_radius_mm: number;
  readonly inner_radius_mm: number;
  readonly cuts: boolean;
  /** Share of the way on which nothing is taken off, 0 to 1; NaN where that is not followed. */
  readonly air_share: number;
}

/** Radii less than this apart are touching, not cutting. */
export const skin_mm = 0.001;

/** What is summed of a move while it is cut. */
export interface Sums {
  volume: number;
  area: number;
  radial: number;
  length: number;
  /** Depth square to the feed; NaN where it is only known as area over length. */
  across: number;
  /** Whole way, and what of it takes metal off. */
  way: number;
  in_metal: number;
  /** Way since the tool was in metal, and whether that was at the end of the last piece long enough in z for the slices. */
  since_metal: number;
  ends_in_metal: boolean;
  /** z of the tool where it was in metal last. */
  metal_z: number;
  low: number;
  high: number;
  outer: number;
  inner: number;
}

/** Extent of what the straight piece in work has cut. */
export const met = { low: 0, high: 0, outer: 0, inner: 0 };

/** Begins the extent of a straight piece. */
export function resetMet(): void {
  met.low = Number.POSITIVE_INFINITY;
  met.high = Number.NEGATIVE_INFINITY;
  met.outer = Number.NEGATIVE_INFINITY;
  met.inner = Number.POSITIVE_INFINITY;
}

/** Way of a straight piece less what it makes in air before and after the metal, by the axis that it goes along. */
export function lengthInMetal(
  from: readonly [number, number],
  to: readonly [number, number],
  cut: typeof met,
): number {
  const dz = Math.abs(to[0] - from[0]);
  const dx = Math.abs(to[1] - from[1]);
  const share = dz > dx ? (cut.high - cut.low) / dz : (cut.outer - cut.inner) / dx;
  return Math.hypot(dz, dx) * Math.min(1, share > 0 ? share : 1);
}

/** Sums of a move that has cut nothing yet. */
export function newSums(): Sums {
  const far = Number.POSITIVE_INFINITY;
  // a plain literal, not spreads: objects made of spreads are slow to write to
  return {
    volume: 0,
    area: 0,
    radial: 0,
    length: 0,
    across: Number.NaN,
    way: 0,
    in_metal: 0,
    since_metal: 0,
    ends_in_metal: false,
    metal_z: Number.NaN,
    low: far,
    high: -far,
    outer: -far,
    inner: far,
  };
}

/** Adds what one slice loses between two radii, mm. */
export function add(found: Sums, slice: number, z: number, outer: number, inner: number): void {
  const thick = outer - inner;
  found.volume += Math.PI * (outer * outer - inner * inner) * slice;
  found.area += thick * slice;
  if (thick <= skin_mm) return;
  met.low = Math.min(met.low, z - slice / 2);
  met.high = Math.max(met.high, z + slice / 2);
  met.outer = Math.max(met.outer, outer);
  met.inner = Math.min(met.inner, inner);
  found.radial = Math.max(found.radial, thick);
  found.low = Math.min(found.low, z);
  found.high = Math.max(found.high, z);
  found.outer = Math.max(found.outer, outer);
  found.inner = Math.min(found.inner, inner);
}

/** The sums of a whole move as its figures. */
export function figuresOf(found: Sums): LatheFigures {
  const cuts = found.radial > skin_mm;
  return {
    removed_mm3: found.volume,
    radial_depth_mm: cuts ? found.radial : 0,
    depth_mm: cuts && found.length > 0 ? (found.across > 0 ? found.across : found.area / found.length) : 0,
    thread_pass_mm: 0,
    from_z_mm: cuts ? found.low : Number.NaN,
    to_z_mm: cuts ? found.high : Number.NaN,
    outer_radius_mm: cuts ? found.outer : Number.NaN,
    inner_radius_mm: cuts ? found.inner : Number.NaN,
    cuts,
    air_share: airShare(found, cuts),
  };
}

function airShare({ way, in_metal, since_metal, ends_in_metal }: Sums, cuts: boolean): number {
  if (Number.isNaN(way + in_metal)) return Number.NaN;
  if (!cuts || !(way > 0)) return cuts ? 0 : 1;
  const share = 1 - (in_metal + (ends_in_metal ? since_metal : 0)) / way;
  return share > 1e-9 ? share : 0;
}
