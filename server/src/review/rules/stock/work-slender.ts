import { isAbsent } from '../../../cutting/result.ts';
import { workSupport } from '../../../cutting/slender.ts';
import { firstCut } from '../../lookup.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import { statedBar } from '../../stated-bar.ts';
import { length } from './places.ts';
import { LATHE_HEAD, latheSheet, TURNING_TOOL } from './sample-sheets.ts';

/** A centre or a steady that the note on the workholding speaks of. */
const SUPPORT = /cent(re|er)|tail\s*stock|steady|rest/i;
/** Over this the bar whips, and is not only out of size. */
const FAR = 6;

function isSupported(program: Program): boolean {
  return SUPPORT.test(program.sheet?.workholding?.note?.value ?? '');
}

const PROGRAM = `${LATHE_HEAD}G0 X48. Z5.\nG1 Z-20. F0.2\n^^^^^^^^^^^^^\nG0 X60.\nZ5.\n`;
const CLEAN = PROGRAM.replace('\n^', '');
const sheet = (workholding?: Record<string, unknown>) =>
  latheSheet(TURNING_TOOL, {
    ...(workholding ? { workholding } : {}),
    workpiece: { stock: { shape: 'bar', diameter: 50, length: 300, face: 1 } },
  });

/** Work that stands far out of the chuck for its diameter. */
export const workSlender: Rule = {
  code: 'work-slender',
  title: 'Slender work without support',
  family: 'cutting',
  severity: 'information',
  means:
    'The bar stands out far for its diameter: it bends away from the tool, chatters and comes out thicker in the middle or at the end.',
  cure: 'Use a live centre or a steady rest, clamp shorter, or take light cuts.',
  fine_when: 'A centre or a steady holds it: say so in the note on the workholding.',
  source: 'length over diameter to 3.5 in the chuck alone: common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'lathe') return;
    const bar = statedBar(program);
    const overhang = program.sheet?.workholding?.overhang_mm?.value;
    if (!bar || overhang === undefined || isSupported(program)) return;
    const diameter = 2 * bar.radius_mm;
    const support = workSupport({ length_mm: overhang, diameter_mm: diameter });
    const use = program.uses.find(each => each.cuts);
    if (isAbsent(support) || support === 'chuck only' || !use) return;
    const first = firstCut(use);
    const ratio = overhang / diameter;
    report({
      at: program.blockPlace(first?.first_cut_line ?? use.first_line),
      ...(ratio > FAR ? { severity: 'warning' as const } : {}),
      message: `${ratio > FAR ? 'May whip or climb out of the chuck' : 'Likely chatters or comes out tapered'}: the bar stands out ${length(program, overhang)}, ${ratio.toFixed(1)} times its diameter, with no centre or steady stated. Support it, or clamp shorter.`,
    });
  },
  flagged: [{ name: 'five times its diameter', program: PROGRAM, sheet: sheet({ overhang: 250 }) }],
  silent: [
    { name: 'twice its diameter', program: CLEAN, sheet: sheet({ overhang: 100 }) },
    {
      name: 'a live centre holds it',
      program: CLEAN,
      sheet: sheet({ overhang: 250, note: 'chuck and live centre' }),
    },
    { name: 'overhang not known', program: CLEAN, sheet: sheet() },
  ],
};
