import { toolBendingStress } from '../../cuts/bending-stress.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { shown, toolName } from '../words.ts';
import { assumedWords, onAssumedStock } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Bending that a tool bears again and again, and about where it breaks, N/mm2 (from memory). */
const STRENGTH: Partial<Record<string, { bears: number; breaks: number }>> = {
  carbide: { bears: 1000, breaks: 2000 },
  hss: { bears: 800, breaks: 1800 },
};

const peaks = watchSteps<{ line: number; stress: number } | undefined>(use => {
  if (!applies(use)) return undefined;
  let top: { line: number; stress: number } | undefined;
  // the force grows with depth and chip: only heavier cuts are worked out
  let heaviest = 0;
  return {
    see(step) {
      if (!step.cuts || !step.trusted || !step.mill) return;
      const weight = step.mill.axial_depth_mm * step.arc_share * step.edge.chip_load_mm;
      if (!(weight > 1.02 * heaviest)) return;
      heaviest = weight;
      const stress = toolBendingStress(step.mill, step.loads, step.use.tool);
      if (stress > (top?.stress ?? 0)) top = { line: step.line, stress };
    },
    result: () => top,
  };
});

function applies({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  const mills = kind === 'end-mill' || kind === 'ball-mill' || kind === 'bull-mill';
  return mills && STRENGTH[tool?.substrate?.value ?? ''] !== undefined;
}

/** The force of the cut bends the tool to near its strength. */
export const toolStress: Rule = {
  code: 'tool-stress',
  title: 'Tool bent near its strength',
  family: 'cutting',
  severity: 'information',
  means: 'The force of the cut bends the tool so far that it may snap, at once or after some minutes.',
  cure: 'Shorten the stickout, take less depth or feed, or a thicker tool.',
  fine_when: 'The tool has a stronger core than usual and the cut is proven.',
  source: 'beam theory at 0.8 of the diameter (Kops and Vo 1990); strengths from memory',
  needs: ['stock', 'material', 'tool.kind', 'tool.diameter', 'tool.teeth', 'tool.stickout', 'tool.substrate'],
  applies,
  tool(use, program, report) {
    const peak = peaks.of(program, use);
    const strength = STRENGTH[use.tool?.substrate?.value ?? ''];
    if (!peak || !strength || !(peak.stress > strength.bears)) return;
    const snaps = peak.stress > strength.breaks;
    report({
      at: program.blockPlace(peak.line),
      ...(snaps ? { severity: 'warning' as const } : {}),
      message: `${snaps ? 'May snap the tool' : 'Bends the tool hard'}: about ${shown(program, 'bending_stress_n_mm2', peak.stress)} in ${toolName(use)}; it bears about ${shown(program, 'bending_stress_n_mm2', strength.bears)} for long and breaks from about ${shown(program, 'bending_stress_n_mm2', strength.breaks)}. Shorten the stickout or take less.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a thin long tool at the feed of a thick one',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-5.\nG1 X50. F600.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet({ ...END_MILL_10, diameter: 4, stickout: 30, flute_length: 25 }),
    },
  ],
  silent: [
    {
      name: 'the same cut with a tool that fits it',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-5.\nG1 X50. F600.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'stickout not known',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-5.\nG1 X50. F600.\nG0 Z5.\n`,
      sheet: millSheet({ kind: 'end-mill', diameter: 4, teeth: 4, substrate: 'carbide' }),
    },
  ],
};
