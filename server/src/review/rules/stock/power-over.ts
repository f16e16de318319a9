import type { Rule } from '../../rule.ts';
import { overSpindle } from './over-spindle.ts';
import { hasLoad } from './passes-of-load.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

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
  tool: overSpindle('power_kw'),
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
