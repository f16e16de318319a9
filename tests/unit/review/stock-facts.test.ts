/** What `review --facts` says of cuts whose engagement and volume are known exactly from geometry. */
import assert from 'node:assert/strict';
import { factsJson } from '../../../server/src/report/json.ts';
import { reviewText } from './check.ts';
import { BAR, BAR_HEAD, MILL, MILL_HEAD } from './cut-sheets.ts';

interface Exact {
  name: string;
  tool: Record<string, unknown>;
  /** Moves after the head; the line that is asked about begins with `>`. */
  moves: string;
  engagement_deg?: number;
  axial_depth_mm?: number;
  radial_width_mm?: number;
  /** Volume of the line, mm3; the removal rate over the time in metal gives it too. */
  volume_mm3?: number;
  /** Entry and exit of the arc: left wall 0, ahead 90, right wall 180. */
  arc_deg?: [entry: number, exit: number];
  climb_share?: number;
  /** Greatest and mean thickness at F300, S3000, four teeth (0.025 mm a tooth). */
  thickness_mm?: [greatest: number, mean: number];
  air_share?: number;
  /** As volume_mm3, where the removal rate changes along the line. */
  only_volume_mm3?: number;
  /** Length of the line in metal where that is not all of it, mm. */
  in_metal_mm?: number;
}

const FLAT = { kind: 'end-mill', diameter: 10, teeth: 4, substrate: 'carbide' };

/** A pass along X of a 10 mm end mill, 3 deep, `ae` mm into the block: phi = acos(1 - 2 ae/D). */
const sideStep = (ae: number, engagement_deg: number, thickness_mm: [number, number]): Exact => ({
  name: `side step of ${10 * ae} %`,
  tool: FLAT,
  moves: `G0 X-10. Y${ae - 5}\nG1 Z-3. F300.\n>X110.\n`,
  in_metal_mm: 100,
  engagement_deg,
  axial_depth_mm: 3,
  radial_width_mm: ae,
  volume_mm3: ae * 300,
  // the metal stands on the left of the feed
  arc_deg: [0, engagement_deg],
  // past 90 degrees the chip thins again
  climb_share: Math.max(0, (engagement_deg - 90) / engagement_deg),
  thickness_mm,
});

