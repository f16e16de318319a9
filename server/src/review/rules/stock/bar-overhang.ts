import { boringBarOverhang } from '../../../cutting/boring.ts';
import { isAbsent } from '../../../cutting/result.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { length } from './places.ts';
import { LATHE_HEAD, latheSheet } from './sample-sheets.ts';

function applies({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  return (kind === 'bore-bar' || kind === 'bore') && tool?.shank_diameter_mm !== undefined;
}

const BAR = { kind: 'bore-bar', nose_radius: 0.4, edge_angle_deg: 95, shank_diameter: 12 };
const PROGRAM = `${LATHE_HEAD}G0 X24. Z5.\nG1 Z-30. F0.1\nG0 X20.\nZ5.\n`;
const sheet = (stickout?: number) =>
  latheSheet(
    { ...BAR, ...(stickout ? { stickout } : {}) },
    { workpiece: { stock: { shape: 'bar', diameter: 50, bore: 20, length: 60, face: 1 } } },
  );

/** Over twice the usual overhang a bar hardly ever cuts quietly. */
const FAR = 1.6;

/** A boring bar that stands out further than a steel bar bears. */
export const barOverhang: Rule = {
  code: 'bar-overhang',
  title: 'Boring bar stands out too far',
  family: 'cutting',
  severity: 'information',
  means:
    'A steel bar that stands out more than four times its diameter bends and chatters: bores get small, tapered and rough.',
  cure: 'Shorten the overhang, take a thicker bar, or one of carbide or with a damper.',
  fine_when: 'The bar is of carbide (to 6 times) or damped (to 10).',
  source:
    'overhang 4 diameters for steel, 6 for carbide, 7 to 10 damped: common practice, seen in two guides',
  needs: ['tool.kind', 'tool.stickout'],
  applies,
  tool(use, program, report) {
    const diameter_mm = use.tool?.shank_diameter_mm?.value;
    const stickout = use.tool?.stickout_mm?.value;
    const limit = boringBarOverhang({ diameter_mm, kind: 'steel' });
    if (isAbsent(limit) || stickout === undefined || !diameter_mm || stickout <= limit.value) return;
    const far = stickout > limit.value * FAR;
    report({
      at: program.blockPlace(use.change_line),
      ...(far ? { severity: 'warning' as const } : {}),
      message: `${far ? 'Likely chatters' : 'May chatter'}: the bar of ${toolName(use)} stands out ${length(program, stickout)}, ${(stickout / diameter_mm).toFixed(1)} times its diameter; a steel bar bears 4 times. Shorten it, or take a stiffer one.`,
    });
  },
  flagged: [
    {
      name: 'seven times its diameter',
      program: PROGRAM.replace('T0101\n', 'T0101\n^^^^^\n'),
      sheet: sheet(84),
    },
    {
      name: 'five times: worth knowing',
      program: PROGRAM.replace('T0101\n', 'T0101\n^^^^^\n'),
      sheet: sheet(60),
    },
  ],
  silent: [
    { name: 'three times', program: PROGRAM, sheet: sheet(36) },
    { name: 'overhang not known', program: PROGRAM, sheet: sheet() },
  ],
};
