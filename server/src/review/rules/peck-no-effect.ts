import type { Rule } from '../rule.ts';
import { holeCode } from '../scan-table.ts';
import { firstOfEachTool } from './holes-at.ts';
import { drilled } from './sample-programs.ts';

const sheet =
  '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "drill", "diameter": 5 } } }';

/** A peck deeper than the hole. */
export const peckNoEffect: Rule = {
  code: 'peck-no-effect',
  title: 'Peck is deeper than the hole',
  family: 'numbers',
  severity: 'information',
  means:
    'Q is larger than the depth, so the cycle drills in one go: likely a point is lost or a digit too many, and the chips pack.',
  cure: 'Write Q smaller than the depth.',
  fine_when: 'The hole is shallow and one go is meant.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    for (const placed of firstOfEachTool(program, h => h.hole.cycle && [83, 73].includes(holeCode(h.hole)))) {
      const { hole } = placed;
      const diameter = program.tool(placed.tool)?.diameter_mm?.value;
      if (hole.strokes !== 1 || !diameter || hole.stroke_mm < 2.2 * diameter) continue;
      report({
        at: program.wordPlace(hole.line, 'Q'),
        severity: program.sheet ? 'warning' : 'information',
        message: `Packs chips: Q is larger than the whole depth, so T${placed.tool} drills ${(hole.stroke_mm / diameter).toFixed(1)} diameters in one go. Check Q.`,
      });
    }
  },
  flagged: [
    { name: 'a point lost in Q', program: drilled('G83 Z-18. R2. Q50. F150.\n              ^^^^\n'), sheet },
  ],
  silent: [
    { name: 'pecks', program: drilled('G83 Z-18. R2. Q5. F150.\n'), sheet },
    { name: 'a shallow hole', program: drilled('G83 Z-6. R2. Q50. F150.\n'), sheet },
  ],
};