const milling: Exact[] = [
  // greatest and mean over 0.025: 0.436 and 0.222, 0.800 and 0.431, 1 and 0.637, 1 and 0.723
  sideStep(0.5, 25.84, [0.0109, 0.00554]),
  sideStep(2, 53.13, [0.02, 0.01078]),
  sideStep(5, 90, [0.025, 0.01592]),
  sideStep(8, 126.87, [0.025, 0.01807]),
  {
    name: 'side step of 20 % the other way, half of it in air',
    tool: FLAT,
    moves: 'G0 X200. Y-3.\nG1 Z-3. F300.\n>X0.\n',
    engagement_deg: 53.13,
    arc_deg: [126.87, 180],
    climb_share: 1,
    // the rim meets the block at 100 + sqrt(25 - 9)
    air_share: 0.48,
    in_metal_mm: 100,
    volume_mm3: 600,
  },
  {
    name: 'slot',
    tool: FLAT,
    moves: 'G0 X-10. Y40.\nG1 Z-3. F300.\n>X110.\n',
    engagement_deg: 180,
    axial_depth_mm: 3,
    radial_width_mm: 10,
    volume_mm3: 3000,
    in_metal_mm: 100,
    arc_deg: [0, 180],
    climb_share: 0.5,
    thickness_mm: [0.025, 0.01592],
  },
  {
    // 2 asin(80/100)
    name: 'face mill of 100 mm over 80 mm',
    tool: { kind: 'face-mill', diameter: 100, teeth: 6, substrate: 'carbide' },
    moves: 'G0 X-60. Y40.\nG1 Z-1. F300.\n>X160.\n',
    engagement_deg: 106.26,
    axial_depth_mm: 1,
    radial_width_mm: 80,
    volume_mm3: 8000,
    // from the first touch of the rim to the last: 100 + 2 (50 - 30)
    in_metal_mm: 120,
  },
  {
    // acos((R0^2 - rho^2 - r^2)/(2 rho r)), R0 = 14, rho = 10, r = 5
    name: 'inside corner of path radius 10, side step 1',
    tool: FLAT,
    moves:
      'G0 X59. Y10.\nG1 Z-3. F300.\nY40.\nG3 X50. Y49. R9.\nG1 X20.\nG0 Z5.\nX60. Y10.\nG1 Z-3.\nY40.\n>G3 X50. Y50. R10.\n',
    engagement_deg: 44.77,
    axial_depth_mm: 3,
  },
  {
    name: 'inside corner of path radius 3, side step 1',
    tool: FLAT,
    moves:
      'G0 X52. Y10.\nG1 Z-3. F300.\nY40.\nG3 X50. Y42. R2.\nG1 X20.\nG0 Z5.\nX53. Y10.\nG1 Z-3.\nY40.\n>G3 X50. Y43. R3.\n',
    engagement_deg: 60,
    axial_depth_mm: 3,
  },
  {
    // a full turn one millimetre under the last: the cylinder of radius 4 + 5, no core
    name: 'helix entry, second turn',
    tool: FLAT,
    moves: 'G0 X54. Y40.\nG1 Z0 F300.\nG3 X54. Y40. Z-1. I-4. J0.\n>G3 X54. Y40. Z-2. I-4. J0.\n',
    engagement_deg: 180,
    volume_mm3: 254.469,
  },
  {
    // pi 25 (12 - h) + pi 25 h/3, h = 5/tan 59 = 3.004
    name: 'drilling 12 deep over the tip',
    tool: { kind: 'drill', diameter: 10, teeth: 2, point_angle_deg: 118, substrate: 'hss' },
    moves: 'G0 X50. Y40.\nG1 Z0 F300.\n>Z-12.\n',
    engagement_deg: 360,
    axial_depth_mm: 12,
    volume_mm3: 785.18,
  },
  {
    // volume by numerical integration of the capsule below Z0 in steps of 0.05 mm
    name: 'ball down a slope, 4 deep over 80 mm',
    tool: { kind: 'ball-mill', diameter: 10, teeth: 2, substrate: 'carbide' },
    moves: 'G0 X10. Y40.\nG1 Z0 F300.\n>X90. Z-4.\n',
    engagement_deg: 180,
    axial_depth_mm: 4,
    volume_mm3: 1076.27,
  },
  {
    // section 10 x 3 less two corners of (1 - pi/4) 2^2: 28.283 mm2
    name: 'bull-nose slot, corner radius 2',
    tool: { kind: 'bull-mill', diameter: 10, corner_radius: 2, teeth: 4, substrate: 'carbide' },
    moves: 'G0 X-10. Y40.\nG1 Z-3. F300.\n>X110.\n',
    engagement_deg: 180,
    axial_depth_mm: 3,
    radial_width_mm: 10,
    only_volume_mm3: 2828.3,
  },
  {
    // section of a ball of radius 5 under a chord 2 over its centre: 25 acos(0.4) - 2 sqrt(21) = 19.817 mm2
    name: 'ball slot, 3 deep',
    tool: { kind: 'ball-mill', diameter: 10, teeth: 2, substrate: 'carbide' },
    moves: 'G0 X-10. Y40.\nG1 Z-3. F300.\n>X110.\n',
    engagement_deg: 180,
    axial_depth_mm: 3,
    only_volume_mm3: 1981.7,
  },
  {
    // a triangle 3 deep and 6 wide; the edge stands at 45 degrees: 0.025 sin 45 = 0.01768, mean of half a turn 2/pi of it
    name: 'groove of a chamfer mill, 3 deep',
    tool: { kind: 'chamfer-mill', diameter: 10, point_angle_deg: 90, teeth: 4, substrate: 'carbide' },
    moves: 'G0 X-10. Y40.\nG1 Z-3. F300.\n>X110.\n',
    engagement_deg: 180,
    axial_depth_mm: 3,
    only_volume_mm3: 900,
    thickness_mm: [0.01768, 0.01125],
  },
  {
    // acos(1 - 2 4/20)
    name: 'side step of 4 mm of a slot mill',
    tool: { kind: 'slot-mill', diameter: 20, width: 4, teeth: 4, substrate: 'carbide' },
    moves: 'G0 X-20. Y-6.\nG1 Z-3. F300.\n>X120.\n',
    engagement_deg: 53.13,
    axial_depth_mm: 3,
    radial_width_mm: 4,
    volume_mm3: 1200,
    in_metal_mm: 100,
    thickness_mm: [0.02, 0.01078],
  },
];

