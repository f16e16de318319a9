import type { Rule } from '../../rule.ts';
import { placedHoles } from '../holes-at.ts';
import { length, watchPlaces } from './places.ts';
import { MILL_HEAD, millSheet } from './sample-sheets.ts';

const DRILLS = new Set(['drill', 'reamer', 'spot-drill', 'center-drill']);
const DRILL = { kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118, substrate: 'hss' };

const beside = watchPlaces(
  (use, program) => program.cuts?.kind === 'mill' && DRILLS.has(use.tool?.kind?.value ?? ''),
  ({ step, mill, rapid, program, use, down_mm, level_mm }) => {
    const { cuts } = program;
    const radius = (use.tool?.diameter_mm?.value ?? Number.NaN) / 2;
    if (rapid || !mill || cuts?.kind !== 'mill' || cuts.assumed || !(down_mm > 0) || level_mm > 0.001)
      return 0;
    const block = cuts.block(step);
    if (!block || step.z >= block.high[2]) return 0;
    const out = [0, 1].map(axis => {
      const at = axis === 0 ? step.x : step.y;
      return Math.max(block.low[axis] - at, at - block.high[axis]);
    });
    return Math.max(0, Math.max(...out) - 2 * radius);
  },
  () => ({}),
);

/** A hole wholly beside the part. */
export const holeBesideStock: Rule = {
  code: 'hole-beside-stock',
  title: 'Hole beside the part',
  family: 'geometry',
  severity: 'warning',
  machine: 'mill',
  means:
    'A drill is fed down where the stock of the setup sheet has ended: the hole is missing in the part, and the drill may run into jaws or the table.',
  cure: 'Check X and Y: a point moved, a sign turned, X and Y swapped, or the wrong work offset.',
  fine_when: 'The place is a fixture or a tab that the sheet does not show.',
  source: 'the stock of the setup sheet',
  needs: ['stock'],
  tool(use, program, report) {
    const [place, ...more] = beside.of(program, use) ?? [];
    if (!place || placedHoles(program).length > 5000) return;
    report({
      at: program.blockPlace(place.line),
      message: `Drills beside the part: T${use.number} goes down ${length(program, place.weight)} outside the stock${more.length > 0 ? ', here and at other places' : ''}. Check the position.`,
    });
  },
  flagged: [
    {
      name: 'a digit too many',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG99 G81 Z-5. R2. F100.\nX400.\n^^^^^\nG80\n`,
      sheet: millSheet(DRILL),
    },
  ],
  silent: [
    {
      name: 'in the part',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG99 G81 Z-5. R2. F100.\nX40.\nG80\n`,
      sheet: millSheet(DRILL),
    },
    {
      name: 'at the edge of the part',
      program: `${MILL_HEAD}G0 X-2. Y20. Z25.\nG99 G81 Z-5. R2. F100.\nG80\n`,
      sheet: millSheet(DRILL),
    },
  ],
};
