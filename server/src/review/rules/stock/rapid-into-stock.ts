import type { Rule } from '../../rule.ts';
import { toolName } from '../words.ts';
import { reportHits } from './rapid-hits.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** A rapid that goes straight down into metal. */
export const rapidIntoStock: Rule = {
  code: 'rapid-into-stock',
  title: 'Rapid down into the stock',
  family: 'geometry',
  severity: 'error',
  means: 'The tool comes down at rapid into metal: it breaks, and the spindle takes the blow.',
  cure: 'End the rapid above the stock and feed from there; look for a lost point, a wrong sign or a missing clearance height.',
  fine_when: 'The stock in the setup sheet is higher than the real one: correct the sheet.',
  source: 'the stock of the setup sheet, cut move by move',
  needs: ['stock'],
  idle: true,
  explains: ['body-touches-stock', 'stickout-too-short', 'flute-too-short'],
  tool(use, program, report) {
    reportHits(
      use,
      program,
      true,
      report,
      (depth, place) =>
        `Crashes into the part: ${toolName(use)} comes down at rapid ${depth} deep into metal at ${place}. Stop above it and feed.`,
    );
  },
  flagged: [
    {
      name: 'the sign of Z turned',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nZ-2.\n^^^^\nG1 Z-3. F100.\nX50.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
  silent: [
    {
      name: 'stops above the top',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nZ2.\nG1 Z-3. F100.\nX50.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'beside the block',
      program: `${MILL_HEAD}G0 X-10. Y20. Z25.\nZ-3.\nG1 X50. F100.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'back into the hole of a peck',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG99 G83 Z-15. R2. Q4. F200.\nG80\n`,
      sheet: millSheet({ kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118, substrate: 'hss' }),
    },
  ],
};
