import { Stretches } from './lathe-contact.ts';
import { figuresOf, type LatheFigures, type Sums, skin_mm } from './lathe-figures.ts';
import type { LatheMove } from './lathe-moves.ts';
import type { TurningTool } from './turning-tool.ts';

/** What a thread is cut in: radii by slice, as in `LatheStock`. */
export interface ThreadedBar {
  readonly outer: Float64Array;
  readonly inner: Float64Array;
  readonly thread: Float64Array;
  readonly slice_mm: number;
  readonly low_z_mm: number;
}

/** Cuts one threading pass: its depth under the passes before it, slice by slice. The bar itself stays as it is. */
export function cutThread(bar: ThreadedBar, move: LatheMove, tool: TurningTool, found: Sums): LatheFigures {
  const { slice_mm, low_z_mm, outer, inner, thread } = bar;
  const lead = move.lead_mm ?? 0;
  const low = Math.min(move.from[0], move.to[0]);
  const high = Math.max(move.from[0], move.to[0]);
  let deepest = 0;
  const stretches = new Stretches();
  const first = Math.max(0, Math.floor((low - low_z_mm) / slice_mm));
  for (let k = first; k < outer.length; k++) {
    const z = low_z_mm + (k + 0.5) * slice_mm;
    if (z < low) continue;
    if (z > high) break;
    const part = high > low ? (z - move.from[0]) / (move.to[0] - move.from[0]) : 0;
    const x = move.from[1] + (move.to[1] - move.from[1]) * part;
    const crest = tool.inward > 0 ? outer[k] : inner[k];
    const reached = Number.isNaN(thread[k]) ? crest : thread[k];
    const pass = (reached - x) * tool.inward;
    if (pass <= skin_mm || outer[k] <= inner[k]) continue;
    thread[k] = x;
    deepest = Math.max(deepest, pass);
    const depth = (crest - x) * tool.inward;
    const before = depth - pass;
    const area = tool.half_tangent * (depth * depth - before * before);
    if (lead > 0) found.volume += (2 * Math.PI * ((x + crest) / 2) * area * slice_mm) / lead;
    found.area += pass * slice_mm;
    // the flanks are in the metal before and after the point
    const reach = slice_mm / 2 + depth * tool.half_tangent;
    stretches.add(Math.max(low, z - reach), Math.min(high, z + reach));
    found.outer = Math.max(found.outer, crest, x);
    found.inner = Math.min(found.inner, crest, x);
    found.low = Math.min(found.low, z);
    found.high = Math.max(found.high, z);
  }
  found.radial = deepest;
  found.way = high > low ? high - low : Number.NaN;
  found.in_metal = stretches.length();
  found.length = found.in_metal;
  return { ...figuresOf(found), thread_pass_mm: deepest };
}
