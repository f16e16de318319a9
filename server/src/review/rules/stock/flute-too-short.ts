import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { isMillingCutter } from '../../working.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock, watchPlaces, worst } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Depth over the flutes that is left to rounding, mm. */
const SLACK_MM = 0.2;

const deep = watchPlaces(
  applies,
  ({ mill, rapid, trusted, use }) => {
    const flute = use.tool?.flute_length_mm?.value ?? Number.POSITIVE_INFINITY;
    if (rapid || !trusted || !mill || !(mill.removed_mm3 > 0)) return 0;
    const over = mill.axial_depth_mm - flute;
    return over > SLACK_MM ? over : 0;
  },
  ({ mill }) => ({ depth_mm: mill?.axial_depth_mm ?? 0 }),
);

function applies({ tool }: ToolUse): boolean {
  return isMillingCutter(tool?.kind?.value);
}

/** The cut is deeper than the flutes are long. */
export const fluteTooShort: Rule = {
  code: 'flute-too-short',
  title: 'Cut deeper than the flutes',
  family: 'geometry',
  severity: 'warning',
  means:
    'The metal stands higher than the flutes are long: the shank rubs along the wall and chips have no way out.',
  cure: 'Take less depth, or a tool with longer flutes or a reduced neck.',
  fine_when: 'The flute length in the setup sheet is shorter than the real one: correct the sheet.',
  source: 'geometry; flute length of the setup sheet',
  needs: ['stock', 'tool.kind', 'tool.diameter', 'tool.flute_length'],
  applies,
  explains: ['body-touches-stock'],
  tool(use, program, report) {
    const place = worst(deep.of(program, use));
    const flute = use.tool?.flute_length_mm?.value;
    if (!place || flute === undefined) return;
    report({
      at: program.blockPlace(place.line),
      message: `Shank rubs in the cut: ${toolName(use)} cuts ${length(program, place.depth_mm)} deep with flutes of ${length(program, flute)}. Take less depth, or a tool with longer flutes.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'the wall stands higher than the flutes',
      program: `${MILL_HEAD}G0 X-10. Y-4. Z5.\nZ-15.\nG1 X50. F300.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, flute_length: 12 }),
    },
  ],
  silent: [
    {
      name: 'in two depths',
      program: `${MILL_HEAD}G0 X-10. Y-4. Z5.\nZ-8.\nG1 X50. F300.\nG0 Z5.\nX-10.\nZ-15.\nG1 X50.\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, flute_length: 12 }),
    },
    {
      name: 'beside the block',
      program: `${MILL_HEAD}G0 X-10. Y-6. Z5.\nZ-15.\nG1 X50. F300.\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, flute_length: 12 }),
    },
  ],
};
