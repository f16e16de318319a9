import { formatQuantity } from '../../cutting/format.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { drilledHoles, holesBefore, isTapped } from './holes-at.ts';
import { tapped, tapSheet } from './tap-sheets.ts';

/** Threads of the chamfer of a plug tap that need room below the last full thread. */
const LEAST_CHAMFER = 1;

/** The tap reaches the bottom of its hole. */
export const tapDeeperThanHole: Rule = {
  code: 'tap-deeper-than-hole',
  title: 'Tap runs into the bottom of the hole',
  family: 'cutting',
  severity: 'error',
  means: 'The tap goes to, or under, the depth of full diameter: it meets the drill point and breaks.',
  cure: 'Drill deeper by the chamfer of the tap (3 to 5 threads for a plug tap), or tap less deep.',
  fine_when: 'The hole goes through the part.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const told = new Set<number>();
    for (const tap of drilledHoles(program)) {
      if (told.has(tap.tool) || !isTapped(tap)) continue;
      const drill = holesBefore(program, tap)
        .filter(h => h.kind === 'drill')
        .sort((a, b) => a.hole.bottom - b.hole.bottom)[0];
      const pitch = program.tool(tap.tool)?.pitch_mm?.value;
      const size = drill && program.tool(drill.tool);
      const point = size?.point_angle_deg?.value;
      if (!drill || !pitch || isThrough(program, drill.hole.bottom)) continue;
      const tip =
        point && size?.diameter_mm ? size.diameter_mm.value / 2 / Math.tan((point * Math.PI) / 360) : 0;
      const full = drill.hole.bottom + tip;
      const room = tap.hole.bottom - full;
      if (room >= LEAST_CHAMFER * pitch) continue;
      told.add(tap.tool);
      const length = (value: number) => formatQuantity('length_mm', value, program.shown);
      report({
        at: program.wordPlace(tap.hole.line, 'Z'),
        severity: room < 0 && program.sheet ? 'error' : 'warning',
        message:
          room < 0
            ? `Breaks the tap: it goes ${length(-room)} under the full diameter of the hole. Drill deeper, or tap less deep.`
            : `May break the tap: only ${length(room)} stay under it, less than one thread. Drill deeper, or tap less deep.`,
        related: [{ line: drill.hole.line, message: `T${drill.tool} drills it here` }],
      });
    }
  },
  flagged: [
    {
      name: 'deeper than drilled',
      program: tapped('-12.', 'G84 Z-14. R5. F500.\n    ^^^^^\n').replace(
        'G81 Z-12. R2. F150.\n',
        'G81 Z-12. R2. F150.\n^^^^^^^^^^^^^^^^^^^\n',
      ),
      sheet: tapSheet(6.8),
    },
  ],
  silent: [
    { name: 'deep enough', program: tapped('-20.', 'G84 Z-14. R5. F500.\n'), sheet: tapSheet(6.8) },
    {
      name: 'through the part',
      program: tapped('-12.', 'G84 Z-14. R5. F500.\n'),
      sheet: tapSheet(6.8).replace(
        '"tools"',
        '"workpiece": { "stock": { "shape": "block", "size": [40, 40, 10], "zero": [0, 0, 10] } }, "tools"',
      ),
    },
  ],
};

/** The hole goes through the stated block. */
function isThrough(program: Program, bottom: number): boolean {
  const stock = program.sheet?.workpiece?.stock;
  if (stock?.shape !== 'block' || !stock.zero_mm) return false;
  return bottom <= -stock.zero_mm.value[2] + 1e-6;
}
