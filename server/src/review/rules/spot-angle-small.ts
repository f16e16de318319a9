import { isConfirmed } from '../../setup/known.ts';
import type { Rule } from '../rule.ts';
import { firstOfEachTool, holesBefore } from './holes-at.ts';

const sheet = (spot: number, drill: number) =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "spot-drill", "diameter": 10, "point_angle_deg": ${spot} }, "2": { "kind": "drill", "diameter": 8, "substrate": "carbide", "point_angle_deg": ${drill} } } }`;
const PROGRAM =
  'G21 G17 G40 G49 G80 G90 G94\nT1 M6\nS1500 M3\nG54 G0 X10. Y10.\nG43 H1 Z20.\nG81 Z-2. R2. F150.\nG80\nM5\nT2 M6\nS2400 M3\nG54 G0 X10. Y10.\nG43 H2 Z20.\nG81 Z-20. R2. F300.\n';

/** The spot is more pointed than the drill. */
export const spotAngleSmall: Rule = {
  code: 'spot-angle-small',
  title: 'Spot is more pointed than the drill',
  family: 'cutting',
  severity: 'information',
  means:
    "The drill's lips touch the rim of the spot before its point is led: the corners chip, with carbide above all.",
  cure: 'Spot with an angle equal to the drill or larger, or leave the spot out with a short carbide drill.',
  fine_when: 'The spot also breaks the edge of the hole, and the drill is of high-speed steel.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    for (const drill of firstOfEachTool(program, h => h.kind === 'drill')) {
      const known = program.tool(drill.tool);
      const own = known?.point_angle_deg;
      const spot = holesBefore(program, drill).find(h => h.kind === 'spot-drill');
      const spotAngle = spot && program.tool(spot.tool)?.point_angle_deg;
      if (!own || !spot || !spotAngle || spotAngle.value >= own.value) continue;
      const hard =
        known?.substrate?.value === 'carbide' && isConfirmed(own.origin) && isConfirmed(spotAngle.origin);
      report({
        at: program.blockPlace(spot.hole.line),
        severity: hard ? 'warning' : 'information',
        message: `${hard ? 'Chips the corners of the drill' : 'The lips of the drill touch first'}: T${spot.tool} spots at ${spotAngle.value} degrees, T${drill.tool} has ${own.value}. Spot at ${own.value} or more.`,
      });
    }
  },
  flagged: [
    {
      name: '90 under 140, carbide',
      program: `${PROGRAM.replace('G81 Z-2. R2. F150.\n', 'G81 Z-2. R2. F150.\n^^^^^^^^^^^^^^^^^^\n')}G80\nM30\n`,
      sheet: sheet(90, 140),
    },
  ],
  silent: [
    { name: '142 over 140', program: `${PROGRAM}G80\nM30\n`, sheet: sheet(142, 140) },
    {
      name: 'angle of the drill not known',
      program: `${PROGRAM}G80\nM30\n`,
      sheet: sheet(90, 140).replace(', "point_angle_deg": 140', ''),
    },
  ],
};
