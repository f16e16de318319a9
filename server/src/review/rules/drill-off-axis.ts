import { isHoleTool } from '../../materials/index.ts';
import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import type { ToolKnown } from '../../setup/index.ts';
import { linesOf } from '../part.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { length } from './stock/places.ts';

/** How far off the axis a drill may be for play, mm. */
const PLAY_MM = 0.1;
const USUAL_M = new Set([0, 1, 2, 3, 4, 5, 7, 8, 9, 29, 30, 98, 99]);
const SHEET =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "tools": { "5": { "kind": "drill", "diameter": 8 } } }';
const PROGRAM = (approach: string, more = '') =>
  `G21 G18 G40 G97 G99\nT0505\nS800 M3\n${more}${approach}G1 Z-20. F0.1\nG0 Z5.\nX80. Z50.\nM30\n`;

/** A drill of a lathe that is fed in beside the axis. */
export const drillOffAxis: Rule = {
  code: 'drill-off-axis',
  title: 'Drill beside the axis of the lathe',
  family: 'geometry',
  severity: 'error',
  machine: 'lathe',
  means:
    'The part turns and the drill does not: anywhere but at X0 the drill, tap or reamer is bent aside and breaks.',
  cure: 'Write X0 on the approach; look for X and Z swapped.',
  fine_when: 'The tool is driven and the part stands still: index it by C, so that the review sees it.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const uses = program.uses.filter(use => use.cuts && onAxis(use.tool));
    if (uses.length === 0) return;
    const { first, last } = linesOf(uses);
    const told = new Set<number>();
    const live = liveTools(program);
    const cursor = new StepCursor(program.reading, first, last + 1);
    while (cursor.next()) {
      if (cursor.kind !== KIND.feed && cursor.kind !== KIND.tap) continue;
      const number = cursor.runValues[RUN.tool];
      if (told.has(number) || live.has(number) || !onAxis(program.tool(number))) continue;
      if (!(cursor.z < cursor.z0) || !(Math.abs(cursor.x) > PLAY_MM) || cursor.x !== cursor.x0) continue;
      told.add(number);
      report({
        at: program.blockPlace(cursor.line),
        message: `Breaks the tool: T${number} is fed in at a radius of ${length(program, Math.abs(cursor.x))}, beside the axis. Approach at X0.`,
      });
    }
  },
  flagged: [
    {
      name: 'X not at the axis',
      program: PROGRAM('G0 X10. Z5.\n').replace('G1 Z-20. F0.1\n', 'G1 Z-20. F0.1\n^^^^^^^^^^^^^\n'),
      sheet: SHEET,
    },
  ],
  silent: [
    { name: 'on the axis', program: PROGRAM('G0 X0. Z5.\n'), sheet: SHEET },
    { name: 'a driven tool at an angle of C', program: PROGRAM('G0 X10. Z5.\nC90.\n'), sheet: SHEET },
    {
      name: 'a driven tool, started by a code of the machine',
      program: PROGRAM('G0 X10. Z5.\n', 'M133\n'),
      sheet: SHEET,
    },
  ],
};

/** Tools that may be driven: C or H words or M codes of the machine stand at them. */
function liveTools(program: Program): ReadonlySet<number> {
  const live = new Set<number>();
  for (const use of program.uses) {
    for (let line = use.change_line - 3; line <= use.last_line && line < use.change_line + 400; line++) {
      if (line < 0) continue;
      const driven = program
        .words(line)
        .some(w => w.letter === 'C' || w.letter === 'H' || (w.letter === 'M' && !USUAL_M.has(w.value)));
      if (driven) live.add(use.number);
    }
  }
  return live;
}

function onAxis(tool: ToolKnown | undefined): boolean {
  return tool?.kind !== undefined && isHoleTool(tool.kind.value);
}
