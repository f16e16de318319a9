import { boxX } from '../rs274/kernel/box.ts';
import { KIND, RUN, type StepTable } from '../rs274/steps.ts';
import * as at from './kernel/box.ts';
import type { TableLook } from './kernel.ts';
import { NO_LINE, type Part } from './part.ts';

/**
 * Adds straight feed moves and arcs to a part in one go: most of a long program. Begins at step `from` with the tool at
 * `place`, moves `place` on, and gives the index of the first step that is anything else: see `kernel/sum-cuts.ts`.
 */
export function sumCuts(
  part: Part,
  table: StepTable,
  look: TableLook,
  from: number,
  place: Float64Array,
): number {
  const kind = table.kind[from];
  if (kind !== KIND.feed && kind !== KIND.arc) return from;
  const way = timing(part.run);
  const no_y = Number.isNaN(place[1]);
  if (way === UNTIMED || (no_y && !Number.isNaN(part.low(1)))) return from;
  const { box } = look;
  const { run } = part;
  box[at.sumPlane] = run[RUN.plane];
  box[at.sumPerRadius] = (2 * Math.PI) / (1000 * run[RUN.spindle]);
  box[at.sumLeastTurn] = 1 / run[RUN.clamp_rpm];
  box[at.sumBySurface] = way === SURFACE ? 1 : 0;
  box[at.sumNoY] = no_y ? 1 : 0;
  box[at.sumTimed] = table.seconds.size > 0 ? 1 : 0;
  for (let axis = 0; axis < 3; axis++) {
    box[boxX + axis] = place[axis];
    box[at.sumLow + axis] = part.low(axis);
    box[at.sumHigh + axis] = part.high(axis);
  }
  const end = look.addCuts(from, table.count);
  if (end === from) return from;
  for (let axis = 0; axis < 3; axis++) {
    place[axis] = box[boxX + axis];
    part.widen(axis, box[at.sumLow + axis]);
    part.widen(axis, box[at.sumHigh + axis]);
  }
  const least = 2 * box[at.sumLeastRadius];
  const most = 2 * box[at.sumMostRadius];
  const first = box[at.sumFirstLine];
  const last = box[at.sumLastLine];
  const length = box[at.sumLength];
  if (!(part.least_x_mm <= least)) part.least_x_mm = least;
  if (!(part.most_x_mm >= most)) part.most_x_mm = most;
  part.kinds |= box[at.sumKinds];
  part.flags |= box[at.sumFlags];
  part.cut_steps += end - from;
  part.cut_length_mm += length;
  part.cut_min += minutesOf(run, way, length, box[at.sumTurns]);
  if (part.first_cut_line === NO_LINE || first < part.first_cut_line) part.first_cut_line = first;
  if (last > part.last_cut_line) part.last_cut_line = last;
  if (first < part.first_line) part.first_line = first;
  if (last > part.last_line) part.last_line = last;
  const plunge_line = box[at.sumPlungeLine];
  if (plunge_line >= 0 && part.plunge_line === NO_LINE) part.plunge_line = plunge_line;
  if (box[at.sumPlunge] > part.plunge_mm) part.plunge_mm = box[at.sumPlunge];
  return end;
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
