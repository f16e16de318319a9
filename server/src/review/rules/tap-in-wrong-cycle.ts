import { isConfirmed } from '../../setup/known.ts';
import type { Rule } from '../rule.ts';
import { holeCode } from '../scan-table.ts';
import { firstOfEachTool } from './holes-at.ts';
import { tapped, tapSheet } from './tap-sheets.ts';

const TAPPING = new Set([84, 74, 84.2, 84.3]);

/** A tap in a drilling cycle, or another tool in a tapping cycle. */
export const tapInWrongCycle: Rule = {
  code: 'tap-in-wrong-cycle',
  title: 'Tool and cycle do not belong together',
  family: 'cutting',
  severity: 'error',
  means:
    'A tap needs a spindle that turns back at the bottom: in a drilling cycle it is torn out. A drill in a tapping cycle is screwed in at a lead that it cannot cut.',
  cure: 'Write the tapping cycle for the tap, or correct the tool number.',
  fine_when: 'The tap reverses by itself in its holder.',
  source: 'NISTIR 6556 section 3.5.16 (G84), from memory',
  needs: [],
  program(program, report) {
    if (program.kind !== 'mill') return;
    for (const placed of firstOfEachTool(program, h => h.hole.cycle && h.kind !== undefined)) {
      const code = holeCode(placed.hole);
      const kind = program.tool(placed.tool)?.kind;
      if (!kind || kind.value === 'other') continue;
      const tap = kind.value === 'tap';
      if (
        tap === TAPPING.has(code) ||
        (!tap && !['drill', 'spot-drill', 'center-drill', 'reamer'].includes(kind.value))
      )
        continue;
      if (tap && ![73, 81, 82, 83, 85, 86, 89].includes(code)) continue;
      report({
        at: program.blockPlace(placed.hole.line),
        severity: isConfirmed(kind.origin) ? 'error' : 'warning',
        message: tap
          ? `Tears the thread out: T${placed.tool} is a tap and runs in G${code}, where the spindle does not turn back. Write G84.`
          : `Breaks the tool: T${placed.tool} is a ${kind.value.replace('-', ' ')} and runs in the tapping cycle G${code}. Check cycle and tool.`,
      });
    }
  },
  flagged: [
    {
      name: 'G81 with a tap',
      program: tapped('-20.', 'G81 Z-14. R5. F500.\n^^^^^^^^^^^^^^^^^^^\n'),
      sheet: tapSheet(6.8),
    },
    {
      name: 'G84 with a drill',
      program: tapped('-20.', 'G84 Z-14. R5. F500.\n^^^^^^^^^^^^^^^^^^^\n'),
      sheet: tapSheet(6.8).replace('"tap"', '"drill"'),
    },
  ],
  silent: [
    { name: 'G84 with a tap', program: tapped('-20.', 'G84 Z-14. R5. F500.\n'), sheet: tapSheet(6.8) },
    {
      name: 'the tool is not known',
      program: tapped('-20.', 'G81 Z-14. R5. F500.\n'),
      options: { dialect: 'iso6983', kind: 'mill' },
    },
  ],
};
