import { curveAt } from '../../../setup/index.ts';
import type { Rule } from '../../rule.ts';
import { shown, toolName } from '../words.ts';
import { hasLoad, percent, watchLoad } from './passes-of-load.ts';
import { assumedWords, onAssumedStock } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

const loads = watchLoad(({ program, loads: { power_kw }, edge }) => {
  const curve = program.machine?.spindle?.power_kw;
  const limit = curve && curveAt(curve, edge.spindle_rpm);
  return limit ? { load: power_kw, limit } : undefined;
});

/** Share of the limit from which on it is worth knowing. */
const NEAR = 0.8;

/** The cut asks for more power than the spindle has. */
export const powerOver: Rule = {
  code: 'power-over',
  title: 'Power over what the spindle has',
  family: 'cutting',
  severity: 'warning',
  means:
    'The cut asks for more power than the spindle has at this speed: it slows down, stalls, and the tool breaks in the cut.',
  cure: 'Take less depth or width, or lower the feed; a sharp tool asks for less.',
  fine_when: 'The power in the setup sheet is lower than what the spindle bears for a short time.',
  source: 'Kienzle 1952 with the figures of the material, spread 20 to 25 %; power of the setup sheet',
  needs: ['stock', 'material', 'machine.power', 'tool.kind', 'tool.diameter', 'tool.teeth'],
  applies: hasLoad,
  tool(use, program, report) {
    const top = loads.of(program, use);
    if (!top || top.share < NEAR) return;
    const over = top.share > 1;
    const asked = shown(program, 'power_kw', top.load);
    const has = shown(program, 'power_kw', top.limit);
    report({
      at: program.blockPlace(top.line),
      severity: over ? 'warning' : 'information',
      message: `${over ? 'May stall the spindle' : 'Near the limit'}: ${toolName(use)} asks for about ${asked}, ${percent(top.share)} of the ${has} that the spindle has here. ${over ? 'Take less depth or width, or feed slower.' : 'A dull tool would take the rest.'}${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a deep slot with a small spindle',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-10.\nG1 X50. F900.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10, { machine: { spindle: { power_kw: 2 } } }),
    },
  ],
  silent: [
    {
      name: 'the same slot with a large spindle',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-10.\nG1 X50. F900.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10, { machine: { spindle: { power_kw: 15 } } }),
    },
    {
      name: 'power not known',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-10.\nG1 X50. F900.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
};
