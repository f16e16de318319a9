import { drillThrust as thrustOf } from '../../../cutting/drilling.ts';
import { isAbsent } from '../../../cutting/result.ts';
import { forceFigures } from '../../../materials/index.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import { shown, toolName } from '../words.ts';
import { LATHE_HEAD, latheSheet } from './sample-sheets.ts';

/** Friction of smooth jaws on metal, the better end (0.1 to 0.15, from memory). */
const FRICTION = 0.15;

const thrusts = watchSteps<{ line: number; thrust_n: number } | undefined>((use, program) => {
  const kc = forceFigures(program.material);
  if (use.tool?.kind?.value !== 'drill' || isAbsent(kc)) return undefined;
  let most: { line: number; thrust_n: number } | undefined;
  return {
    see(step) {
      if (!step.cuts || !step.lathe) return;
      const thrust = thrustOf({
        kc11_n_mm2: kc.kc11_n_mm2.value,
        mc: kc.mc,
        diameter_mm: use.tool?.diameter_mm?.value,
        feed_per_rev_mm: step.edge.feed_per_rev_mm,
        point_angle_deg: use.tool?.point_angle_deg?.value ?? 118,
      });
      if (!isAbsent(thrust) && thrust.value > (most?.thrust_n ?? 0))
        most = { line: step.line, thrust_n: thrust.value };
    },
    result: () => most,
  };
});

const DRILL = { kind: 'drill', diameter: 20, teeth: 2, point_angle_deg: 118, substrate: 'hss' };
const PROGRAM = `${LATHE_HEAD}G0 X0 Z5.\nG1 Z-20. F0.3\nG0 Z5.\n`;

/** A drill on a lathe that may push the bar back through the jaws. */
export const drillThrust: Rule = {
  code: 'drill-thrust',
  title: 'Drill pushes the bar through the jaws',
  family: 'cutting',
  severity: 'warning',
  means:
    'The drill pushes harder along the axis than the friction of the jaws holds: the bar slips back and the length is lost.',
  cure: 'Put a stop behind the bar, clamp harder, drill smaller first, or feed slower.',
  fine_when: 'A stop or a shoulder takes the thrust.',
  source:
    'thrust by Kienzle with the figures of the material, up to a factor of 2 between forms; friction of 0.15',
  needs: ['stock', 'material', 'workholding.force', 'tool.kind', 'tool.diameter'],
  applies: (use, program) => use.tool?.kind?.value === 'drill' && program.kind === 'lathe',
  tool(use, program, report) {
    const most = thrusts.of(program, use);
    const force = program.sheet?.workholding?.force_n?.value;
    if (!most || force === undefined || most.thrust_n <= FRICTION * force) return;
    report({
      at: program.blockPlace(most.line),
      message: `May push the bar back: ${toolName(use)} thrusts with about ${shown(program, 'thrust_n', most.thrust_n)}, the jaws hold ${shown(program, 'force_n', FRICTION * force)} by friction. Put a stop behind the bar, or feed slower.`,
    });
  },
  flagged: [
    {
      name: 'a large drill in a light grip',
      program: PROGRAM.replace('F0.3\n', 'F0.3\n^^^^^^^^^^^^^\n'),
      sheet: latheSheet(DRILL, { workholding: { force_n: 10000 } }),
    },
  ],
  silent: [
    {
      name: 'a firm grip',
      program: PROGRAM,
      sheet: latheSheet(DRILL, { workholding: { force_n: 90000 } }),
    },
    { name: 'force of the grip not known', program: PROGRAM, sheet: latheSheet(DRILL) },
  ],
};
