import type { Rule } from '../../rule.ts';
import { toolName } from '../words.ts';
import { reportHits } from './rapid-hits.ts';
import { END_MILL_10, LATHE_HEAD, latheSheet, MILL_HEAD, millSheet, TURNING_TOOL } from './sample-sheets.ts';

/** A rapid that sweeps through metal. */
export const rapidThroughStock: Rule = {
  code: 'rapid-through-stock',
  title: 'Rapid through the stock',
  family: 'geometry',
  severity: 'error',
  means:
    'A rapid move passes through metal that no cut has taken away: the tool breaks, the part is thrown or the spindle is hit.',
  cure: 'Retract above the stock before moving across, or make it a feed move; check the retract height and the stock in the setup sheet.',
  fine_when: 'The stock in the setup sheet is larger than the real one: correct the sheet.',
  source: 'the stock of the setup sheet, cut move by move',
  needs: ['stock'],
  idle: true,
  explains: ['body-touches-stock', 'stickout-too-short', 'flute-too-short'],
  tool(use, program, report) {
    reportHits(
      use,
      program,
      false,
      report,
      (depth, place) =>
        `Hits the part: ${toolName(use)} moves at rapid through metal, ${depth} deep, first at ${place}. Retract first, or feed.`,
    );
  },
  flagged: [
    {
      name: 'across the block under its top',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-2.\nX20.\n^^^^\nG0 Z5.\nG1 X50. F300\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'where nothing cuts',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-2.\nX20.\n^^^^\nZ5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a forgotten retract',
      program: `${MILL_HEAD}G0 X-10. Y10. Z5.\nG1 Z-2. F200.\nX20.\nG0 Y30.\n^^^^^^^\nZ5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'lathe: into the bar at rapid',
      program: `${LATHE_HEAD}G0 X40. Z5.\nZ-10.\n^^^^^\nG0 X60.\nZ5.\nX45.\nG1 Z-20. F0.2\n`,
      sheet: latheSheet(TURNING_TOOL),
    },
  ],
  silent: [
    {
      name: 'over the top of the block, touching it',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ0.\nX50.\nZ5.\nX-10.\nG1 Z-1. F200.\nX50.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'back through the slot that was just cut',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nG1 Z-2. F200.\nX50.\nG0 X-10.\nZ5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a slot that an unknown tool may have cut',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nG1 Z-2. F200.\nX50.\nG0 Z50.\nT2 M6\nS1000 M3\nG0 X20. Y20. Z5.\nG1 Z-12. F100.\nG0 Z50.\nT1 M6\nS1000 M3\nG0 X20. Y20. Z2.\nG0 Z-12.\nG1 X30. F100.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
};
