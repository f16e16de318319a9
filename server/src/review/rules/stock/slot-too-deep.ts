import type { Seen } from '../../cuts/step-scan.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Engagement from which on a cut is a slot, degrees. */
const SLOT_DEG = 160;

interface Slot {
  line: number;
  depth_mm: number;
  length_mm: number;
}

const slots = watchSteps<Slot | undefined>((use, program) => {
  if (!applies(use)) return undefined;
  const diameter = use.tool?.diameter_mm?.value ?? Number.NaN;
  const least = limits(program).usual * diameter;
  let deepest: Slot | undefined;
  let open: Slot | undefined;
  const close = () => {
    if (open && open.length_mm >= diameter && open.depth_mm > (deepest?.depth_mm ?? 0)) deepest = open;
    open = undefined;
  };
  return {
    see(step) {
      const depth_mm = isSlot(step) ? (step.mill?.axial_depth_mm ?? 0) : 0;
      if (!(depth_mm > least)) {
        close();
        return;
      }
      const cutting = step.level_mm * (1 - (step.mill?.air_share ?? 0));
      open ??= { line: step.line, depth_mm, length_mm: 0 };
      open.length_mm += cutting;
      open.depth_mm = Math.min(open.depth_mm, depth_mm);
    },
    result() {
      close();
      return deepest;
    },
  };
});

function isSlot({ mill, rapid, trusted, level_mm, down_mm }: Seen): boolean {
  return (
    !rapid && trusted && mill !== undefined && level_mm > down_mm && mill.mean_engagement_deg >= SLOT_DEG
  );
}

function applies({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  return kind === 'end-mill' || kind === 'bull-mill' || kind === 'ball-mill';
}

/** Depth of a full slot over the diameter: usual, and what is likely to go badly (common practice, no source). */
function limits({ material }: Program): { usual: number; most: number } {
  const group = material?.group;
  if (group === 'N') return { usual: 1.1, most: 2 };
  if (group === 'S' || group === 'H') return { usual: 0.6, most: 1.25 };
  return { usual: 1.1, most: 1.6 };
}

/** A slot at full width that is deeper than the tool bears. */
export const slotTooDeep: Rule = {
  code: 'slot-too-deep',
  title: 'Slot too deep for the tool',
  family: 'cutting',
  severity: 'information',
  means:
    'The tool is buried at full width and deep: chips cannot get out, the tool bends, and small ones break.',
  cure: 'Take the slot in several depths, or with a tool that is smaller than the slot on a path that keeps the engagement low.',
  fine_when: 'The tool maker gives this depth for slots.',
  source: 'depth of a full slot up to one diameter, half in heat-resisting metal: common practice, no source',
  needs: ['stock', 'tool.kind', 'tool.diameter'],
  applies,
  tool(use, program, report) {
    const slot = slots.of(program, use);
    const diameter = use.tool?.diameter_mm?.value;
    if (!slot || !diameter) return;
    const share = slot.depth_mm / diameter;
    const far = share > limits(program).most;
    report({
      at: program.blockPlace(slot.line),
      ...(far ? { severity: 'warning' as const } : {}),
      message: `${far ? 'May break the tool' : 'Deep for a slot'}: ${toolName(use)} cuts at full width ${length(program, slot.depth_mm)} deep, ${share.toFixed(1)} times its diameter. Take it in several depths.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'two diameters deep in steel',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-18.\nG1 X50. F300.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
  silent: [
    {
      name: 'half a diameter deep',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-5.\nG1 X50. F300.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'deep but narrow',
      program: `${MILL_HEAD}G0 X-10. Y-4. Z5.\nZ-18.\nG1 X50. F300.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
};
