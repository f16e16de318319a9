import { KIND, RUN } from '../../rs274/steps.ts';
import { watchSteps } from '../cuts/step-scan.ts';
import type { Part } from '../part.ts';
import type { Program } from '../program.ts';
import type { ToolUse } from '../tool-use.ts';

/** How the moves of one feed of a tool meet the metal. */
interface FeedMet {
  /** Length of the moves that take metal, and that length times the share of the chip load that the chip reaches, mm. */
  metal_mm: number;
  thinned_mm: number;
  /** A move that the stock has no figures of, or that lies behind something not followed. */
  unknown: boolean;
}

/** A move that takes less than this area only touches, mm2. */
const TOUCH_MM2 = 0.001;
/** More feeds than this of one use are not told apart. */
const MOST_FEEDS = 5000;

const met = watchSteps<ReadonlyMap<string, FeedMet> | undefined>(() => {
  const feeds = new Map<string, FeedMet>();
  let full = false;
  return {
    see(step) {
      const { kind } = step.step;
      if (kind !== KIND.feed && kind !== KIND.arc) return;
      const key = keyOf(step.step.runValues);
      let feed = feeds.get(key);
      if (!feed) {
        if (feeds.size >= MOST_FEEDS) full = true;
        if (full) return;
        feed = { metal_mm: 0, thinned_mm: 0, unknown: false };
        feeds.set(key, feed);
      }
      if (!step.held) feed.unknown = true;
      const way = step.step.length_mm || 0;
      if (!step.cuts || step.removed_mm3 < TOUCH_MM2 * way) return;
      feed.metal_mm += way;
      feed.thinned_mm += way * step.arc_share;
    },
    result: () => (full ? undefined : feeds),
  };
});

/**
 * The share of its feed that the chips of a part reach on the mean, by the stock: 0 where the part only moves through air,
 * under 1 where narrow cuts thin the chip. 1 where the stock says nothing.
 */
export function chipShare(part: Part, use: ToolUse, program: Program): number {
  if (!program.cuts) return 1;
  const feed = met.of(program, use)?.get(keyOf(part.run));
  if (!feed || feed.unknown) return 1;
  return feed.metal_mm > 0 ? feed.thinned_mm / feed.metal_mm : 0;
}

function keyOf(run: Float64Array): string {
  return `${run[RUN.feed]} ${run[RUN.feed_mode]} ${run[RUN.spindle]} ${run[RUN.css]}`;
}