const turning: Exact[] = [
  {
    // pi (25^2 - 22^2) 60
    name: 'a cylinder',
    tool: { kind: 'turn', nose_radius: 0, edge_angle_deg: 90 },
    moves: 'G0 X44. Z0\n>G1 Z-60. F0.2\n',
    axial_depth_mm: 3,
    volume_mm3: 26577.9,
  },
  {
    name: 'a groove: the width of the blade is cut, 5 deep',
    tool: { kind: 'groove', width: 3 },
    moves: 'G0 X52. Z-40.\n>G1 X40. F0.1\n',
    axial_depth_mm: 3,
    // pi (25^2 - 20^2) 3
    only_volume_mm3: 2120.58,
  },
];

interface Row {
  engagement_deg?: number | [number, number];
  axial_depth_mm?: number | [number, number];
  radial_width_mm?: number | [number, number];
  removal_cm3_min?: number;
  power_kw?: number;
  length_mm?: number;
  time_s?: number;
  volume_mm3?: number;
  entry_deg?: number;
  exit_deg?: number;
  climb_share?: number;
  chip_thickness_mm?: number;
  mean_chip_thickness_mm?: number;
  air_share?: number;
}

function factsOf(given: Exact, head: string, sheet: object): Row {
  const lines = (head + given.moves).split('\n');
  const line = lines.findIndex(text => text.startsWith('>'));
  const program = lines.map(text => text.replace('>', '')).join('\n');
  const review = reviewText(program, { sheet: JSON.stringify({ ...sheet, tools: { 1: given.tool } }) });
  const row = factsJson(review, line);
  assert.ok(row, `no facts of line ${line + 1}`);
  return row;
}

const most = (value: number | [number, number] | undefined): number =>
  Array.isArray(value) ? value[1] : (value ?? Number.NaN);

function check(given: Exact, row: Row): void {
  const near = (what: string, value: number, exact: number | undefined, by: number) => {
    if (exact !== undefined) assert.ok(Math.abs(value - exact) <= by, `${what} ${value}, exact ${exact}`);
  };
  near('engagement', most(row.engagement_deg), given.engagement_deg, 2);
  near('depth', most(row.axial_depth_mm), given.axial_depth_mm, 0.01 * (given.axial_depth_mm ?? 0) + 0.01);
  near(
    'width',
    most(row.radial_width_mm),
    given.radial_width_mm,
    0.01 * (given.radial_width_mm ?? 0) + 0.002,
  );
  const of = (value: number | undefined): number => value ?? Number.NaN;
  near('entry', of(row.entry_deg), given.arc_deg?.[0], 2);
  near('exit', of(row.exit_deg), given.arc_deg?.[1], 2);
  near('air', of(row.air_share), given.air_share, 0.01);
  near('climb', of(row.climb_share), given.climb_share, 0.02);
  near('thickest', of(row.chip_thickness_mm), given.thickness_mm?.[0], 0.0003);
  near('mean thickness', of(row.mean_chip_thickness_mm), given.thickness_mm?.[1], 0.0003);
  const whole = given.volume_mm3 ?? given.only_volume_mm3;
  near('volume', of(row.volume_mm3), whole, 0.01 * (whole ?? 0));
  if (given.volume_mm3 === undefined) return;
  const { length_mm = 0, time_s = 0, removal_cm3_min = 0 } = row;
  const metal = (given.in_metal_mm ?? length_mm) / length_mm;
  near(
    'volume by rate',
    ((1000 * removal_cm3_min * time_s) / 60) * metal,
    given.volume_mm3,
    0.01 * given.volume_mm3,
  );
}

