import type { Rule } from '../../rule.ts';
import { toolName } from '../words.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** A tool that the sheet calls dull. */
export const toolDull: Rule = {
  code: 'tool-dull',
  title: 'Tool stated as dull',
  family: 'shop',
  severity: 'information',
  means:
    'The setup sheet says that this tool is dull: it takes about a third more force, rubs where a sharp one cuts, and leaves a worse skin.',
  cure: 'Change the tool or the insert before this job, or keep it for roughing.',
  fine_when: 'It only roughs and the loads leave room.',
  source: 'force factor 1.3 to 1.5 at the end of life (Kienzle tables)',
  needs: [],
  tool(use, program, report) {
    if (use.tool?.wear?.value !== 'dull') return;
    const hardens = program.material?.character.includes('work-hardening');
    const heat = program.sheet?.workpiece?.heat_treat_after?.value === true;
    report({
      at: program.blockPlace(use.change_line),
      message: `Wears and pushes more: ${toolName(use)} is stated as dull.${hardens ? ' In this metal it hardens the skin that the next cut meets.' : ''}${heat ? ' It leaves stress that may move the part in heat treatment.' : ''} Change it before this job.`,
    });
  },
  flagged: [
    {
      name: 'a dull end mill',
      program: `G21 G17 G40 G90 G94\nT1 M6\n^^^^^\nG54 S3000 M3\nG0 X-10. Y20. Z5.\nZ-2.\nG1 X50. F300.\n`,
      sheet: millSheet({ ...END_MILL_10, wear: 'dull' }),
    },
  ],
  silent: [
    {
      name: 'a used one',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-2.\nG1 X50. F300.\n`,
      sheet: millSheet({ ...END_MILL_10, wear: 'used' }),
    },
    {
      name: 'wear not known',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nZ-2.\nG1 X50. F300.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
};
