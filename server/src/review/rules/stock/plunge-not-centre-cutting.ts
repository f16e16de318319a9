import type { Seen } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock, watchPlaces } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Less than this is touching off, mm. */
const LEAST_MM = 0.2;

const plunges = watchPlaces(cannotPlunge, plungeDepth, () => ({}));

/** Face and slot mills never cut at their centre; an end mill only where the sheet says that it does not. */
function cannotPlunge({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  if (kind === 'face-mill' || kind === 'slot-mill') return tool?.center_cutting?.value !== true;
  const mills = kind === 'end-mill' || kind === 'bull-mill';
  return mills && tool?.center_cutting?.value === false;
}

function plungeDepth({ mill, rapid, trusted, down_mm, level_mm }: Seen): number {
  if (rapid || !trusted || !mill || !(down_mm > 2 * level_mm)) return 0;
  return mill.centre_in_metal > 0 && mill.axial_depth_mm > LEAST_MM ? mill.axial_depth_mm : 0;
}

/** Straight down into solid metal with a tool that has no edge at its centre. */
export const plungeNotCentreCutting: Rule = {
  code: 'plunge-not-centre-cutting',
  title: 'Plunge with a tool that does not cut at its centre',
  family: 'geometry',
  severity: 'error',
  means:
    'The tool goes straight down into solid metal and has no edge at its centre: a core stands up under it, it stalls, burns and breaks.',
  cure: 'Ramp or helix in, start in a drilled hole or beside the part, or take a tool that cuts to its centre.',
  fine_when:
    'The tool does cut at its centre: write center_cutting in the setup sheet; or a hole was made before.',
  source: 'common practice, no source',
  needs: ['stock', 'tool.kind', 'tool.diameter'],
  applies: cannotPlunge,
  tool(use, program, report) {
    for (const place of plunges.of(program, use) ?? [])
      report({
        at: program.blockPlace(place.line),
        message: `Stalls on a core: ${toolName(use)} has no edge at its centre and goes ${length(program, place.weight)} straight down into solid metal. Ramp in, or start in a hole.${assumedWords(program)}`,
        ...onAssumedStock(program),
      });
  },
  flagged: [
    {
      name: 'an end mill that is stated not to cut at its centre',
      program: `${MILL_HEAD}G0 X20. Y20. Z5.\nG1 Z-3. F100.\n^^^^^^^^^^^^^\nX30. F300.\n`,
      sheet: millSheet({ ...END_MILL_10, center_cutting: false }),
    },
  ],
  silent: [
    {
      name: 'beside the block',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nG1 Z-3. F100.\nX30. F300.\n`,
      sheet: millSheet({ ...END_MILL_10, center_cutting: false }),
    },
    {
      name: 'not known whether it cuts at its centre',
      program: `${MILL_HEAD}G0 X20. Y20. Z5.\nG1 Z-3. F100.\nX30. F300.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'down a helix that clears its own centre',
      program: `${MILL_HEAD}G0 X14. Y20. Z5.\nG1 Z0. F100.\nG3 X14. Y20. Z-1. I6. J0. F200.\nG3 X14. Y20. I6. J0.\n`,
      sheet: millSheet({ ...END_MILL_10, center_cutting: false }),
    },
  ],
};