describe('facts of exact cuts', () => {
  for (const given of milling) it(given.name, () => check(given, factsOf(given, MILL_HEAD, MILL)));
  for (const given of turning) it(given.name, () => check(given, factsOf(given, BAR_HEAD, BAR)));

  it('boring from 20 to 24: 2 deep', () => {
    const given: Exact = {
      name: 'boring',
      tool: { kind: 'bore-bar', nose_radius: 0.4, edge_angle_deg: 95 },
      moves: 'G0 X24. Z5.\n>G1 Z-30. F0.1\n',
      axial_depth_mm: 2,
    };
    const stock = { shape: 'bar', diameter: 50, bore: 20, length: 100, face: 0 };
    check(given, factsOf(given, BAR_HEAD, { ...BAR, workpiece: { material: 'C45', stock } }));
  });

  it('a taper: half of 5 on the mean', () => {
    const row = factsOf(
      {
        name: 'taper',
        tool: { kind: 'turn', nose_radius: 0, edge_angle_deg: 90 },
        moves: 'G0 X40. Z0\n>G1 X50. Z-50. F0.2\n',
      },
      BAR_HEAD,
      BAR,
    );
    // triangle of 5 by 50 over its slope of 50.249
    assert.ok(Math.abs(most(row.axial_depth_mm) - 2.488) < 0.025, `${most(row.axial_depth_mm)}`);
  });

  it('the power of a chamfer mill is that of what it removes', () => {
    // a cm3 costs kc, and kc goes with the mean thickness: sin 45 of the end mill's, to the power of -0.14 (mc of C45): 1.0497
    const groove = (tool: Record<string, unknown>) =>
      factsOf({ name: '', tool, moves: 'G0 X-10. Y40.\nG1 Z-3. F300.\n>X110.\n' }, MILL_HEAD, MILL);
    const pointed = groove({
      kind: 'chamfer-mill',
      diameter: 10,
      point_angle_deg: 90,
      teeth: 4,
      substrate: 'carbide',
    });
    const square = groove(FLAT);
    const power = ({ power_kw = Number.NaN, removal_cm3_min = Number.NaN }: Row) =>
      power_kw / removal_cm3_min;
    assert.ok(Math.abs(power(pointed) / power(square) - 1.0497) < 0.005);
  });

  it('a sharp inside corner at a tenth of the diameter: 36.9 degrees, 121.8 at the corner', () => {
    const row = factsOf(
      {
        name: 'corner',
        tool: FLAT,
        moves: 'G0 X-10. Y35.\nG1 Z-3. F300.\nX50.\nY-10.\nG0 Z5.\nX6. Y36.\nG1 Z-3.\n>X51.\n',
      },
      MILL_HEAD,
      MILL,
    );
    assert.ok(Array.isArray(row.engagement_deg), `${row.engagement_deg}`);
    assert.ok(Math.abs(row.engagement_deg[0] - 36.9) < 2, `straight ${row.engagement_deg[0]}`);
    assert.ok(Math.abs(row.engagement_deg[1] - 121.8) < 2, `corner ${row.engagement_deg[1]}`);
  });

  it('says that it is assumed where nobody stated the stock', () => {
    const row = factsOf(
      { name: 'assumed', tool: FLAT, moves: 'G0 X0 Y0\nG1 Z-3. F300.\n>X50.\nY30.\n' },
      MILL_HEAD,
      {
        units: 'mm',
        machine: MILL.machine,
      },
    );
    assert.deepEqual((row as { assumed?: unknown }).assumed, ['stock']);
  });
});
