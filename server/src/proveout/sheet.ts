import { frameName } from '../review/frame-name.ts';
import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { RUN } from '../rs274/index.ts';
import type { FirstContact } from './first-contact.ts';
import { type FirstTouch, firstTouchOf } from './first-touch.ts';
import { isLocked, type Listening, listeningOf } from './listen.ts';
import { firstContactOf } from './of-tool.ts';
import { type RestartPoint, restartsOf } from './restart.ts';
import { type Stop, stopsOf } from './stops.ts';
import { type WatchLine, watchOf } from './watch.ts';

/** All that the sheet for the machine says, before it is put in words and units. Lines are 0-based. */
export interface ProveoutSheet {
  tools: readonly ProveoutTool[];
  /** Work offsets in the order in which cuts are made in them; empty when the program states none. */
  work_offsets: readonly string[];
  stops: readonly Stop[];
  more_stops: boolean;
  restarts: readonly RestartPoint[];
  more_restarts: number;
}

/** One tool, in the order of first use. */
export interface ProveoutTool {
  used: ToolReview;
  contact: FirstContact;
  touch: FirstTouch | undefined;
  /** Speeds that it cuts with, each once, in order. */
  spindles: readonly SpindleAsk[];
  length_offsets: readonly number[];
  radius_offsets: readonly number[];
  listening: Listening;
  /** Feed and spindle are tied: no override. */
  locked: boolean;
  watch: readonly WatchLine[];
  more_watch: number;
}

export interface SpindleAsk {
  /** rev/min, or m/min where `css`. */
  value: number;
  css: boolean;
  clamp_rpm: number | undefined;
  clockwise: boolean | undefined;
}

/** Works out the prove-out sheet of a review. */
export function proveoutSheet(review: Review): ProveoutSheet {
  const { stops, more } = stopsOf(review);
  const restarts = restartsOf(review);
  const cutting = review.program.parts.filter(part => part.cut_steps > 0);
  const frames = cutting.map(part => frameName(part.run[RUN.frame])).filter(name => name !== undefined);
  return {
    tools: review.tools.filter(used => used.uses.some(use => use.cuts)).map(used => toolOf(review, used)),
    work_offsets: [...new Set(frames)],
    stops,
    more_stops: more,
    restarts: restarts.points,
    more_restarts: restarts.more,
  };
}

function toolOf(review: Review, used: ToolReview): ProveoutTool {
  const touch = firstTouchOf(review, used);
  const watch = watchOf(review, used, touch);
  const runs = used.uses.flatMap(use => use.parts.filter(part => part.cut_steps > 0).map(part => part.run));
  const numbers = (field: 'length_offset' | 'radius_offset') => [
    ...new Set(runs.map(run => run[RUN[field]]).filter(number => number > 0)),
  ];
  const compensated = runs.filter(run => [41, 42].includes(run[RUN.compensation]));
  return {
    used,
    contact: firstContactOf(review, used),
    touch,
    spindles: spindlesOf(runs),
    length_offsets: numbers('length_offset'),
    radius_offsets: compensated.length > 0 ? numbers('radius_offset') : [],
    listening: listeningOf(
      used,
      review.program.kind,
      runs.some(run => run[RUN.css] === 1),
      runs.every(run => run[RUN.feed_mode] === 95),
    ),
    locked: isLocked(used),
    watch: watch.lines,
    more_watch: watch.more,
  };
}

function spindlesOf(runs: readonly Float64Array[]): SpindleAsk[] {
  const asks = new Map<string, SpindleAsk>();
  for (const run of runs) {
    const value = run[RUN.spindle];
    if (!(value > 0)) continue;
    const css = run[RUN.css] === 1;
    const clamp = run[RUN.clamp_rpm];
    const direction = run[RUN.direction];
    const ask: SpindleAsk = {
      value,
      css,
      clamp_rpm: css && clamp > 0 ? clamp : undefined,
      clockwise: direction === 1 ? true : direction === -1 ? false : undefined,
    };
    asks.set(JSON.stringify(ask), ask);
  }
  return [...asks.values()];
}
