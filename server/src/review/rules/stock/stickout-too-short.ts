import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock, watchPlaces, worst } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

const deep = watchPlaces(
  applies,
  ({ step, mill, program, trusted, rapid, use }) => {
    const { cuts } = program;
    const { tool } = use;
    const stickout = tool?.stickout_mm?.value;
    if (rapid || !trusted || !mill || !(mill.removed_mm3 > 0) || stickout === undefined) return 0;
    if (tool?.holder_diameter_mm || cuts?.kind !== 'mill') return 0;
    const block = cuts.block(step);
    if (!block) return 0;
    const inside =
      step.x > block.low[0] && step.x < block.high[0] && step.y > block.low[1] && step.y < block.high[1];
    // the metal right at the tool must stand as high as the holder
    const contact = step.z + mill.axial_depth_mm;
    const under = contact - (step.z + stickout);
    return inside && under > 0 ? under : 0;
  },
  () => ({}),
);

function applies({ tool }: ToolUse, program: Program): boolean {
  const kind = tool?.kind?.value;
  return program.kind === 'mill' && kind !== 'probe' && kind !== 'tap';
}

/** The tool goes deeper than it stands out. */
export const stickoutTooShort: Rule = {
  code: 'stickout-too-short',
  title: 'Deeper than the tool stands out',
  family: 'geometry',
  severity: 'error',
  means:
    'The tool cuts deeper below the metal beside it than it stands out of its holder: the holder runs into the part.',
  cure: 'Let the tool stand out further, take a longer one, or do not go so deep.',
  fine_when: 'The stickout in the setup sheet is shorter than the real one: correct the sheet.',
  source: 'geometry; stickout of the setup sheet',
  needs: ['stock', 'tool.kind', 'tool.diameter', 'tool.stickout'],
  applies,
  explains: ['body-touches-stock', 'flute-too-short', 'drill-deeper-than-flutes'],
  tool(use, program, report) {
    const place = worst(deep.of(program, use));
    const stickout = use.tool?.stickout_mm?.value;
    if (!place || stickout === undefined) return;
    report({
      at: program.blockPlace(place.line),
      message: `Holder hits the part: ${toolName(use)} stands out ${length(program, stickout)} and cuts ${length(program, stickout + place.weight)} below the metal beside it. Let it stand out further.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a hole deeper than the drill stands out',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG1 Z-18. F200.\n^^^^^^^^^^^^^^\nG0 Z25.\n`,
      sheet: millSheet({ kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118, stickout: 15 }),
    },
  ],
  silent: [
    {
      name: 'stands out far enough',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG1 Z-18. F200.\nG0 Z25.\n`,
      sheet: millSheet({ kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118, stickout: 25 }),
    },
    {
      name: 'stickout not known',
      program: `${MILL_HEAD}G0 X20. Y20. Z25.\nG1 Z-18. F200.\nG0 Z25.\n`,
      sheet: millSheet({ kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118 }),
    },
    {
      name: 'a short tool at the side of the block',
      program: `${MILL_HEAD}G0 X-10. Y-6. Z5.\nZ-18.\nG1 X50. F300.\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, stickout: 15, flute_length: 14 }),
    },
  ],
};
