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

  /** A slice from `low_z` to `high_z` had its surface at height `was` and has metal down to height `bottom`. */
  add(low_z: number, high_z: number, was: number, bottom: number): void {
    if (!this.ready) this.prepare();
    const { stretches } = this;
    if (Math.abs(this.dz) >= 1e-6) {
      const start = Math.min(this.metAt(low_z, was), this.metAt(high_z, was));
      stretches.add(start, Math.max(this.metAt(low_z, bottom), this.metAt(high_z, bottom)));
      return;
    }
    let low = Number.POSITIVE_INFINITY;
    for (const z of [low_z, (low_z + high_z) / 2, high_z]) low = Math.min(low, this.outlineAt(z));
    // straight down: the slice is in work as soon as the lowest place over it is
    if (this.dx < 0) stretches.add(within((was - low) / this.dx), this.throughAt(low_z, high_z, bottom));
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

  /** Place on the move, 0 to 1, where the outline first comes down to a height at z, or as far down there as it gets. */
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
    return within((z - this.from[0] - at) / this.dz);
  }

  private throughAt(low_z: number, high_z: number, bottom: number): number {
    let high = Number.NEGATIVE_INFINITY;
    for (const z of [low_z, (low_z + high_z) / 2, high_z]) {
      const outline = this.outlineAt(z);
      if (Number.isFinite(outline)) high = Math.max(high, outline);
    }
    return within((bottom - high) / this.dx);
  }

  /** Height of the tool over z at the start of the move; infinite beside it. */
  private outlineAt(z: number): number {
    const { z: at, height } = this.tool as TurningTool;
    const place = z - this.from[0];
    const count = at.length;
    if (place < at[0] - near || place > at[count - 1] + near) return Number.POSITIVE_INFINITY;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < count; k++) {
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
