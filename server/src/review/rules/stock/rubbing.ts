import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import { shown, toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { END_MILL_10, millSheet, PASSES_SHEET, passes } from './sample-sheets.ts';
import { hasChip, neededChip, thinPasses } from './thin-passes.ts';

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
      message: `${sure ? 'Rubs' : 'May rub'} instead of cutting: the thickest chip of ${toolName(use)} is ${thick} over ${length(program, pass.length_mm)}, this edge of ${edge} needs ${range}.${stressWords(program)} Leave more for this pass, feed faster, or take a sharper tool.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a finishing pass of 0.02 mm before heat treatment',
      program: passes(0.02, '^^^^^^^^^^\n'),
      sheet: PASSES_SHEET,
    },
  ],
  silent: [
    { name: 'the same pass 0.3 mm wide', program: passes(0.3), sheet: PASSES_SHEET },
    { name: 'the edge radius is not known', program: passes(0.02), sheet: millSheet(END_MILL_10) },
    { name: 'nothing left to cut: a spring pass', program: passes(0), sheet: PASSES_SHEET },
  ],
};

function stressWords(program: Program): string {
  return program.sheet?.workpiece?.heat_treat_after?.value === true
    ? ' Leaves stress in the skin that may move the part in heat treatment.'
    : '';
}
