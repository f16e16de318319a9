import { isAbsent } from '../cutting/result.ts';
import type { ToolReview } from './tool-review.ts';
import { isFedPerRevolution } from './working.ts';

/** Times its window that a chip load may lie outside before the tool itself is doubted. */
const FAR = 2;

/**
 * Whether a tool that is known only because its comment calls a tool of the crib is likely another one: the feed of a tooth
 * (of a revolution for tools fed so) that follows is over twice outside its window. Such a tool is asked about again.
 */
export function isDoubtful({ tool, main, window }: ToolReview): boolean {
  if (tool?.by !== 'called' || !main) return false;
  const quantity = isFedPerRevolution(tool.kind?.value) ? 'feed_per_rev_mm' : 'chip_load_mm';
  const range = window?.[quantity];
  const value = main[quantity];
  if (!range || isAbsent(range) || !(value > 0)) return false;
  return value > range.high * FAR || value < range.low / FAR;
}
