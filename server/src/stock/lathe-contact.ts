/** When a straight move takes metal off, out of what each slice of the bar has lost. */
import type { Sums } from './lathe-figures.ts';
import type { TurningTool } from './turning-tool.ts';

type Point = readonly [z: number, x: number];

const near = 1e-9;

/** Stretches of a way, told in any order and possibly one over the other. */
export class Stretches {
  private list: [from: number, to: number][] = [];

  clear(): void {
    if (this.list.length > 0) this.list = [];
  }

  get empty(): boolean {
    return this.list.length === 0;
  }

  /** Where the first begins and the last ends. */
  get first(): number {
    return this.list.reduce((least, [from]) => Math.min(least, from), Number.POSITIVE_INFINITY);
  }
  get last(): number {
    return this.list.reduce((most, [, to]) => Math.max(most, to), Number.NEGATIVE_INFINITY);
  }

  /** Adds `from` to `to`; nothing where `to` is not past `from`. */
  add(from: number, to: number): void {
    if (!(to > from)) return;
    const last = this.list[this.list.length - 1];
    if (last && from <= last[1] + near && to >= last[0] - near) {
      if (from < last[0]) last[0] = from;
      if (to > last[1]) last[1] = to;
    } else this.list.push([from, to]);
  }

  /** Length that is covered once or more. */
  length(): number {
    let sum = 0;
    let end = Number.NEGATIVE_INFINITY;
    for (const [from, to] of this.list.sort((a, b) => a[0] - b[0])) {
      sum += Math.max(0, to - Math.max(from, end));
      end = Math.max(end, to);
    }
    return sum;
  }
}

/**
 * Share of a straight move in metal, exact for convex outlines. A place at (z, x) is cut once the outline, carried along the
 * move, comes down to it; a slice is in work from then until the outline stands lowest over it or its metal has come to an end.
 * Heights as in `LatheHull`: x for a tool from outside, -x for one in a bore.
 */
export class LatheContact {
  private readonly stretches = new Stretches();
  private from: Point = [0, 0];
  private dz = 0;
  private dx = 0;
  private tool: TurningTool | undefined;
  private ready = false;
  /** The outline in the order in which it passes over a place, sheared so that the move runs level; down to its lowest point. */
  private u = new Float64Array(128);
  private h = new Float64Array(128);
  private last = 0;
  private slope = 0;

  begin(from: Point, to: Point, tool: TurningTool): void {
    this.stretches.clear();
    this.from = [from[0], from[1] * tool.inward];
    this.dz = to[0] - from[0];
    this.dx = (to[1] - from[1]) * tool.inward;
    this.tool = tool;
    this.ready = false;
  }

  /**
   * From `low_z` to `high_z` the surface lay level at height `was`, with metal down to height `bottom`, and has been cut. When a place
   * is met is convex over z, when it is through greatest at an end.
   */
  add(low_z: number, high_z: number, was: number, bottom: number): void {
    const { stretches } = this;
    if (!this.ready) this.prepare();
    if (Math.abs(this.dz) >= 1e-6) {
      const start = within(this.firstMet(low_z, high_z, was));
      stretches.add(start, within(Math.max(this.metAt(low_z, bottom), this.metAt(high_z, bottom))));
    } else if (this.dx < 0) {
      const start = within((was - this.lowestOver(low_z, high_z)) / this.dx);
      stretches.add(start, this.throughAt(low_z, high_z, bottom));
    }
  }

  /** Where on the move a level surface is met first. */
  private firstMet(low_z: number, high_z: number, height: number): number {
    let low = low_z;
    let high = high_z;
    let first = Math.min(this.metAt(low, height), this.metAt(high, height));
    // only a tool that comes down can meet the middle before both ends
    for (let k = 0; k < 40 && this.dx < 0 && high - low > 0.02; k++) {
      const a = low + (high - low) / 3;
      const b = high - (high - low) / 3;
      const atA = this.metAt(a, height);
      const atB = this.metAt(b, height);
      first = Math.min(first, atA, atB);
      if (atA < atB) high = b;
      else low = a;
    }
    return first;
  }

