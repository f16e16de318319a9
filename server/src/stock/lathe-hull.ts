/** What a single-point tool sweeps on a straight move: the lower hull of its outline at both ends. */
import type { TurningTool } from './turning-tool.ts';

type Point = readonly [z: number, x: number];

const most = 4096;

/** Exact for convex outlines. Works in arrays that are used again: `z` rising, `x` the height there; for a bore x is turned over. */
export class LatheHull {
  readonly z = new Float64Array(most);
  readonly x = new Float64Array(most);
  count = 0;

  /** Hull of a move from `from` to `to`. */
  sweep(from: Point, to: Point, tool: TurningTool): void {
    const { z: hullZ, x: hullX } = this;
    const n = tool.z.length;
    const [a, b] = from[0] <= to[0] ? [from, to] : [to, from];
    let i = 0;
    let j = 0;
    let count = 0;
    while (i < n || j < n) {
      // the two outlines are ordered in z: merge them, keep the turn to the left
      const takeA = j >= n || (i < n && tool.z[i] + a[0] <= tool.z[j] + b[0]);
      const at = takeA ? a : b;
      const k = takeA ? i++ : j++;
      const z = tool.z[k] + at[0];
      const x = tool.height[k] + at[1] * tool.inward;
      while (
        count >= 2 &&
        (hullZ[count - 1] - hullZ[count - 2]) * (x - hullX[count - 2]) <=
          (hullX[count - 1] - hullX[count - 2]) * (z - hullZ[count - 2])
      ) {
        count--;
      }
      hullZ[count] = z;
      hullX[count++] = x;
    }
    this.count = count;
  }
}
