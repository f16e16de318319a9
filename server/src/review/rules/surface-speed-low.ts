import type { Rule } from '../rule.ts';
import { BRACKET_SHEET } from './sample-sheets.ts';
import { furthestOutside } from './window-rule.ts';
import { shown, toolName } from './words.ts';

/** The edge runs slower than its window. */
export const surfaceSpeedLow: Rule = {
  code: 'surface-speed-low',
  title: 'Surface speed under its window',
  family: 'cutting',
  severity: 'information',
  means:
    'The edge runs slower than the window of this tool in this material. It costs time; far under it a built-up edge forms and tears the surface.',
  cure: 'Raise S, and F with it so that the chip stays the same, as far as machine and holding allow.',
  fine_when: 'The spindle turns no faster, or the set-up is long and sings at the full speed.',
  source: 'the window named in the message',
  needs: ['tool.kind', 'tool.diameter', 'material'],
  tool(use, program, report) {
    const out = furthestOutside(use, program, 'surface_speed_m_min', 'below');
    if (!out) return;
    const top = program.machine?.spindle?.max_rpm?.value;
    const atTop =
      top !== undefined &&
      out.part.run.length > 0 &&
      isNearTop(out.value, out.range.low, top, use.tool?.diameter_mm?.value);
    const value = shown(program, 'surface_speed_m_min', out.value);
    const low = shown(program, 'surface_speed_m_min', out.range.low);
    const line = program.lineOfWord('S', out.part.first_cut_line);
    report({
      at: program.wordPlace(line >= 0 ? line : out.part.first_cut_line, 'S'),
      severity: out.value < out.range.low / 5 && program.sheet && !atTop ? 'warning' : 'information',
      message: atTop
        ? `${toolName(use)} runs at ${value}; its window begins at ${low}, and this spindle turns no faster.`
        : `${toolName(use)} runs at ${value}; its window begins at ${low}. A faster spindle, with F raised alike, saves time.`,
      source: out.range.source,
    });
  },
  flagged: [
    {
      name: 'a tenth of the speed',
      program: 'G20 G17 G90 G94\nT1 M6\nS800 M3\n^^^^\nG0 X0 Y0 Z.1\nG1 X4. F10.\n',
      sheet: BRACKET_SHEET,
    },
  ],
  silent: [
    {
      name: 'the nearest good program',
      program: 'G20 G17 G90 G94\nT1 M6\nS7000 M3\nG0 X0 Y0 Z.1\nG1 X4. F90.\n',
      sheet: BRACKET_SHEET,
    },
    {
      name: 'material not known',
      program: 'G20 G17 G90 G94\nT1 M6 (1/2 END MILL 3 FLUTE)\nS80 M3\nG0 X0 Y0 Z.1\nG1 X4. F1.\n',
    },
  ],
};

/** True when the low end would need a speed that the spindle does not have. */
function isNearTop(speed: number, low: number, top_rpm: number, diameter_mm: number | undefined): boolean {
  if (diameter_mm === undefined || !(speed > 0)) return false;
  return (1000 * low) / (Math.PI * diameter_mm) > top_rpm;
}
