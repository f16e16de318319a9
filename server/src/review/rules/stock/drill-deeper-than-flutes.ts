import { KIND } from '../../../rs274/steps.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { MILL_HEAD, millSheet } from './sample-sheets.ts';

const DRILL_8 = { kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118, substrate: 'hss' };

/** Places that are told apart. */
const MOST_HOLES = 5000;

interface Hole {
  line: number;
  depth_mm: number;
}

/** The deepest hole: from the first contact at a place to the tip. */
const holes = watchSteps<Hole | undefined>(use => {
  if (!applies(use)) return undefined;
  const tops = new Map<string, number>();
  let deepest: Hole | undefined;
  return {
    see({ step, mill, lathe, rapid, line }) {
      if (rapid || step.kind !== KIND.feed || !(step.z < step.z0)) return;
      const top = mill
        ? mill.removed_mm3 > 0
          ? step.z + mill.axial_depth_mm
          : Number.NaN
        : (lathe?.to_z_mm ?? Number.NaN);
      const key = `${step.x.toFixed(2)} ${step.y.toFixed(2)}`;
      const mouth = Math.max(
        tops.get(key) ?? Number.NEGATIVE_INFINITY,
        top > step.z ? top : Number.NEGATIVE_INFINITY,
      );
      if (tops.size >= MOST_HOLES && !tops.has(key)) return;
      tops.set(key, mouth);
      const depth_mm = mouth - step.z;
      if (depth_mm > (deepest?.depth_mm ?? 0)) deepest = { line, depth_mm };
    },
    result: () => deepest,
  };
});

function applies({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  return kind === 'drill' || kind === 'reamer';
}

/** A hole that is deeper than the flutes of its drill. */
export const drillDeeperThanFlutes: Rule = {
  code: 'drill-deeper-than-flutes',
  title: 'Hole deeper than the flutes',
  family: 'geometry',
  severity: 'warning',
  means:
    'Once the flutes are down in the hole chips have no way out: they pack, the drill seizes and breaks off in the part.',
  cure: 'Take a longer drill, or turn the part and drill from both sides.',
  fine_when: 'The flute length in the setup sheet is shorter than the real one: correct the sheet.',
  source: 'geometry; flute length of the setup sheet',
  needs: ['stock', 'tool.kind', 'tool.diameter', 'tool.flute_length'],
  applies,
  explains: ['body-touches-stock'],
  tool(use, program, report) {
    const hole = holes.of(program, use);
    const flute = use.tool?.flute_length_mm?.value;
    if (!hole || flute === undefined || !(hole.depth_mm > flute)) return;
    report({
      at: program.blockPlace(hole.line),
      message: `May seize in the hole: ${toolName(use)} goes ${length(program, hole.depth_mm)} deep with flutes of ${length(program, flute)}. Take a longer drill.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a short drill in a deep hole, in pecks',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG99 G83 Z-18. R2. Q4. F200.\n^^^^^^^^^^^^^^^^^^^^^^^^^^^\nG80\n`,
      sheet: millSheet({ ...DRILL_8, flute_length: 15 }),
    },
  ],
  silent: [
    {
      name: 'flutes longer than the hole',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG99 G83 Z-18. R2. Q4. F200.\nG80\n`,
      sheet: millSheet({ ...DRILL_8, flute_length: 40 }),
    },
    {
      name: 'flute length not known',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG99 G83 Z-18. R2. Q4. F200.\nG80\n`,
      sheet: millSheet(DRILL_8),
    },
  ],
};
