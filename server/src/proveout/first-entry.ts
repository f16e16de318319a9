import { loadsOf } from '../review/cuts/add-loads.ts';
import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import type { StepCursor } from '../rs274/index.ts';
import { curveAt } from '../setup/index.ts';

/** How a tool first meets the stock, and the greatest share of a limit that any of its cuts reaches. */
export interface FirstEntry {
  /** 0-based line and place of the first contact, mm. */
  line: number;
  position_mm: readonly [number, number, number];
  entry: 'partial' | 'full' | 'full-and-deep' | undefined;
  chip_thickness_mm: number;
  load: { share: number; of: string } | undefined;
}

/** Share of the arc from which on a cut counts as full width, degrees. */
const FULL_WIDTH_DEG = 170;
/** Steps of a tool that are looked at for its greatest load. */
const MOST_STEPS = 50_000;

/** Follows a tool through the stock; undefined where the stock is not known or the tool meets none. */
export function firstEntryOf(review: Review, used: ToolReview): FirstEntry | undefined {
  const { program } = review;
  const { cuts } = program;
  if (!cuts || used.uses.length === 0) return undefined;
  let first: FirstEntry | undefined;
  let worst: FirstEntry['load'];
  let seen = 0;
  for (const use of used.uses) {
    const cursor = program.reading.cursor(use.first_line, use.last_line + 1);
    while (cursor.next() && seen < MOST_STEPS) {
      if (cursor.runValues[0] !== used.number) continue;
      seen++;
      const loads = loadsOf(program, cursor, used.tool);
      if (!(loads.axial_depth_mm > 0)) continue;
      first ??= entryAt(
        review,
        used,
        cursor,
        loads.engagement_deg,
        loads.axial_depth_mm,
        loads.chip_thickness_mm,
      );
      const share = loadShare(review, cursor, loads);
      if (share && (!worst || share.share > worst.share)) worst = share;
    }
  }
  return first && { ...first, load: worst };
}

function entryAt(
  { program }: Review,
  used: ToolReview,
  step: StepCursor,
  engagement_deg: number,
  axial_depth_mm: number,
  chip_thickness_mm: number,
): FirstEntry {
  const { cuts } = program;
  const figures = cuts?.kind === 'mill' ? cuts.figures(step) : undefined;
  const diameter = used.tool?.diameter_mm?.value;
  const full = engagement_deg >= FULL_WIDTH_DEG;
  const deep = diameter !== undefined && axial_depth_mm > diameter;
  return {
    line: step.line,
    position_mm: figures
      ? [figures.contact_x, figures.contact_y, figures.contact_z]
      : [step.x, step.y, step.z],
    entry:
      cuts?.kind !== 'mill' || !Number.isFinite(engagement_deg)
        ? undefined
        : !full
          ? 'partial'
          : deep
            ? 'full-and-deep'
            : 'full',
    chip_thickness_mm,
    load: undefined,
  };
}

function loadShare(
  { program }: Review,
  step: StepCursor,
  loads: { power_kw: number; torque_nm: number },
): FirstEntry['load'] {
  const spindle = program.machine?.spindle;
  const rpm = step.run('spindle');
  const shares: { share: number; of: string }[] = [];
  const power = spindle?.power_kw && curveAt(spindle.power_kw, rpm);
  const torque = spindle?.torque_nm && curveAt(spindle.torque_nm, rpm);
  if (power && loads.power_kw > 0) shares.push({ share: loads.power_kw / power, of: 'power' });
  if (torque && loads.torque_nm > 0) shares.push({ share: loads.torque_nm / torque, of: 'torque' });
  return shares.sort((a, b) => b.share - a.share)[0];
}
