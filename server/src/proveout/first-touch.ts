import { frameName } from '../review/frame-name.ts';
import { firstCut } from '../review/lookup.ts';
import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { KIND, RUN } from '../rs274/index.ts';
import { firstEntryOf } from './first-entry.ts';

/** Where a tool first meets the work, or feeds for the first time where the stock does not tell. */
export interface FirstTouch {
  /** 0-based. */
  line: number;
  /**
   * On a mill the point of contact; on a lathe, and where the stock does not tell, where that move begins. In the work
   * offset that is active, lathe X as radius, to a tenth of a micrometre; undefined when the program does not tell.
   */
  position_mm: readonly [number, number, number] | undefined;
  /** `stock`: the stock says so; `feed`: the place where the first feed move begins. */
  by: 'stock' | 'feed';
  frame: string | undefined;
}

const CUTS = new Set<number>([KIND.feed, KIND.arc, KIND.thread, KIND.tap]);

/** The first touch of a tool; undefined when it never feeds. */
export function firstTouchOf(review: Review, used: ToolReview): FirstTouch | undefined {
  const { program } = review;
  const first = used.uses.find(use => use.cuts);
  const part = first && firstCut(first);
  if (!part) return undefined;
  const frame = frameName(part.run[RUN.frame]);
  const entry = firstEntryOf(review, used);
  if (entry && program.kind === 'mill')
    return { line: entry.line, position_mm: known(entry.position_mm, program.kind), by: 'stock', frame };
  const line = entry?.line ?? part.first_cut_line;
  const by = entry ? 'stock' : 'feed';
  const cursor = program.reading.stepsOfLine(line);
  while (cursor.next()) {
    if (!CUTS.has(cursor.kind) || !sameTool(cursor.run('tool'), used.number)) continue;
    return { line, position_mm: known([cursor.x0, cursor.y0, cursor.z0], program.kind), by, frame };
  }
  return { line, position_mm: undefined, by, frame };
}

function sameTool(number: number, used: number): boolean {
  return number === used || (!(number >= 0) && used < 0);
}

/** A lathe without Y stands at Y 0. */
function known(
  [x, y, z]: readonly [number, number, number],
  kind: 'mill' | 'lathe' | undefined,
): FirstTouch['position_mm'] {
  const across = kind === 'lathe' && Number.isNaN(y) ? 0 : y;
  return [x, across, z].every(Number.isFinite) ? [round(x), round(across), round(z)] : undefined;
}

const round = (value: number): number => Math.round(value * 1e4) / 1e4 + 0;
