import { motionTimes } from './motion.ts';
import type { Review } from './review.ts';

export interface ProgramTimes {
  /**
   * What the machine needs where its acceleration is known, else at the programmed feed; rapids and tool changes where
   * the machine says how fast; undefined when a cut has no time.
   */
  time_s?: number;
  /** As if the machine reached every feed at once; only where `time_s` counts its acceleration. */
  programmed_time_s?: number;
  cut_time_s?: number;
  rapid_time_s?: number;
  quoted_s?: number;
}

/** Times of the whole program in seconds. What is not known is left out. */
export function programTimes(review: Review): ProgramTimes {
  const { program } = review;
  let cut = 0;
  let dwell = 0;
  let rapidLength = 0;
  let untimed = 0;
  for (const use of program.uses) {
    cut += use.cut_min * 60;
    dwell += use.dwell_min * 60;
    rapidLength += use.rapid_length_mm;
    untimed += use.untimed;
  }
  const rapid = program.rapidSecondsOf(rapidLength);
  const change = program.machine?.tool_change_s?.value ?? 0;
  const changes = program.uses.filter(use => use.number >= 0).length * change;
  const times: ProgramTimes = {};
  if (untimed === 0) {
    times.cut_time_s = cut;
    times.time_s = cut + dwell + (Number.isFinite(rapid) ? rapid : 0) + changes;
  }
  if (Number.isFinite(rapid)) times.rapid_time_s = rapid;
  const motion = untimed === 0 ? motionTimes(program) : undefined;
  if (motion && times.time_s !== undefined) {
    times.programmed_time_s = times.time_s;
    times.time_s = motion.cut_s + dwell + motion.rapid_s + changes;
    times.cut_time_s = motion.cut_s;
    if (motion.rapid_s > 0) times.rapid_time_s = motion.rapid_s;
  }
  const quoted = program.sheet?.quote?.time_s?.value;
  if (quoted !== undefined) times.quoted_s = quoted;
  return times;
}
