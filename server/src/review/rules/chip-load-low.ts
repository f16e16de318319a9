import { RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { feedFixes } from './feed-fix.ts';
import { BRACKET_SHEET } from './sample-sheets.ts';
import { feedQuantity, furthestOutside, hasFeedWindow } from './window-rule.ts';
import { shown, toolName } from './words.ts';

/** The feed a tooth gets is under its window. */
export const chipLoadLow: Rule = {
  code: 'chip-load-low',
  title: 'Chip load under its window',
  family: 'cutting',
  severity: 'information',
  means:
    'Each tooth takes less than the window of this tool in this material. Far under it the edge rubs: it wears, heats the part and work-hardens what does.',
  cure: 'Raise F, or lower S; after a light radial cut the feed may be raised further.',
  fine_when: 'A finishing pass that the drawing needs, or a machine that follows no faster.',
  source: 'the window named in the message',
  needs: ['tool.kind', 'tool.diameter', 'tool.teeth', 'material'],
  applies: hasFeedWindow,
  tool(use, program, report) {
    const quantity = feedQuantity(use);
    const out = furthestOutside(use, program, quantity, 'below');
    if (!out) return;
    const factor = out.range.low / out.value;
    const value = shown(program, quantity, out.value);
    const low = shown(program, quantity, out.range.low);
    const line = program.lineOfWord('F', out.part.first_cut_line);
    report({
      at: program.wordPlace(line >= 0 ? line : out.part.first_cut_line, 'F'),
      severity: out.severity,
      message:
        out.severity === 'warning'
          ? `Likely rubs instead of cutting: ${toolName(use)} takes ${value}, less than half of the least ${low}. Raise F or lower S.`
          : `${toolName(use)} takes ${value}; its window begins at ${low}. There is room to feed faster.`,
      source: out.range.source,
      fixes: feedFixes(
        program,
        out.part,
        out.part.run[RUN.feed] * factor,
        `${low}, the low end of the window`,
        true,
      ),
    });
  },
  flagged: [
    {
      name: 'a fifth of the low end',
      program: 'G20 G17 G90 G94\nT1 M6\nS8000 M3\nG0 X0 Y0 Z.1\nG1 X4. F15.\n       ^^^^\n',
      sheet: BRACKET_SHEET,
    },
    {
      name: 'a little under: information only',
      program: 'G20 G17 G90 G94\nT1 M6\nS8000 M3\nG0 X0 Y0 Z.1\nG1 X4. F72.\n       ^^^^\n',
      sheet: BRACKET_SHEET,
    },
  ],
  silent: [
    {
      name: 'the nearest good program',
      program: 'G20 G17 G90 G94\nT1 M6\nS8000 M3\nG0 X0 Y0 Z.1\nG1 X4. F100.\n',
      sheet: BRACKET_SHEET,
    },
    {
      name: 'teeth not known',
      program: 'G20 G17 G90 G94\nT1 M6 (1/2 END MILL)\nS8000 M3\nG0 X0 Y0 Z.1\nG1 X4. F5.\n',
    },
  ],
};
