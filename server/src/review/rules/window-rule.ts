import { isAbsent } from '../../cutting/result.ts';
import type { WindowRange } from '../../materials/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import { type EdgeFacts, edgeFacts } from '../facts.ts';
import type { Severity } from '../finding.ts';
import type { Part } from '../part.ts';
import type { Program } from '../program.ts';
import type { ToolUse } from '../tool-use.ts';
import { isFedPerRevolution } from '../working.ts';
import { chipShare } from './feeds-in-metal.ts';

export interface OutOfWindow {
  part: Part;
  value: number;
  range: WindowRange;
  severity: Severity;
}

type Quantity = 'chip_load_mm' | 'feed_per_rev_mm' | 'surface_speed_m_min';

const LOCKED = (1 << KIND.thread) | (1 << KIND.tap);

/**
 * The part of a tool's use that lies furthest outside its window on one side. A table window recommends:
 * outside it is information, a warning only under half the low or over 1.3 times the high end. Feeds that the stock says
 * to be in air are not judged as too fast, and the chip of a narrow cut counts as thick as it is.
 */
export function furthestOutside(
  use: ToolUse,
  program: Program,
  quantity: Quantity,
  side: 'below' | 'above',
): OutOfWindow | undefined {
  const range = program.window(use.number)?.[quantity];
  if (!range || isAbsent(range)) return undefined;
  const feeds = side === 'above' && quantity !== 'surface_speed_m_min';
  let worst: { part: Part; value: number; share: number } | undefined;
  for (const part of side === 'below' ? mainParts(use) : use.parts) {
    if (part.cut_steps === 0 || part.kinds & LOCKED) continue;
    for (const facts of edgesOf(part, use, program)) {
      const value = facts[quantity];
      if (!(value > 0)) continue;
      if (side === 'below' ? value >= range.low * (1 - SLACK) : value <= range.high * (1 + SLACK)) continue;
      const share = feeds ? chipShare(part, use, program) : 1;
      if (share === 0) continue;
      if (!worst || (side === 'below' ? value < worst.value : value * share > worst.value * worst.share))
        worst = { part, value, share };
    }
  }
  if (!worst) return undefined;
  const aside = side === 'above' && !program.cuts && isAside(worst.part, use);
  const far =
    !aside &&
    (side === 'below'
      ? worst.value < range.low * FAR_BELOW
      : worst.value * worst.share > range.high * FAR_ABOVE);
  return { part: worst.part, value: worst.value, range, severity: far ? 'warning' : 'information' };
}

/**
 * Without stock, a short stretch that is faster than a longer cut of the same tool may well be a way through air.
 */
function isAside(part: Part, use: ToolUse): boolean {
  const feed = part.run[RUN.feed];
  const cut = use.parts.reduce(
    (sum, other) => (other.run[RUN.feed] < feed / 1.3 ? sum + other.cut_length_mm : sum),
    0,
  );
  return cut > part.cut_length_mm / 3;
}

/** Shares of the low and the high end past which a value is warned of. */
const FAR_BELOW = 0.5;
const FAR_ABOVE = 1.3;

/** Tables are not sharper than this share of their ends. */
const SLACK = 0.02;

/** The run with the most cutting length: plunges, ramps and leads are slow on purpose and are not judged as too slow. */
function mainParts(use: ToolUse): Part[] {
  let main: Part | undefined;
  for (const part of use.parts)
    if (part.cut_steps > 0 && (!main || part.cut_length_mm > main.cut_length_mm)) main = part;
  return main ? [main] : [];
}

/** Windows of feed say nothing about tools that follow a thread. */
export function hasFeedWindow(use: ToolUse): boolean {
  const kind = use.tool?.kind?.value;
  return kind !== 'tap' && kind !== 'thread-turn' && kind !== 'thread-mill' && kind !== 'probe';
}

/** The quantity that a tool's feed is judged by, as the person thinks of it. */
export function feedQuantity(use: ToolUse): 'chip_load_mm' | 'feed_per_rev_mm' {
  return isFedPerRevolution(use.tool?.kind?.value) ? 'feed_per_rev_mm' : 'chip_load_mm';
}

/** Facts at the ends of a part: one for a mill, least and greatest diameter for a lathe. */
function edgesOf(part: Part, use: ToolUse, program: Program): EdgeFacts[] {
  if (program.kind !== 'lathe') return [edgeFacts(part.run, use.tool, program.kind, 0)];
  return [part.most_x_mm].map(diameter => edgeFacts(part.run, use.tool, program.kind, diameter / 2));
}
