import { RUN } from '../../rs274/steps.ts';
import { isConfirmed } from '../../setup/known.ts';
import type { Rule } from '../rule.ts';
import { scanOf } from '../scan-program.ts';
import { MILL_MM, milled } from './sample-programs.ts';

const POINTED = new Set(['drill', 'reamer', 'tap', 'center-drill']);
const sheet = (kind: string) =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "${kind}", "diameter": 8 } } }`;

/** A drill, reamer or tap that is fed across. */
export const drillCutsSideways: Rule = {
  code: 'drill-cuts-sideways',
  title: 'Drill, reamer or tap is fed sideways',
  family: 'cutting',
  severity: 'error',
  means:
    'The tool has no edge on its side: fed across it bends and breaks. Mostly the wrong tool is called, or a G0 is missing.',
  cure: 'Check the tool number, and G0 and G1.',
  fine_when: 'The move runs above the part.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'mill') return;
    for (const move of scanOf(program).sideways) {
      const kind = program.tool(move.tool)?.kind;
      if (!kind || !POINTED.has(kind.value)) continue;
      const top = scanOf(program).findHole(hole => hole.run[RUN.tool] === move.tool)?.top;
      if (top !== undefined && move.z > top - 1e-6 && !(move.z < 0)) continue;
      report({
        at: program.blockPlace(move.line),
        severity: isConfirmed(kind.origin) ? 'error' : 'warning',
        message: `Breaks the tool: T${move.tool} is a ${kind.value.replace('-', ' ')} and is fed sideways here. Check the tool, and whether G0 was meant.`,
      });
    }
  },
  flagged: [
    {
      name: 'the wrong tool',
      program: `${MILL_MM}${milled(1).replace('X50. F300.\n', 'X50. F300.\n^^^^^^^^^^\n')}M30\n`,
      sheet: sheet('drill'),
    },
  ],
  silent: [
    { name: 'an end mill', program: `${MILL_MM}${milled(1)}M30\n`, sheet: sheet('end-mill') },
    {
      name: 'a drill that drills',
      program: `${MILL_MM}T1 M6\nS1000 M3\nG0 X0 Y0\nG43 H1 Z20.\nG81 X5. Z-10. R2. F100.\nX15.\nG80\nM30\n`,
      sheet: sheet('drill'),
    },
  ],
};
