import { isAbsent } from '../../../cutting/result.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { isMillingCutter } from '../../working.ts';
import { shown, toolName } from '../words.ts';
import { assumedWords, onAssumedStock, others, type SeenPlace, worst } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Engagement of the cut before a jump, degrees: above it the chip is nearly at its thickest already. */
const STEADY_MOST_DEG = 75;
/** A jump is at least so many times, and so many degrees, more. */
const JUMP_RATIO = 1.8;
const JUMP_DEG = 40;
/** Depth under which a jump is only a burr, as a share of the diameter. */
const DEEP_SHARE = 0.05;
const MOST_PLACES = 200;

interface Jump extends SeenPlace {
  steady_deg: number;
  engagement_deg: number;
  chip_thickness_mm: number;
  chip_load_mm: number;
}

const jumps = watchSteps<readonly Jump[]>(use => {
  if (!applies(use)) return undefined;
  const diameter = use.tool?.diameter_mm?.value ?? Number.NaN;
  const found: Jump[] = [];
  // engagement of the last diameter of path, mean by length
  let trail_deg = 0;
  let trail_mm = 0;
  let depth_mm = 0;
  let last: Jump | undefined;
  return {
    see(step) {
      const { mill, rapid, level_mm, down_mm } = step;
      if (rapid || !mill || down_mm > level_mm) {
        trail_mm = 0;
        return;
      }
      const cutting_mm = level_mm * (1 - mill.air_share);
      const mean = mill.mean_engagement_deg;
      // the way out of a corner shows best what the steady cut is
      const after = mill.engagement_deg;
      const even = cutting_mm >= diameter && after < 1.25 * mean;
      if (last && even && after < last.steady_deg && after > last.steady_deg / 2) last.steady_deg = after;
      last = undefined;
      if (!(cutting_mm > 0) || !(mean > 0)) {
        if (level_mm > diameter) trail_mm = 0;
        return;
      }
      const own = cutting_mm >= diameter;
      const steady = own ? Math.min(mean, trail_mm >= diameter ? trail_deg : mean) : trail_deg;
      const known = own || trail_mm >= diameter;
      const peak = mill.engagement_deg;
      if (
        known &&
        step.trusted &&
        (own || sameDepth(mill.axial_depth_mm, depth_mm)) &&
        mill.axial_depth_mm > DEEP_SHARE * diameter &&
        steady <= STEADY_MOST_DEG &&
        peak > JUMP_RATIO * steady &&
        peak > steady + JUMP_DEG &&
        found.length < MOST_PLACES
      ) {
        last = {
          line: step.line,
          weight: peak - steady,
          at: [mill.at_x, mill.at_y, mill.at_z],
          steady_deg: steady,
          engagement_deg: peak,
          chip_thickness_mm: step.loads.chip_thickness_mm,
          chip_load_mm: step.edge.chip_load_mm,
        };
        found.push(last);
      }
      depth_mm = mill.axial_depth_mm;
      const kept = Math.min(trail_mm, Math.max(0, 2 * diameter - cutting_mm));
      trail_deg = (trail_deg * kept + mean * cutting_mm) / (kept + cutting_mm);
      trail_mm = kept + cutting_mm;
    },
    result: () => found,
  };
});

/** Within a quarter: the trail before speaks of the same cut. */
function sameDepth(a: number, b: number): boolean {
  return Math.abs(a - b) <= 0.25 * Math.max(a, b);
}

function applies(use: ToolUse): boolean {
  const kind = use.tool?.kind?.value;
  return isMillingCutter(kind) && kind !== 'chamfer-mill' && kind !== 'thread-mill' && kind !== 'face-mill';
}

/** Greatest chip load of the window; NaN when there is none. */
function windowHigh(program: Program, use: ToolUse): number {
  const range = program.window(use.number)?.chip_load_mm;
  return range && !isAbsent(range) ? range.high : Number.NaN;
}

/** A corner that takes far more of the tool than the way to it. */
export const engagementJump: Rule = {
  code: 'engagement-jump',
  title: 'Engagement jumps at a corner',
  family: 'cutting',
  severity: 'information',
  means:
    'In an inside corner the tool is wrapped by far more metal than on the straight before it: force, heat and chip thickness jump for an instant, it chatters or is pulled in.',
  cure: 'Round the corner with a radius larger than the tool, rough it with a smaller tool first, or lower the feed there.',
  fine_when: 'The cut is light and the feed is chosen for the corner.',
  source: 'engagement at the stock, cut move by move; h = fz sin(phi) (Martellotti 1941)',
  needs: ['stock', 'tool.kind', 'tool.diameter'],
  applies,
  tool(use, program, report) {
    const found = jumps.of(program, use) ?? [];
    const place = worst(found);
    if (!place) return;
    const angle = (value: number) => `${value.toFixed(1)} degrees`;
    const from = place.chip_load_mm * Math.sin((Math.min(90, place.steady_deg) * Math.PI) / 180);
    const to = place.chip_thickness_mm;
    const high = windowHigh(program, use);
    const out = to > 1.02 * high;
    const chip = Number.isFinite(from + to)
      ? ` The thickest chip goes from ${shown(program, 'chip_thickness_mm', from)} to ${shown(program, 'chip_thickness_mm', to)}${out ? `, over the window, which ends at ${shown(program, 'chip_load_mm', high)}` : ''}.`
      : '';
    const rest = others(found, place, 'Engagement jumps here too.').slice(0, 10);
    report({
      at: program.blockPlace(place.line),
      ...(out ? { severity: 'warning' as const } : {}),
      message: `Load jumps in the corner: ${toolName(use)} goes from ${angle(place.steady_deg)} of engagement to ${angle(place.engagement_deg)}.${chip} Round the corner, or slow down there.${assumedWords(program)}`,
      ...(rest.length > 0 ? { related: rest } : {}),
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a sharp inside corner after a side step of a tenth',
      program: `${MILL_HEAD}G0 X-10. Y25. Z5.\nG1 Z-2. F200.\nX25. F300.\nY-10.\nG0 Z5.\nX-10. Y26.\nG1 Z-2.\nX26.\n^^^^\nY-10.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
  silent: [
    {
      name: 'the same side step along a straight wall',
      program: `${MILL_HEAD}G0 X-10. Y25. Z5.\nG1 Z-2. F200.\nX50. F300.\nG0 Z5.\nX-10. Y26.\nG1 Z-2.\nX50.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'the corner rounded well over the radius of the tool',
      program: `${MILL_HEAD}G0 X-10. Y25. Z5.\nG1 Z-2. F200.\nX10. F300.\nG2 X25. Y10. R15.\nG1 Y-10.\nG0 Z5.\nX-10. Y26.\nG1 Z-2.\nX10.\nG2 X26. Y10. R16.\nG1 Y-10.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a slot that goes round a corner: full all the way',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nG1 Z-2. F200.\nX20. F300.\nY50.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
};
