import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import { shown, toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';
import { hasChip, neededChip, type ThinPass, thinPasses } from './thin-passes.ts';

const SHEET = millSheet(
  { ...END_MILL_10, edge_radius: 0.03, wear: 'used' },
  { workpiece: { heat_treat_after: true } },
);

/** A roughing pass at Y25 and a finishing pass `width` mm further, F 600 at 3000 rev/min and 4 teeth: 0.05 mm a tooth. */
const passes = (width: number, mark = '') =>
  `${MILL_HEAD}G0 X-10. Y10. Z5.\nG1 Z-4. F200.\nX50. F600.\nG0 Z5.\nX-10. Y${10 + width}\nG1 Z-4. F200.\nX50. F600.\n${mark}G0 Z5.\n`;

/** The chip is thinner than the edge can cut. */
export const rubbing: Rule = {
  code: 'rubbing',
  title: 'Rubs instead of cutting',
  family: 'cutting',
  severity: 'warning',
  means:
    'The thickest chip is thinner than this edge can cut: metal is pressed under the edge. It heats, wears the tool, work-hardens the skin and leaves stress in it that may move the part, most of all in heat treatment.',
  cure: 'Leave more metal for this pass, raise the feed, or take a sharper tool.',
  fine_when: 'A spring pass that is meant to take nothing.',
  source: 'least chip 0.14 to 0.43 of the edge radius (Cheng et al. 2018), by material',
  needs: ['stock', 'tool.kind', 'tool.edge_radius'],
  applies: hasChip,
  explains: ['chip-thin'],
  tool(use, program, report) {
    const found = thinPasses.of(program, use);
    const pass = found?.rubs ?? found?.may_rub;
    if (!found || !pass) return;
    const needed = neededChip(use, program);
    const sure = found.rubs !== undefined;
    const thick = shown(program, 'chip_thickness_mm', pass.chip_thickness_mm);
    const edge = shown(program, 'chip_thickness_mm', needed.edge);
    const range = `${shown(program, 'chip_thickness_mm', needed.low)} to ${shown(program, 'chip_thickness_mm', needed.high)}`;
    report({
      at: program.blockPlace(pass.line),
      severity: sure ? 'warning' : 'information',
      message: `${sure ? 'Rubs' : 'May rub'} instead of cutting: the thickest chip of ${toolName(use)} is ${thick} over ${length(program, pass.length_mm)}, this edge of ${edge} needs ${range}.${stressWords(program, pass)} Leave more for this pass, feed faster, or take a sharper tool.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a finishing pass of 0.02 mm before heat treatment',
      program: passes(0.02, '^^^^^^^^^\n'),
      sheet: SHEET,
    },
  ],
  silent: [
    { name: 'the same pass 0.3 mm wide', program: passes(0.3), sheet: SHEET },
    { name: 'the edge radius is not known', program: passes(0.02), sheet: millSheet(END_MILL_10) },
    { name: 'nothing left to cut: a spring pass', program: passes(0), sheet: SHEET },
  ],
};

function stressWords(program: Program, _pass: ThinPass): string {
  return program.sheet?.workpiece?.heat_treat_after?.value === true
    ? ' Leaves stress in the skin that may move the part in heat treatment.'
    : '';
}

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
  needs: ['stock', 'tool.kind', 'tool.edge_radius'],
  applies: hasChip,
  tool(use, program, report) {
    const found = thinPasses.of(program, use);
    const pass = found?.thin;
    if (!found || !pass || found.rubs || found.may_rub) return;
    const { edge } = neededChip(use, program);
    report({
      at: program.blockPlace(pass.line),
      message: `Cuts with more rubbing than it need: the thickest chip of ${toolName(use)} is ${shown(program, 'chip_thickness_mm', pass.chip_thickness_mm)}, its edge is rounded to ${shown(program, 'chip_thickness_mm', edge)}.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [{ name: 'a pass 0.3 mm wide', program: passes(0.3, '^^^^^^^^^\n'), sheet: SHEET }],
  silent: [
    { name: 'a pass 2 mm wide', program: passes(2), sheet: SHEET },
    { name: 'it rubs: said once', program: passes(0.02), sheet: SHEET },
  ],
};
