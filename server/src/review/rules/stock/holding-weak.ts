import { holdingOf } from '../../cuts/holding-of.ts';
import type { Rule } from '../../rule.ts';
import { shown, toolName } from '../words.ts';
import { hasLoad, watchLoad } from './passes-of-load.ts';
import { assumedWords, onAssumedStock } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Safety that is asked for (1.5 to 2). */
const ASKED = 1.5;

/** Load is what the cut needs, limit what the grip bears: their ratio is one over the safety. */
const loads = watchLoad(step => {
  const { holding_force_n: load, holding_safety } = holdingOf(
    step.program,
    step.use.tool,
    step.loads.force_n,
    {
      engagement_deg: step.mill?.engagement_deg ?? 0,
      work_radius_mm: step.lathe?.outer_radius_mm ?? Number.NaN,
    },
  );
  return holding_safety > 0 ? { load, limit: load * holding_safety } : undefined;
});

/** The cut pushes harder than the grip holds. */
export const holdingWeak: Rule = {
  code: 'holding-weak',
  title: 'Cutting force against the grip',
  family: 'cutting',
  severity: 'warning',
  means:
    'The cut pushes about as hard as friction in the jaws holds, or harder: the part moves, is pulled out or thrown.',
  cure: 'Clamp harder or deeper, put a stop behind the part, or take less depth and feed.',
  fine_when: 'A stop, dowel or serrated jaw takes the force, not friction.',
  source: 'friction of 0.15 in smooth jaws, from memory; safety of 1.5 to 2 (VDI 3106)',
  needs: ['stock', 'material', 'workholding.force', 'tool.kind', 'tool.diameter', 'tool.teeth'],
  applies: hasLoad,
  tool(use, program, report) {
    const top = loads.of(program, use);
    if (!top) return;
    const safety = 1 / top.share;
    if (safety >= ASKED) return;
    const weak = safety < 1;
    report({
      at: program.blockPlace(top.line),
      severity: weak ? 'warning' : 'information',
      message: `${weak ? 'May move the part in its grip' : 'Little grip to spare'}: ${toolName(use)} pushes with about ${shown(program, 'force_n', top.load)}, the grip holds ${shown(program, 'force_n', top.limit)} by friction (${safety.toFixed(1)} times, 1.5 is asked for). Clamp harder, use a stop, or cut lighter.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a deep slot in a light grip',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-8.\nG1 X50. F900.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10, { workholding: { force_n: 2000 } }),
    },
  ],
  silent: [
    {
      name: 'the same slot in a vise that is shut tight',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-8.\nG1 X50. F900.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10, { workholding: { force_n: 30000 } }),
    },
    {
      name: 'force of the grip not known',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-8.\nG1 X50. F900.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
};
