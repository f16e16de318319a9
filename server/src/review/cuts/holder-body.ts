import { decodeHolder } from '../../cutting/designation-holder.ts';
import { isAbsent } from '../../cutting/result.ts';
import { isHoleTool } from '../../materials/index.ts';
import { isConfirmed, type Known, type ToolKnown } from '../../setup/index.ts';
import type { LatheBody } from '../../stock/lathe-keep-out.ts';

/** What a lathe tool's holder takes up from the programmed point. */
export interface HolderBody extends LatheBody {
  /** What is taken for granted of it, in words; undefined when all is stated. */
  readonly assumed?: string;
  /** Known only while the tool stands on the axis. */
  readonly on_axis?: true;
}

const OUTSIDE = new Set(['turn', 'thread-turn']);
/** So much of a holder behind its front is surely as wide as stated, mm. */
const FRONT_MM = 5;
/** The head of a holder is no longer than so many widths of its shank, then the shank is as wide as it is (common practice, no source). */
const HEAD_WIDTHS = 1.5;

/**
 * The holder as sheet or crib state it: `holder_box`; of a tool on the axis and of a boring bar the front of what it stands out
 * of; of an outside tool the shank that its designation (ISO 5608) names. Undefined where nothing is stated.
 */
export function holderBody(tool: ToolKnown | undefined): HolderBody | undefined {
  const kind = tool?.kind?.value;
  if (!tool || !kind) return undefined;
  const { holder_box, stickout_mm, holder_diameter_mm, shank_diameter_mm } = tool;
  if (holder_box) return { ...holder_box.value, ...unconfirmed(holder_box) };
  if (OUTSIDE.has(kind)) return shankOf(tool);
  if (!stickout_mm || !holder_diameter_mm) return undefined;
  const z_mm = [stickout_mm.value, stickout_mm.value + FRONT_MM] as const;
  const radius = holder_diameter_mm.value / 2;
  if (isHoleTool(kind))
    return {
      z_mm,
      x_mm: [-radius, radius],
      on_axis: true,
      ...unconfirmed(stickout_mm, holder_diameter_mm),
    };
  if (kind !== 'bore-bar' || !shank_diameter_mm) return undefined;
  const middle = -shank_diameter_mm.value / 2;
  return {
    z_mm,
    x_mm: [middle - radius, middle + radius],
    assumed: 'with the edge taken at the side of the bar',
  };
}

/** The shank of an outside tool, held along X; which way it lies is known from the tip, or taken to be towards the chuck for a right-hand one. */
function shankOf({ holder, tip_direction }: ToolKnown): HolderBody | undefined {
  const facts = holder && decodeHolder(holder.value);
  if (!facts || isAbsent(facts) || facts.bar) return undefined;
  const { shank_width_mm: width, corner_to_far_side_mm: far, hand, length_mm } = facts;
  if (width === undefined || far === undefined || length_mm === undefined) return undefined;
  const tip = tip_direction?.value;
  const towards_chuck = tip === 3 || tip === 7 || tip === 2;
  const away = tip === 1 || tip === 4 || tip === 5;
  if (hand === 'left' && !towards_chuck && !away) return undefined;
  return {
    z_mm: away ? [-far, width - far] : [far - width, far],
    x_mm: [HEAD_WIDTHS * width, length_mm],
    assumed: `the ${width} mm shank that its designation names, held along X`,
  };
}

function unconfirmed(...values: readonly Known<unknown>[]): { assumed?: string } {
  return values.every(({ origin }) => isConfirmed(origin)) ? {} : { assumed: 'as its comment was read' };
}
