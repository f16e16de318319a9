import { KIND, RUN, RUN_WIDTH, type StepTable } from '../rs274/steps.ts';

/**
 * Revolutions a minute while the edge is at a radius. Constant surface speed is held at the clamp.
 * @units radius mm; gives rev/min, NaN when not known
 */
export function spindleAt(run: Float64Array, radius_mm: number): number {
  const word = run[RUN.spindle];
  if (run[RUN.css] !== 1) return word;
  const clamp = run[RUN.clamp_rpm];
  const asked = (1000 * word) / (2 * Math.PI * Math.abs(radius_mm));
  return clamp < asked ? clamp : asked;
}

/**
 * Minutes that a cutting step takes at its programmed feed; NaN when not known. `inverse_min` is the time that the step
 * states itself: in inverse time, or where only rotary axes turn.
 */
export function stepMinutes(
  run: Float64Array,
  kind: number,
  length_mm: number,
  x0: number,
  x1: number,
  inverse_min: number,
): number {
  if (length_mm === 0) return inverse_min > 0 ? inverse_min : 0;
  const lead = run[RUN.lead];
  const mode = run[RUN.feed_mode];
  const feed = run[RUN.feed];
  if (kind === KIND.thread || (kind === KIND.tap && lead > 0)) {
    const rpm = spindleAt(run, x1);
    return length_mm / (lead * rpm);
  }
  if (mode === 93) return inverse_min;
  if (mode !== 95) return length_mm / feed;
  if (run[RUN.css] !== 1) return length_mm / (feed * run[RUN.spindle]);
  return minutesUnderCss(run, length_mm, Math.abs(x0), Math.abs(x1));
}

/** Integral of ds / (f n) with n = min(clamp, 1000 v / (2 pi r)) while the radius goes linearly from r0 to r1. */
function minutesUnderCss(run: Float64Array, length_mm: number, r0: number, r1: number): number {
  const perRadius = (2 * Math.PI) / (1000 * run[RUN.spindle]);
  const least = 1 / run[RUN.clamp_rpm];
  const feed = run[RUN.feed];
  if (!(least > 0)) return ((length_mm / feed) * perRadius * (r0 + r1)) / 2;
  const held = least / perRadius;
  const low = Math.min(r0, r1);
  const high = Math.max(r0, r1);
  if (high - low < 1e-9) return (length_mm / feed) * Math.max(least, perRadius * low);
  const heldShare = Math.min(1, Math.max(0, (held - low) / (high - low)));
  const freeFrom = Math.max(low, held);
  const free = heldShare < 1 ? (perRadius * (freeFrom + high)) / 2 : 0;
  return (length_mm / feed) * (heldShare * least + (1 - heldShare) * free);
}

/** Length of a step; NaN when a start or end is not known. */
export function stepLength(table: StepTable, index: number, dx: number, dy: number, dz: number): number {
  if (table.kind[index] !== KIND.arc) return Math.sqrt(dx * dx + dy * dy + dz * dz);
  const row = table.aux[index] * 3;
  const plane = table.runs[table.run[index] * RUN_WIDTH + RUN.plane];
  const first = plane === 17 ? table.x[index] : plane === 18 ? table.z[index] : table.y[index];
  const second = plane === 17 ? table.y[index] : plane === 18 ? table.x[index] : table.z[index];
  const rise = plane === 17 ? dz : plane === 18 ? dy : dx;
  const a = first - table.arcs[row];
  const b = second - table.arcs[row + 1];
  const radius = Math.sqrt(a * a + b * b);
  const along = radius * Math.abs(table.arcs[row + 2]);
  return rise === 0 || Number.isNaN(rise) ? along : Math.sqrt(along * along + rise * rise);
}
