/** Share of air that `review --facts` tells of turned lines, worked out by hand: a bar of 50 mm, its face at Z0. Rapids do not count. */
import assert from 'node:assert/strict';
import { factsJson } from '../../../server/src/report/json.ts';
import { reviewText } from './check.ts';
import { BAR, BAR_HEAD } from './cut-sheets.ts';

type Tool = Record<string, unknown>;

const SHARP = { kind: 'turn', nose_radius: 0, edge_angle_deg: 90, point_angle_deg: 55 };
const NOSED = { kind: 'turn', nose_radius: 0.4, edge_angle_deg: 95, point_angle_deg: 80 };
const GROOVE = { kind: 'groove', width: 3 };
const DRILL = { kind: 'drill', diameter: 10, point_angle_deg: 180, teeth: 2 };
const THREAD = { kind: 'thread-turn', point_angle_deg: 60, nose_radius: 0.1 };
/** How far a flank of 60 degrees reaches before the point at a depth. */
const flank = (depth_mm: number) => depth_mm * Math.tan(Math.PI / 6);

/** The line that is asked about begins with `>`. */
const cases: [name: string, tool: Tool, moves: string, air: number, way: number][] = [
  ['a straight pass from 2 before the face', SHARP, 'G0 X44. Z2.\n>G1 Z-30. F0.2\n', 2, 32],
  ['out along the shoulder that was cut', SHARP, 'G0 X44. Z2.\nG1 Z-30. F0.2\n>X54.\n', 5, 5],
  ['facing from 2 outside', NOSED, 'G0 X54. Z-1.\n>G1 X20. F0.2\n', 2, 17],
  ['a groove from 2 outside', GROOVE, 'G0 X54. Z-40.\n>G1 X40. F0.1\n', 2, 7],
  ['drilling from 5 before the face', DRILL, 'G0 X0 Z5.\n>G1 Z-20. F0.1\n', 5, 25],
  ['the drill goes out at feed', DRILL, 'G0 X0 Z5.\nG1 Z-20. F0.1\n>Z5. F1.\n', 25, 25],
  [
    'a peck by hand: from 1 over the ground',
    DRILL,
    'G0 X0 Z2.\nG1 Z-5. F0.1\nG0 Z2.\nZ-4.\n>G1 Z-10.\n',
    1,
    6,
  ],
  // in at the left of the bar's end: 30 along, then 4 out over the shoulder that it has just cut
  ['G90, first pass', SHARP, 'G0 X54. Z2.\n>G90 X46. Z-28. F0.2\n', 6, 34],
  ['G90, second pass', SHARP, 'G0 X54. Z2.\nG90 X46. Z-28. F0.2\n>X42.\n', 8, 36],
  // 17 across, 3 out: the trailing edge, 5 degrees proud, has left a wedge, off when the nose's lowest place, 0.4 behind the tip, is at the face
  ['G94, first pass', NOSED, 'G0 X54. Z2.\n>G94 X20. Z-1. F0.2\n', 2 + 3 - 0.6, 20],
  // two passes of 30; out over the shoulder 4, which is the pass along the finished shape
  [
    'G71 to one diameter',
    SHARP,
    'G0 X50. Z2.\nG71 U2. R0.5\n>G71 P10 Q20 U0. W0. F0.2\nN10 G0 X42.\nG1 Z-28. F0.1\nN20 X50.\n',
    2 + 2 + 4,
    64,
  ],
  // two passes of 17, 2 of each before the bar; then 2 out along the diameter, with the slope that the trailing edge left on it
  [
    'G72 to one face',
    SHARP,
    'G0 X54. Z0.\nG72 W1. R0.5\n>G72 P10 Q20 U0. W0. F0.2\nN10 G0 Z-2.\nG1 X20. F0.1\nN20 Z0.\n',
    4,
    36,
  ],
  // from 2 before the face; after each of four pecks down again to 0.254 over the ground
  ['G83 in pecks of 5', DRILL, 'G0 X0 Z5.\n>G83 Z-20. R-3. Q5000 F0.1\nG80\n', 2 + 4 * 0.254, 22 + 4 * 0.254],
  // 2 to the bar, then after each of three pecks 0.5 back
  ['G75 in pecks of 2', GROOVE, 'G0 X54. Z-10.\nG75 R0.5\n>G75 X40. P2000 F0.1\n', 2 + 3 * 0.5, 7 + 3 * 0.5],
  ['G92, first pass', THREAD, 'G0 X54. Z5.\n>G92 X49.2 Z-20. F2.\n', 5 - flank(0.4), 25],
  ['G92, second pass', THREAD, 'G0 X54. Z5.\nG92 X49.2 Z-20. F2.\n>X48.6\n', 5 - flank(0.7), 25],
  ['G92, spring pass', THREAD, 'G0 X54. Z5.\nG92 X49.2 Z-20. F2.\n>X49.2\n', 25, 25],
  ['G32', THREAD, 'G0 X49.2 Z3.\n>G32 Z-20. F2.\n', 3 - flank(0.4), 23],
];

function airOf(tool: Tool, moves: string): number | undefined {
  const lines = (BAR_HEAD + moves).split('\n');
  const line = lines.findIndex(text => text.startsWith('>'));
  const program = lines.map(text => text.replace('>', '')).join('\n');
  const row = factsJson(reviewText(program, { sheet: JSON.stringify({ ...BAR, tools: { 1: tool } }) }), line);
  return row?.air_share as number | undefined;
}

describe('share of air of turned lines', () => {
  for (const [name, tool, moves, air, way] of cases)
    it(name, () => {
      const share = airOf(tool, moves);
      assert.ok(share !== undefined, 'no share of air');
      assert.ok(Math.abs(share - air / way) < 0.0005, `${share * way} of ${way} mm, exact ${air}`);
    });

  // the edge leans 5 degrees over the shoulder: its wedge comes off on the way out, which the bar does not hold
  it('is left out where an edge past 90 degrees goes out along its shoulder', () => {
    assert.equal(airOf(NOSED, 'G0 X44. Z2.\nG1 Z-30. F0.2\n>X54.\n'), undefined);
    assert.equal(airOf(NOSED, 'G0 X44. Z2.\nG1 Z-30. F0.2\nG0 Z-29.\n>G1 X54.\n'), 1);
    assert.equal(airOf(NOSED, 'G0 X44. Z2.\nG1 Z-30. F0.2\n>X54. Z-29.\n'), 1);
  });

  it('is left out where the edge that faces is not known', () => {
    assert.equal(
      airOf({ kind: 'turn', nose_radius: 0, edge_angle_deg: 90 }, 'G0 X54. Z-1.\n>G1 X20. F0.2\n'),
      undefined,
    );
  });
});
