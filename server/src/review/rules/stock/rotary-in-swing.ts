import { StepCursor } from '../../../rs274/index.ts';
import { KIND, RUN } from '../../../rs274/steps.ts';
import { blockAtFrame } from '../../cuts/stock-of.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import { length } from './places.ts';

/** Axes that turn about X, Y and Z: the two axes across each. */
const ACROSS = [
  [1, 2],
  [0, 2],
] as const;
const NAMES = ['A', 'B'] as const;
const MOST_STEPS = 1_000_000;

interface Swing {
  line: number;
  axis: 'A' | 'B';
  tip_mm: number;
  swing_mm: number;
}

/**
 * Rapids that turn A or B while the tip is closer to the rotary axis than the corners of the stock. Only where program zero
 * stands on the axis, as a stock that lies even about it shows.
 */
function swings(program: Program): Swing[] {
  const found: Swing[] = [];
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  const last = [Number.NaN, Number.NaN];
  for (let seen = 0; seen < MOST_STEPS && found.length < 20 && cursor.next(); seen++) {
    if (cursor.kind === KIND.home) continue;
    for (const axis of [0, 1] as const) {
      const angle = cursor.rotary(axis);
      if (Number.isNaN(angle)) continue;
      const before = last[axis];
      last[axis] = angle;
      if (cursor.kind !== KIND.rapid || !(Math.abs(angle - before) > 1e-6)) continue;
      const placed = blockAtFrame(program, cursor.runValues[RUN.frame], cursor.runValues[RUN.frame]);
      if ('why' in placed || placed.assumed) continue;
      const { low, high } = placed.stock;
      const [a, b] = ACROSS[axis];
      const even = (at: 0 | 1 | 2) => Math.abs(low[at] + high[at]) < 0.02 * (high[at] - low[at]);
      if (!even(a) || !even(b)) continue;
      const swing_mm = Math.hypot(high[a], high[b]);
      const along = axis === 0 ? cursor.x0 : cursor.y0;
      const tip_mm = cursor.z0;
      const beside = !(along > low[axis] && along < high[axis]);
      if (!beside && tip_mm < swing_mm)
        found.push({ line: cursor.line, axis: NAMES[axis], tip_mm, swing_mm });
    }
  }
  return found;
}

const SHEET = JSON.stringify({
  units: 'mm',
  machine: { kind: 'mill', dialect: 'iso6983' },
  workpiece: { material: 'C45', stock: { shape: 'block', size: [80, 40, 40], zero: [0, 20, 20] } },
  tools: { 1: { kind: 'end-mill', diameter: 10, teeth: 4 } },
});

/** The part turns while the tool stands inside the circle of its corners. */
export const rotaryInSwing: Rule = {
  code: 'rotary-in-swing',
  title: 'Part turns under the tool',
  family: 'geometry',
  severity: 'warning',
  means:
    'A rotary axis turns at rapid while the tip stands lower than the corners of the stock swing: the part is turned into the tool.',
  cure: 'Retract over the swing of the corners before the rotary move.',
  fine_when: 'The corners are cut away before, or program zero is not on the rotary axis.',
  source: 'stock of the setup sheet, program zero on the rotary axis',
  needs: ['stock'],
  program(program, report) {
    for (const { line, axis, tip_mm, swing_mm } of swings(program))
      report({
        at: program.wordPlace(line, axis),
        message: `Turns the part into the tool: ${axis} turns while the tip is at ${length(program, tip_mm)}, and the corners of the stock swing up to ${length(program, swing_mm)}. Retract first.`,
      });
  },
  flagged: [
    {
      name: 'indexed from a low clearance',
      program:
        'G21 G17 G90 G94\nT1 M6\nG54 S3000 M3\nG0 X40. Y0 Z50. A0.\nG1 Z19. F200.\nX90.\nX40.\nG0 Z22.\nG0 A90.\n   ^^^^\nG1 Z19.\nX90.\nG0 Z50.\n',
      sheet: SHEET,
    },
  ],
  silent: [
    {
      name: 'indexed from above the corners',
      program:
        'G21 G17 G90 G94\nT1 M6\nG54 S3000 M3\nG0 X40. Y0 Z50. A0.\nG1 Z19. F200.\nX90.\nX40.\nG0 Z35.\nG0 A90.\nG1 Z19.\nX90.\nG0 Z50.\n',
      sheet: SHEET,
    },
    {
      name: 'beside the stock',
      program:
        'G21 G17 G90 G94\nT1 M6\nG54 S3000 M3\nG0 X40. Y0 Z50. A0.\nG1 Z19. F200.\nX90.\nG0 A90.\nX40.\nG0 Z50.\n',
      sheet: SHEET,
    },
  ],
};