  /** Adds the way of the move and what of it is in metal. */
  addTo(found: Sums, bar: { readonly low_z_mm: number; readonly slice_mm: number }): void {
    const { z } = this.tool as TurningTool;
    const way = Math.hypot(this.dz, this.dx);
    found.way += way;
    // an outline without width that goes across the bar: what its edge would take is not known
    if (z[z.length - 1] - z[0] < 1e-6 && -this.dx > Math.abs(this.dz)) found.in_metal = Number.NaN;
    const { empty, first, last } = this.stretches;
    if (empty) {
      found.since_metal += way;
      if (!this.passesSlice(bar)) return;
      found.ends_in_metal = false;
      if (Number.isNaN(found.metal_z)) found.metal_z = Number.POSITIVE_INFINITY;
      return;
    }
    // the slice that the piece before had in work goes on up to its far edge
    const gap_mm = Math.abs(this.from[0] + first * this.dz - found.metal_z);
    const goesOn = Number.isNaN(gap_mm) ? first <= near : gap_mm <= bar.slice_mm;
    found.in_metal += way * Math.min(1, this.stretches.length());
    if (goesOn) found.in_metal += found.since_metal + first * way;
    found.since_metal = (1 - last) * way;
    found.ends_in_metal = last >= 1 - near;
    found.metal_z = this.from[0] + last * this.dz;
  }

  /** Whether an end of the outline goes past the middle of a slice: only then can upright edges be seen to cut. */
  private passesSlice({ low_z_mm, slice_mm }: { low_z_mm: number; slice_mm: number }): boolean {
    const { z } = this.tool as TurningTool;
    const sliceOf = (at: number) => Math.floor((at - low_z_mm) / slice_mm - 0.5);
    const passes = (edge: number) => sliceOf(this.from[0] + edge) !== sliceOf(this.from[0] + this.dz + edge);
    return passes(z[0]) || passes(z[z.length - 1]);
  }

  /** Place on the way, 0 to 1 on the move itself, where the outline first comes down to a height at z, or as far down as it gets. */
  private metAt(z: number, height: number): number {
    const { u, h, last } = this;
    const level = height - this.from[1] - this.slope * (z - this.from[0]);
    let at = u[last];
    if (level > h[last]) {
      let low = 0;
      let high = last;
      while (high - low > 1) {
        const mid = (low + high) >> 1;
        if (h[mid] > level) low = mid;
        else high = mid;
      }
      const part = last === 0 || level >= h[0] ? 0 : (h[low] - level) / (h[low] - h[high]);
      at = u[low] + (u[high] - u[low]) * part;
    }
    return (z - this.from[0] - at) / this.dz;
  }

  /** Place on a move straight down where the last of the metal between two places is through. */
  private throughAt(low_z: number, high_z: number, bottom: number): number {
    const { z } = this.tool as TurningTool;
    const low = Math.max(low_z, this.from[0] + z[0]);
    const high = Math.min(high_z, this.from[0] + z[z.length - 1]);
    return within((bottom - Math.max(this.outlineAt(low), this.outlineAt(high))) / this.dx);
  }

  /** Lowest height of the tool between two places at the start of the move. */
  private lowestOver(low_z: number, high_z: number): number {
    const { z, height } = this.tool as TurningTool;
    let least = Math.min(this.outlineAt(low_z), this.outlineAt(high_z));
    for (let k = 0; k < z.length; k++) {
      const at = this.from[0] + z[k];
      if (at >= low_z - near && at <= high_z + near) least = Math.min(least, this.from[1] + height[k]);
    }
    return least;
  }

  /** Height of the tool over z at the start of the move; infinite beside it. */
  private outlineAt(z: number): number {
    const { z: at, height } = this.tool as TurningTool;
    const place = z - this.from[0];
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < at.length; k++) {
      if (Math.abs(at[k] - place) <= near) least = Math.min(least, height[k]);
      else if (k > 0 && at[k - 1] < place - near && at[k] > place + near)
        least = height[k - 1] + ((height[k] - height[k - 1]) * (place - at[k - 1])) / (at[k] - at[k - 1]);
    }
    return this.from[1] + least;
  }

  private prepare(): void {
    this.ready = true;
    const { z, height } = this.tool as TurningTool;
    const count = z.length;
    if (this.u.length < count) {
      this.u = new Float64Array(count);
      this.h = new Float64Array(count);
    }
    const { u, h, dz } = this;
    if (Math.abs(dz) < 1e-6) return;
    this.slope = this.dx / dz;
    let lowest = Number.POSITIVE_INFINITY;
    for (let k = 0; k < count; k++) {
      const from = dz < 0 ? k : count - 1 - k;
      u[k] = z[from];
      h[k] = height[from] - this.slope * z[from];
      lowest = Math.min(lowest, h[k]);
    }
    this.last = 0;
    while (h[this.last] > lowest + near) this.last++;
  }
}

function within(share: number): number {
  return Math.max(0, Math.min(1, share));
}
