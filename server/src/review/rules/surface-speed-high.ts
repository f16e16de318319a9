import type { Rule } from '../rule.ts';
import { BRACKET_SHEET } from './sample-sheets.ts';
import { furthestOutside } from './window-rule.ts';
import { shown, toolName } from './words.ts';

/** The edge runs faster than its window. */
export const surfaceSpeedHigh: Rule = {
  code: 'surface-speed-high',
  title: 'Surface speed over its window',
  family: 'cutting',
  severity: 'information',
  means:
    'The edge runs faster than the window of this tool in this material: it burns, squeals and wears within minutes instead of an hour.',
  cure: 'Lower S, and F with it so that the chip stays the same.',
  fine_when: 'The tool maker gives a higher speed: write it in the setup sheet.',
  source: 'the window named in the message',
  needs: ['tool.kind', 'tool.diameter', 'material'],
  tool(use, program, report) {
    const out = furthestOutside(use, program, 'surface_speed_m_min', 'above');
    if (!out) return;
    const value = shown(program, 'surface_speed_m_min', out.value);
    const high = shown(program, 'surface_speed_m_min', out.range.high);
    const line = program.lineOfWord('S', out.part.first_cut_line);
    report({
      at: program.wordPlace(line >= 0 ? line : out.part.first_cut_line, 'S'),
      severity: out.severity,
      message:
        out.severity === 'warning'
          ? `Likely burns the edge: ${toolName(use)} runs at ${value}, its window ends at ${high}. Lower S, and F with it.`
          : `${toolName(use)} runs at ${value}, a little over its window, which ends at ${high}.`,
      source: out.range.source,
    });
  },
  flagged: [
    {
      name: 'a digit too many',
      program: 'G20 G17 G90 G94\nT1 M6\nS80000 M3\n^^^^^^\nG0 X0 Y0 Z.1\nG1 X4. F900.\n',
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
      name: 'material not known',
      program: 'G20 G17 G90 G94\nT1 M6 (1/2 END MILL 3 FLUTE)\nS80000 M3\nG0 X0 Y0 Z.1\nG1 X4. F100.\n',
    },
  ],
};
