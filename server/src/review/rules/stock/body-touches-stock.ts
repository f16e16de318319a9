import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { length, placeWords, watchPlaces, worst } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Contact under this is left to rounding, mm. */
const SLACK_MM = 0.3;

const touches = watchPlaces(
  applies,
  ({ mill, trusted }) => (trusted && mill && mill.body_contact_mm > SLACK_MM ? mill.body_contact_mm : 0),
  ({ step, program, use }) => ({ holder: reachesHolder(step, program, use) }),
);

type Watched = Parameters<Parameters<typeof watchPlaces>[1]>[0];

function reachesHolder(step: Watched['step'], program: Watched['program'], use: ToolUse): boolean {
  const { cuts } = program;
  const stickout = use.tool?.stickout_mm?.value;
  const top = cuts?.kind === 'mill' ? cuts.stockTop(step) : undefined;
  return (
    use.tool?.holder_diameter_mm !== undefined &&
    stickout !== undefined &&
    top !== undefined &&
    Math.min(step.z, step.z0) + stickout < top
  );
}

function applies({ tool }: ToolUse, program: Program): boolean {
  if (program.kind !== 'mill') return false;
  return tool?.flute_length_mm !== undefined || tool?.holder_diameter_mm !== undefined;
}

/** Shank or holder runs into metal. */
export const bodyTouchesStock: Rule = {
  code: 'body-touches-stock',
  title: 'Shank or holder touches the part',
  family: 'geometry',
  severity: 'error',
  means:
    'Not the edges but the shank or the holder meets metal: it rubs, bends the tool, scraps the part or stops the machine.',
  cure: 'Let the tool stand out further, take a longer or necked one, or cut the metal beside it first.',
  fine_when: 'Stickout or holder in the setup sheet differ from the real ones: correct the sheet.',
  source: 'stock and tool of the setup sheet, cut move by move',
  needs: ['stock', 'tool.kind', 'tool.diameter'],
  applies,
  tool(use, program, report) {
    const place = worst(touches.of(program, use));
    if (!place || program.cuts?.assumed) return;
    const what = place.holder ? 'Holder' : 'Shank';
    report({
      at: program.blockPlace(place.line),
      message: `${what} hits the part: the ${what.toLowerCase()} of ${toolName(use)} stands ${length(program, place.weight)} deep in metal at ${placeWords(program, place.at)}. Let the tool stand out further, or cut there first.`,
    });
  },
  flagged: [
    {
      name: 'a wide holder in a narrow slot',
      program: `${MILL_HEAD}G0 X-30. Y20. Z5.\nZ-9.\nG1 X70. F300.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet({ kind: 'end-mill', diameter: 10, teeth: 4, stickout: 8, holder_diameter: 30 }),
    },
  ],
  silent: [
    {
      name: 'the holder stays above',
      program: `${MILL_HEAD}G0 X-30. Y20. Z5.\nZ-7.\nG1 X70. F300.\nG0 Z5.\n`,
      sheet: millSheet({ kind: 'end-mill', diameter: 10, teeth: 4, stickout: 8, holder_diameter: 30 }),
    },
    {
      name: 'a necked shank in a deep slot',
      program: `${MILL_HEAD}G0 X-30. Y20. Z5.\nZ-9.\nG1 X70. F300.\nG0 X-30.\nZ-15.\nG1 X70.\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, flute_length: 10, shank_diameter: 9 }),
    },
  ],
};
