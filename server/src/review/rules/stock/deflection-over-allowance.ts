import type { Seen } from '../../cuts/step-scan.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { shown, toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** A pass narrower than this share of the diameter finishes a wall. */
const FINISH_SHARE = 0.06;
/** Deflection that a finished wall bears without a stated tolerance, mm (common practice, no source: 0.005 to 0.01; only clear cases are said). */
const USUAL_MM = 0.02;

interface Bent {
  line: number;
  deflection_mm: number;
  width_mm: number;
  length_mm: number;
}

const passes = watchSteps<Bent | undefined>(use => {
  if (!applies(use)) return undefined;
  const diameter = use.tool?.diameter_mm?.value ?? Number.NaN;
  let found: Bent | undefined;
  return {
    see(step) {
      if (!isFinishing(step, diameter)) return;
      const deflection_mm = step.loads.deflection_mm;
      if (!(deflection_mm > USUAL_MM) || (found && deflection_mm <= found.deflection_mm)) return;
      const { line, mill } = step;
      found = { line, deflection_mm, width_mm: mill?.radial_width_mm ?? 0, length_mm: step.level_mm };
    },
    result: () => found,
  };
});

function isFinishing({ mill, trusted, cuts, level_mm, down_mm }: Seen, diameter: number): boolean {
  if (!cuts || !trusted || !mill || down_mm > 0.001 || level_mm < diameter / 2) return false;
  return mill.radial_width_mm < FINISH_SHARE * diameter && mill.axial_depth_mm > mill.radial_width_mm;
}

function applies({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  return kind === 'end-mill' || kind === 'bull-mill';
}

/** A finishing tool bends by more than the wall bears. */
export const deflectionOverAllowance: Rule = {
  code: 'deflection-over-allowance',
  title: 'Finishing tool bends too far',
  family: 'cutting',
  severity: 'information',
  means:
    'On a finishing pass the tool bends away from the wall, or into it, by more than a finished wall bears: the wall is out of size and not upright.',
  cure: 'Shorten the stickout, leave less for the finish, finish in two depths, or use a thicker tool.',
  fine_when: 'The wall has a wide tolerance.',
  source: 'beam theory at 0.8 of the diameter (Kops and Vo 1990); allowance by common practice, no source',
  needs: [
    'stock',
    'material',
    'tool.kind',
    'tool.diameter',
    'tool.teeth',
    'tool.stickout',
    'tool.flute_length',
    'tool.substrate',
  ],
  applies,
  tool(use, program, report) {
    const pass = passes.of(program, use);
    if (!pass) return;
    const far = pass.deflection_mm > pass.width_mm;
    report({
      at: program.blockPlace(pass.line),
      ...(far ? { severity: 'warning' as const } : {}),
      message: `Wall likely out of size: ${toolName(use)} bends about ${shown(program, 'deflection_mm', pass.deflection_mm)} on this finishing pass (helix counted), which takes ${length(program, pass.width_mm)}. Shorten the stickout, or finish in two depths.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a long thin tool over the whole height of a wall',
      program: `${MILL_HEAD}G0 X-10. Y-2.8 Z5.\nZ-18.\nG1 X50. F600.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, diameter: 6, stickout: 36, flute_length: 30 }),
    },
  ],
  silent: [
    {
      name: 'the same pass with a short thick tool',
      program: `${MILL_HEAD}G0 X-10. Y-4.8 Z5.\nZ-18.\nG1 X50. F600.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a roughing pass: what it leaves is cut later',
      program: `${MILL_HEAD}G0 X-10. Y-1. Z5.\nZ-18.\nG1 X50. F600.\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, diameter: 6, stickout: 36, flute_length: 30 }),
    },
  ],
};
