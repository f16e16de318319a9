import { KIND, RUN, type StepTable } from '../rs274/steps.ts';
import { NO_LINE, type Part } from './part.ts';

// Taken out of the tables once: the loop below runs over every step.
const FEED = KIND.feed;
const ARC = KIND.arc;

/**
 * Adds straight feed moves and arcs to a part in one go: most of a long program. Begins at step `from` with the tool at
 * `place`, moves `place` on, and gives the index of the first step that is anything else: another run, an end that is not
 * known (Y may be unknown throughout, as on lathes), no time, a plunge.
 */
export function sumCuts(
  part: Part,
  table: StepTable,
  classes: Int32Array,
  from: number,
  place: Float64Array,
): number {
  const { kind } = table;
  if (kind[from] !== FEED && kind[from] !== ARC) return from;
  const way = timing(part.run);
  const no_y = Number.isNaN(place[1]);
  if (way === UNTIMED || (no_y && !Number.isNaN(part.low[1]))) return from;
  const { run, line, flags, x: xs, y: ys, z: zs, count, aux, arcs } = table;
  const own = classes[run[from]];
  const plane = part.run[RUN.plane];
  // Where only rotary axes turn, the step states its own time.
  const timed = table.seconds.size > 0;
  const surface = way === SURFACE;
  const per_radius = (2 * Math.PI) / (1000 * part.run[RUN.spindle]);
  const least_time = 1 / part.run[RUN.clamp_rpm];
  const clamped = least_time > 0;
  const held = least_time / per_radius;
  let x = place[0];
  let y = place[1];
  let z = place[2];
  let length = 0;
  let turns = 0;
  let marks = 0;
  let kinds = 0;
  let first = line[from];
  let last = first;
  let x0 = part.low[0];
  let y0 = part.low[1];
  let z0 = part.low[2];
  let x1 = part.high[0];
  let y1 = part.high[1];
  let z1 = part.high[2];
  let r0 = x < 0 ? -x : x;
  let least = r0;
  let most = r0;
  let row = run[from];
  let i = from;
  for (; i < count; i++) {
    if (run[i] !== row) {
      if (classes[run[i]] !== own) break;
      row = run[i];
    }
    const k = kind[i];
    const nx = xs[i];
    const ny = ys[i];
    const nz = zs[i];
    const dx = nx - x;
    const dy = no_y ? (Number.isNaN(ny) ? 0 : Number.NaN) : ny - y;
    const dz = nz - z;
    let step = 0;
    if (k === FEED) {
      if (dx === 0 && dy === 0 && dz < 0) break;
      step = Math.sqrt(dx * dx + dy * dy + dz * dz);
    } else if (k === ARC) {
      // The same as stepLength(), without a call.
      const at = aux[i] * 3;
      const a = (plane === 17 ? nx : plane === 18 ? nz : ny) - arcs[at];
      const b = (plane === 17 ? ny : plane === 18 ? nx : nz) - arcs[at + 1];
      const sweep = arcs[at + 2];
      const rise = plane === 17 ? dz : plane === 18 ? dy : dx;
      step = Math.sqrt(a * a + b * b) * (sweep < 0 ? -sweep : sweep);
      if (rise !== 0) step = Math.sqrt(step * step + rise * rise);
    } else break;
    // Written so that a coordinate that is not known fails it.
    if (!(step >= 0 && dx + dy + dz <= Infinity) || (step === 0 && timed)) break;
    const r1 = nx < 0 ? -nx : nx;
    if (surface) {
      // Integral of ds v / n along the step, as stepMinutes() has it, per unit of feed.
      const low = r0 < r1 ? r0 : r1;
      const high = r0 < r1 ? r1 : r0;
      let turn = 0;
      if (!clamped) turn = (per_radius * (r0 + r1)) / 2;
      else if (high - low < 1e-9 || held <= low) {
        const free = high - low < 1e-9 ? per_radius * low : (per_radius * (low + high)) / 2;
        turn = free > least_time ? free : least_time;
      } else if (held >= high) turn = least_time;
      else {
        const share = (held - low) / (high - low);
        turn = share * least_time + ((1 - share) * per_radius * (held + high)) / 2;
      }
      const minutes = step * turn;
      if (!(minutes >= 0 && minutes < Infinity)) break;
      turns += minutes;
    }
    length += step;
    const at_line = line[i];
    if (at_line > last) last = at_line;
    if (at_line < first) first = at_line;
    marks |= flags[i];
    kinds |= 1 << k;
    if (r1 < least) least = r1;
    if (r1 > most) most = r1;
    if (!(x0 <= nx)) x0 = nx;
    if (!(x1 >= nx)) x1 = nx;
    if (!(y0 <= ny)) y0 = ny;
    if (!(y1 >= ny)) y1 = ny;
    if (!(z0 <= nz)) z0 = nz;
    if (!(z1 >= nz)) z1 = nz;
    x = nx;
    y = ny;
    z = nz;
    r0 = r1;
  }
  if (i === from) return from;
  place[0] = x;
  place[1] = y;
  place[2] = z;
  const { low, high } = part;
  low[0] = x0;
  low[1] = y0;
  low[2] = z0;
  high[0] = x1;
  high[1] = y1;
  high[2] = z1;
  if (!(part.least_x_mm <= 2 * least)) part.least_x_mm = 2 * least;
  if (!(part.most_x_mm >= 2 * most)) part.most_x_mm = 2 * most;
  part.kinds |= kinds;
  part.flags |= marks;
  part.cut_steps += i - from;
  part.cut_length_mm += length;
  part.cut_min += minutesOf(part.run, way, length, turns);
  if (part.first_cut_line === NO_LINE || first < part.first_cut_line) part.first_cut_line = first;
  if (last > part.last_cut_line) part.last_cut_line = last;
  if (first < part.first_line) part.first_line = first;
  if (last > part.last_line) part.last_line = last;
  return i;
}

/** How the time of a cut follows: from its length alone, from length and radius, or not here. */
const PER_MINUTE = 1;
const PER_REVOLUTION = 2;
const SURFACE = 3;
const UNTIMED = 0;

function timing(run: Float64Array): number {
  if (!(run[RUN.feed] > 0)) return UNTIMED;
  if (run[RUN.feed_mode] === 94) return PER_MINUTE;
  if (run[RUN.feed_mode] !== 95 || !(run[RUN.spindle] > 0)) return UNTIMED;
  return run[RUN.css] === 1 ? SURFACE : PER_REVOLUTION;
}

function minutesOf(run: Float64Array, way: number, length: number, turns: number): number {
  if (way === PER_MINUTE) return length / run[RUN.feed];
  if (way === PER_REVOLUTION) return length / (run[RUN.feed] * run[RUN.spindle]);
  return turns / run[RUN.feed];
}
