/** Depth of cut of a straight move: thickness of the metal square to the feed (ISO 3002-3), without run-in and run-out. */
import type { TurningTool } from './turning-tool.ts';

type Point = readonly [z: number, x: number];

/** Slices side by side that a move has cut, and how high their surface lay and how deep their metal goes; heights as in `LatheHull`. */
export interface CutRun {
  readonly from: number;
  readonly to: number;
  readonly was: number;
  readonly bottom: number;
}

/** The bar after the move, as heights. */
export interface BarNow {
  readonly low_z_mm: number;
  readonly slice_mm: number;
  heightAt(slice: number): number;
}

/**
 * Mean thickness square to the feed, mm. Along the bar it is taken over the slices that the lowest place of the tool went past, so
 * that the slope which an inclined edge leaves at the ends does not count; across the bar between the outermost metal and the
 * highest place of the ground. NaN where neither is there: the tool has not gone past a whole slice.
 */
export function depthAcross(
  from: Point,
  to: Point,
  tool: TurningTool,
  runs: readonly CutRun[],
  bar: BarNow,
): number {
  const dz = to[0] - from[0];
  const dx = (to[1] - from[1]) * tool.inward;
  const way = Math.hypot(dz, dx);
  if (!(way > 0)) return Number.NaN;
  return Math.abs(dz) >= Math.abs(dx)
    ? alongBar(from, dz, dx, tool, runs, bar) * (Math.abs(dz) / way)
    : acrossBar(runs, bar) * (Math.abs(dx) / way);
}

function alongBar(
  from: Point,
  dz: number,
  dx: number,
  tool: TurningTool,
  runs: readonly CutRun[],
  { low_z_mm, slice_mm }: BarNow,
): number {
  const slope = dx / dz;
  // of the outline, sheared so that the move runs level, the lowest place
  let lowest = 0;
  for (let k = 1; k < tool.z.length; k++) {
    const [a, b] = [tool.height[lowest] - slope * tool.z[lowest], tool.height[k] - slope * tool.z[k]];
    if (b < a) lowest = k;
  }
  const start = from[0] + tool.z[lowest];
  const height = from[1] * tool.inward + tool.height[lowest];
  let area = 0;
  let length = 0;
  for (const { from: first, to, was, bottom } of runs) {
    const low = Math.max(low_z_mm + first * slice_mm, Math.min(start, start + dz));
    const high = Math.min(low_z_mm + to * slice_mm, Math.max(start, start + dz));
    if (!(high > low)) continue;
    const ground = height + slope * ((low + high) / 2 - start);
    area += (high - low) * Math.max(0, was - Math.max(ground, bottom));
    length += high - low;
  }
  return area / length;
}

function acrossBar(runs: readonly CutRun[], { slice_mm, heightAt }: BarNow): number {
  let top = Number.NEGATIVE_INFINITY;
  let ground = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (const { from, to, was } of runs) {
    top = Math.max(top, was);
    for (let k = from; k < to; k++) {
      const now = heightAt(k);
      ground = Math.max(ground, now);
      least = Math.min(least, now);
    }
  }
  // a wedge as high as half the way tells nothing of the depth
  if (!(top - ground > (top - least) / 2)) return Number.NaN;
  let area = 0;
  for (const { from, to, was } of runs) area += Math.max(0, was - ground) * (to - from) * slice_mm;
  return area / (top - ground);
}
