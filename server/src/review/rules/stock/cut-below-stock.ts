import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { isMillingCutter } from '../../working.ts';
import { toolName } from '../words.ts';
import { length, watchPlaces, worst } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Going through by this much is how an edge or a hole is cut through, mm: mills, and drills after their point. */
const THROUGH_MM = { mill: 2, drill: 6 };

const below = watchPlaces(
  applies,
  ({ step, rapid, program, use, mill }) => {
    const { cuts } = program;
    if (rapid || cuts?.kind !== 'mill' || !mill || !(step.z < step.z0 || mill.removed_mm3 > 0)) return 0;
    const block = cuts.block(step);
    const reach = (use.tool?.diameter_mm?.value ?? 0) / 2;
    if (!block || !near(step.x0, step.x, block, 0, reach) || !near(step.y0, step.y, block, 1, reach))
      return 0;
    const depth = block.low[2] - Math.min(step.z, step.z0);
    return depth > allowed(use) ? depth : 0;
  },
  () => ({}),
);

function near(
  from: number,
  to: number,
  block: { low: readonly number[]; high: readonly number[] },
  axis: number,
  reach: number,
): boolean {
  return Math.max(from, to) > block.low[axis] - reach && Math.min(from, to) < block.high[axis] + reach;
}

function allowed({ tool }: ToolUse): number {
  if (isMillingCutter(tool?.kind?.value)) return THROUGH_MM.mill;
  const point = tool?.point_angle_deg?.value ?? 118;
  const radius = (tool?.diameter_mm?.value ?? 0) / 2;
  return THROUGH_MM.drill + radius / Math.tan((point * Math.PI) / 360);
}

function applies({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  return isMillingCutter(kind) || kind === 'drill' || kind === 'reamer';
}

/** Deeper than the stock is thick. */
export const cutBelowStock: Rule = {
  code: 'cut-below-stock',
  title: "Cuts below the stock's bottom",
  family: 'geometry',
  severity: 'warning',
  means: 'The tool goes well below the bottom of the stock, into the vise, the parallels or the table.',
  cure: 'Check Z for a digit or a sign, and the thickness of the stock in the setup sheet.',
  fine_when: 'There is a free space or a sacrificial plate under the part.',
  source: 'stock of the setup sheet',
  needs: ['stock', 'tool.kind', 'tool.diameter'],
  applies,
  tool(use, program, report) {
    if (program.cuts?.assumed) return;
    const place = worst(below.of(program, use));
    if (!place) return;
    report({
      at: program.blockPlace(place.line),
      message: `May cut the vise or the table: ${toolName(use)} goes ${length(program, place.weight)} below the bottom of the stock. Check Z, or the stock in the setup sheet.`,
    });
  },
  flagged: [
    {
      name: 'a digit lost in Z',
      program: `${MILL_HEAD}G0 X-10. Y-4. Z5.\nG1 Z-35. F100.\nX50. F300.\n^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, flute_length: 50, stickout: 60 }),
    },
  ],
  silent: [
    {
      name: 'cut through by a millimetre',
      program: `${MILL_HEAD}G0 X-10. Y-4. Z5.\nG1 Z-21. F100.\nX50. F300.\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, flute_length: 50, stickout: 60 }),
    },
    {
      name: 'a through hole with the point out',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG1 Z-24. F100.\nG0 Z5.\n`,
      sheet: millSheet({ kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118 }),
    },
  ],
};
