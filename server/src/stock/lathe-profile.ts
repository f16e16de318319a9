/** The bar itself: an outer and an inner radius over z. */
import { add, type Sums } from './lathe-figures.ts';

export interface BarStock {
  /** z of the far (chuck) end and of the face. */
  readonly low_z_mm: number;
  readonly high_z_mm: number;
  readonly radius_mm: number;
  readonly bore_radius_mm?: number;
  /** Width of a slice; `defaultSlice` when left out. */
  readonly slice_mm?: number;
  /** Nobody stated where the low end is: it is only far enough. */
  readonly open_end?: true;
  /** What another program left, slice by slice from the low end: the bar's own radii then say nothing. */
  readonly profile?: BarProfile;
}

/** Radii by slice; `thread` as in `LatheStock`. Plain data; the buffers may be transferred. */
export interface BarProfile {
  readonly outer: Float64Array;
  readonly inner: Float64Array;
  readonly thread: Float64Array;
}

/** Slices of 0.01 mm, fewer on long bars: at most 100,000. */
export function defaultSlice(length_mm: number): number {
  return Math.max(0.01, length_mm / 100_000);
}

/** Radii over z in slices of equal width, and what a slice loses. */
export class LatheProfile {
  readonly outer: Float64Array;
  readonly inner: Float64Array;
  /** Radius that threads have reached, per slice; NaN where there is none. */
  readonly thread: Float64Array;
  readonly slice_mm: number;
  readonly low_z_mm: number;
  protected readonly count: number;

  constructor(bar: BarStock) {
    const length = bar.high_z_mm - bar.low_z_mm;
    if (!(length > 0 && bar.radius_mm > 0) || !Number.isFinite(length + bar.radius_mm)) {
      throw new RangeError('the bar needs a length and a radius over 0');
    }
    const { profile } = bar;
    this.count =
      profile?.outer.length ??
      Math.max(2, Math.min(200_000, Math.round(length / (bar.slice_mm ?? defaultSlice(length)))));
    this.slice_mm = length / this.count;
    this.low_z_mm = bar.low_z_mm;
    this.outer = profile?.outer.slice() ?? new Float64Array(this.count).fill(bar.radius_mm);
    this.inner = profile?.inner.slice() ?? new Float64Array(this.count).fill(bar.bore_radius_mm ?? 0);
    this.thread = profile?.thread.slice() ?? new Float64Array(this.count).fill(Number.NaN);
  }

  /** Copies the radii as they are now. */
  profile(): BarProfile {
    return { outer: this.outer.slice(), inner: this.inner.slice(), thread: this.thread.slice() };
  }

  /** Goes back to radii that `profile` gave. */
  restore({ outer, inner, thread }: BarProfile): void {
    this.outer.set(outer);
    this.inner.set(inner);
    this.thread.set(thread);
  }

  /** Volume that is left, mm3. */
  volume_mm3(): number {
    let sum = 0;
    for (let k = 0; k < this.count; k++) {
      if (this.outer[k] > this.inner[k]) sum += this.outer[k] ** 2 - this.inner[k] ** 2;
    }
    return sum * Math.PI * this.slice_mm;
  }

  /** Radii of bore and outside at a place along the bar, mm; both 0 beside it. */
  radiiAt(z_mm: number): { inner: number; outer: number } {
    const k = Math.floor((z_mm - this.low_z_mm) / this.slice_mm);
    return k < 0 || k >= this.count ? { inner: 0, outer: 0 } : { inner: this.inner[k], outer: this.outer[k] };
  }

  protected sliceAt(z: number): number {
    return Math.max(0, Math.min(this.count, Math.floor((z - this.low_z_mm) / this.slice_mm)));
  }

  /** Takes a slice down to a radius; what it has lost, mm. */
  protected takeOuter(k: number, z: number, x: number, found: Sums): number {
    const was = this.outer[k];
    const inner = this.inner[k];
    if (was <= inner || x >= was) return 0;
    const now = Math.max(x, inner);
    this.outer[k] = now;
    add(found, this.slice_mm, z, was, now);
    return was - now;
  }

  protected takeInner(k: number, z: number, x: number, found: Sums): number {
    const was = this.inner[k];
    const outer = this.outer[k];
    if (outer <= was || x <= was) return 0;
    const now = Math.min(x, outer);
    this.inner[k] = now;
    add(found, this.slice_mm, z, now, was);
    return now - was;
  }
}
