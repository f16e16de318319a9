import { RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { feedFixes } from './feed-fix.ts';
import { BRACKET_SHEET, BUSHING_SHEET } from './sample-sheets.ts';
import { feedQuantity, furthestOutside, hasFeedWindow } from './window-rule.ts';
import { shown, toolName } from './words.ts';

/** The feed a tooth gets is over its window. */
export const chipLoadHigh: Rule = {
  code: 'chip-load-high',
  title: 'Chip load over its window',
  family: 'cutting',
  severity: 'information',
  means:
    'Each tooth takes more than the window of this tool in this material. Far over it edges chip, small tools break and the part may move in its grip.',
  cure: 'Lower F, or raise S if the surface speed allows; look for a missing decimal point.',
  fine_when: 'A light radial or axial cut thins the chip and the tool maker gives a higher feed for it.',
  source: 'the window named in the message',
  needs: ['tool.kind', 'tool.diameter', 'tool.teeth', 'material'],
  applies: hasFeedWindow,
  tool(use, program, report) {
    const quantity = feedQuantity(use);
    const out = furthestOutside(use, program, quantity, 'above');
    if (!out) return;
    const value = shown(program, quantity, out.value);
    const high = shown(program, quantity, out.range.high);
    const line = program.lineOfWord('F', out.part.first_cut_line);
    report({
      at: program.wordPlace(line >= 0 ? line : out.part.first_cut_line, 'F'),
      severity: out.severity,
      message:
        out.severity === 'warning'
          ? `May break the tool: ${toolName(use)} takes ${value}, its window ends at ${high}. Lower F, and look for a lost point.`
          : `${toolName(use)} takes ${value}, a little over its window, which ends at ${high}.`,
      source: out.range.source,
      fixes: feedFixes(
        program,
        out.part,
        (out.part.run[RUN.feed] * out.range.high) / out.value,
        `${high}, the high end of the window`,
      ),
    });
  },
  flagged: [
    {
      name: 'ten times the feed',
      program: 'G20 G17 G90 G94\nT1 M6\nS8000 M3\nG0 X0 Y0 Z.1\nG1 X4. F720.\n       ^^^^^\n',
      sheet: BRACKET_SHEET,
    },
  ],
  silent: [
    {
      name: 'the nearest good program',
      program: 'G20 G17 G90 G94\nT1 M6\nS8000 M3\nG0 X0 Y0 Z.1\nG1 X4. F120.\n',
      sheet: BRACKET_SHEET,
    },
    {
      name: 'a roughing feed inside the turning window',
      program: 'G21 G18 G40 G99\nT0101\nG50 S2500\nG96 S200 M3\nG0 X62. Z2.\nG1 Z-10. F0.25\n',
      sheet: BUSHING_SHEET,
    },
  ],
};
