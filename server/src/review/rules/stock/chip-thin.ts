import type { Rule } from '../../rule.ts';
import { shown, toolName } from '../words.ts';
import { assumedWords, onAssumedStock } from './places.ts';
import { PASSES_SHEET, passes } from './sample-sheets.ts';
import { hasChip, neededChip, thinPasses } from './thin-passes.ts';

/** Thinner than the edge is round, and still cutting. */
export const chipThin: Rule = {
  code: 'chip-thin',
  title: 'Chip thinner than the edge is round',
  family: 'cutting',
  severity: 'information',
  means:
    'The edge still cuts, but the chip is thinner than the rounding of the edge: more force and heat for each bit of metal, and shorter life.',
  cure: 'Where the finish allows, leave a little more or feed a little faster.',
  fine_when: 'A finishing pass that the drawing needs.',
  source: 'chip under the edge radius: force for each area rises steeply (common practice, no source)',
  // an unknown edge radius is said once, by the rule on rubbing
  needs: ['stock', 'tool.kind'],
  applies: hasChip,
  tool(use, program, report) {
    const found = thinPasses.of(program, use);
    const pass = found?.thin;
    if (!found || !pass || found.rubs || found.may_rub) return;
    const { edge } = neededChip(use, program);
    report({
      at: program.blockPlace(pass.line),
      message: `Cuts, with much rubbing: the thickest chip of ${toolName(use)} is ${shown(program, 'chip_thickness_mm', pass.chip_thickness_mm)}, its edge is rounded to ${shown(program, 'chip_thickness_mm', edge)}.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [{ name: 'a pass 0.3 mm wide', program: passes(0.3, '^^^^^^^^^^\n'), sheet: PASSES_SHEET }],
  silent: [
    { name: 'a pass 2 mm wide', program: passes(2), sheet: PASSES_SHEET },
    { name: 'it rubs: said once', program: passes(0.02), sheet: PASSES_SHEET },
  ],
};
