/** Figures of single lines against sums made by hand; the geometry stands beside each. */
import assert from 'node:assert/strict';
import { factsJson } from '../../../server/src/report/json.ts';
import { reviewText } from './check.ts';
import { BAR, BAR_HEAD, MILL, MILL_HEAD } from './cut-sheets.ts';

type Figures = Record<string, number>;
interface Case {
  name: string;
  tool: Record<string, unknown>;
  /** Moves after the head; the line that is asked about begins with `>`. */
  moves: string;
  grip_n?: number;
  /** Expected figures; within 1 % where `within` says nothing else. */
  expect: Figures;
  within?: Figures;
  /** Least and greatest along the line, each within `within` or 1 % of the greatest. */
  spans?: Record<string, [least: number, most: number]>;
  absent?: string[];
  missing?: string[];
}

const FLAT = {
  kind: 'end-mill',
  diameter: 10,
  teeth: 4,
  substrate: 'carbide',
  stickout: 35,
  flute_length: 22,
  helix_deg: 30,
};
const BALL = { kind: 'ball-mill', diameter: 10, teeth: 2, substrate: 'carbide' };
const BULL = { kind: 'bull-mill', diameter: 10, corner_radius: 2, teeth: 2, substrate: 'carbide' };
const CHAMFER = { kind: 'chamfer-mill', diameter: 12, point_angle_deg: 90, teeth: 4, substrate: 'carbide' };
const DISC = { kind: 'slot-mill', diameter: 20, width: 4, teeth: 6, substrate: 'carbide' };
const FACE = { kind: 'face-mill', diameter: 100, teeth: 6, substrate: 'carbide' };

/** 300 mm/min at 3000 rev/min: 0.025 mm a tooth with four teeth, 0.05 with two, 0.016667 with six. */
const ANGLE = { engagement_deg: 2 };

/** C45 of the materials table: kc1.1 2220, mc 0.14; milling factor 1.2. */
const milling: Case[] = [
  {
    name: 'a slot: force, torque, power, deflection, marks and grip',
    tool: FLAT,
    moves: 'G0 X-10. Y40.\nG1 Z-3. F300.\n>X110.\n',
    grip_n: 2000,
    expect: {
      // 1.2 x 2220 x 3 x 0.025^0.86 = 7992 x 0.041901
      force_n: 334.88,
      // 4/(2 pi) x 334.88 N x 5 mm x 2.09162, the integral of sin^0.86 over half a turn: sqrt(pi) G(0.93)/G(1.43)
      torque_nm: 2.2296,
      // pi x 2.2296 x 3000 / 30000
      power_kw: 0.7004,
      // load 1.5 over the tip; I 201.06 (8 mm) to 22, 490.87 (10 mm) to 35: (3186.90/201.06 + 10186.58/490.87) x 334.88/600000
      deflection_mm: 0.020429,
      // 0.025^2 / (8 x 5) mm
      roughness_um: 0.015625,
      // two of four teeth stand in half a turn
      holding_force_n: 669.75,
      // two jaws: 2 x 0.15 x 2000 / 669.75
      holding_safety: 0.8959,
    },
  },
  {
    name: 'half the width: one tooth of four in a quarter of a turn',
    tool: FLAT,
    moves: 'G0 X-10. Y0.\nG1 Z-3. F300.\n>X110.\n',
    expect: { holding_force_n: 334.88 },
    absent: ['holding_safety'],
    missing: ['workholding: force_n'],
  },
  {
    // 5 - sqrt(25 - 0.25) = 0.025063; the volume that tells the pitch counts the way in and out of the block
    name: 'ball, passes 1 mm apart on a level floor',
    tool: BALL,
    moves: 'G0 X-10. Y40.\nG1 Z-2. F300.\nX110.\nG0 Z5.\nX-10. Y41.\nG1 Z-2.\n>X110.\n',
    // 25 acos(0.6) - 12 = 11.18238 less the overlap 9.19072 of two segments, over 100
    expect: { roughness_um: 25.06, volume_mm3: 199.17 },
    within: { roughness_um: 1.5 },
  },
  {
    // flat 6, corner 2: 2 - sqrt(4 - 1), passes 8 apart leave 2 past the flat
    name: 'bull-nose, passes 8 mm apart',
    tool: BULL,
    moves: 'G0 X-10. Y20.\nG1 Z-3. F300.\nX110.\nG0 Z5.\nX-10. Y28.\nG1 Z-3.\n>X110.\n',
    expect: {
      roughness_um: 267.95,
      // acos(1 - 16/10)
      engagement_deg: 126.87,
      // 28.28319 less what the pass before took of it: 2 + (sqrt 3 + 4 pi/3 - 2 sqrt 3) = 4.45674, over 100
      volume_mm3: 2382.64,
    },
    within: ANGLE,
  },
  {
    name: 'bull-nose in a slot',
    tool: BULL,
    moves: 'G0 X-10. Y20.\nG1 Z-3. F300.\n>X110.\n',
    // 30 less the two corners 2 x 4 (1 - pi/4), over 100; the wall above the corner: 0.05^2 / 40
    expect: { volume_mm3: 2828.32, engagement_deg: 180, roughness_um: 0.0625 },
    within: ANGLE,
  },
  {
    name: 'chamfer cone of 90 degrees along an edge',
    tool: CHAMFER,
    moves: 'G0 X-10. Y0.\nG1 Z-2. F300.\n>X110.\n',
    // half of a triangle 4 wide, 2 deep, over 100
    expect: { volume_mm3: 200, engagement_deg: 90, axial_depth_mm: 2 },
    within: ANGLE,
    absent: ['roughness_um'],
  },
  {
    name: 'chamfer cone of 90 degrees in a groove',
    tool: CHAMFER,
    moves: 'G0 X-10. Y40.\nG1 Z-3. F300.\n>X110.\n',
    // a triangle 6 wide, 3 deep, over 100
    expect: { volume_mm3: 900, engagement_deg: 180, axial_depth_mm: 3 },
    within: ANGLE,
  },
  {
    name: 'slot cutter, 2 mm into the side, at the top of the block',
    tool: DISC,
    moves: 'G0 X-20. Y-8.\nG1 Z-4. F300.\n>X120.\n',
    // acos(1 - 4/20); 2 x 4 x 100; 0.016667^2 / 80
    expect: { engagement_deg: 36.87, volume_mm3: 800, radial_width_mm: 2, roughness_um: 0.003472 },
    within: ANGLE,
  },
  {
    name: 'slot cutter under the top: no more than its width is cut',
    tool: DISC,
    moves: 'G0 X-20. Y-8.\nG1 Z-6. F300.\n>X120.\n',
    // 1.2 x 2220 x 4 x (0.016667 x 0.6)^0.86 = 10656 x 0.019055
    expect: { engagement_deg: 36.87, volume_mm3: 800, axial_depth_mm: 4, force_n: 203.05 },
    within: ANGLE,
  },
  {
    name: 'slot cutter straight down into the side: all that it passes is cut',
    tool: DISC,
    moves: 'G0 X50. Y0.\nG1 Z0. F300.\n>Z-6.\n',
    // half of a circle of 20, 6 deep: pi 100 / 2 x 6
    expect: { volume_mm3: 942.48 },
  },
  {
    name: 'face mill: the corner marks the floor',
    tool: { ...FACE, corner_radius: 0.8 },
    moves: 'G0 X-60. Y40.\nG1 Z-1. F300.\n>X160.\n',
    // 0.016667^2 / (8 x 0.8) mm
    expect: { roughness_um: 0.0434 },
  },
  {
    name: 'face mill whose corner nobody stated',
    tool: FACE,
    moves: 'G0 X-60. Y40.\nG1 Z-1. F300.\n>X160.\n',
    expect: { engagement_deg: 106.26 },
    within: ANGLE,
    absent: ['roughness_um'],
    missing: ['tool 1: corner radius', 'workholding: force_n'],
  },
];

/** From 25.84 degrees to 53.13: 0.5 and 2 mm wide. Thickness 0.025 (1 - cos phi)/phi; Fc at 0.025 sin phi 163.96 and 276.40 N. */
const WIDENING = {
  exit_deg: [25.84, 53.13],
  mean_chip_thickness_mm: [0.00554, 0.01078],
  // 32 F (22 - 1.5) / (pi 8^3) at the end of the flutes: 0.40783 F
  bending_stress_n_mm2: [66.87, 112.72],
} satisfies Case['spans'];
const WIDENING_BY = { exit_deg: 2, entry_deg: 2, mean_chip_thickness_mm: 0.0003, bending_stress_n_mm2: 3.5 };
/** A groove, and 1.5 mm more of its wall as far as X50; the last pass stands 2 mm into the wall. */
const STEPPED = 'G0 X-10. Y40.\nG1 Z-3. F300.\nX110.\nG0 Z5.\nX-10. Y41.5\nG1 Z-3.\nX50.\nG0 Z5.\n';

const changing: Case[] = [
  {
    name: 'a wall that steps from 0.5 to 2 mm along the move, on the left of the feed',
    tool: FLAT,
    moves: `${STEPPED}X15. Y42.\nG1 Z-3.\n>X90.\n`,
    expect: {},
    spans: { ...WIDENING, engagement_deg: [25.84, 53.13], entry_deg: [0, 0], climb_share: [0, 0] },
    within: { ...WIDENING_BY, engagement_deg: 2, climb_share: 0.001 },
  },
  {
    name: 'the same on the right of the feed',
    tool: FLAT,
    moves: `${STEPPED}X90. Y42.\nG1 Z-3.\n>X15.\n`,
    expect: {},
    spans: { ...WIDENING, entry_deg: [126.87, 154.16], exit_deg: [180, 180], climb_share: [1, 1] },
    within: { ...WIDENING_BY, climb_share: 0.001 },
  },
  {
    // 5 and 8 mm wide: 90 and 126.87 degrees, of which 36.87 climb
    name: 'a side step that goes past the middle of the tool',
    tool: FLAT,
    moves: 'G0 X15. Y-2.\nG1 Z-3. F300.\nX50.\nG0 Z5.\nX15. Y3.\nG1 Z-3.\n>X90.\n',
    expect: {},
    spans: { exit_deg: [90, 126.87], entry_deg: [0, 0], climb_share: [0, 0.2906] },
    within: { exit_deg: 2, entry_deg: 2, climb_share: 0.01 },
  },
  {
    name: 'a line that two calls run, 0.5 and 1.5 mm wide',
    tool: FLAT,
    moves:
      'G0 X-10. Y-4.5\nG1 Z-3. F300.\nM98 P100\nG0 X-10. Y-3.\nZ-3.\nM98 P100\nM30\nO100\n>G1 X110.\nG0 Z5.\nM99\n',
    // acos(1 - 0.1), acos(1 - 0.3); 0.025 sin: 0.010897 and 0.017854 mm, Fc 163.96 and 250.65 N
    expect: { volume_mm3: 600 },
    spans: {
      entry_deg: [0, 0],
      exit_deg: [25.84, 45.57],
      mean_chip_thickness_mm: [0.00554, 0.00943],
      bending_stress_n_mm2: [66.87, 102.22],
    },
    within: WIDENING_BY,
  },
];

const turning: Case[] = [
  {
    name: 'turning the second step of a bar of 50',
    tool: { kind: 'turn', nose_radius: 0.8, edge_angle_deg: 90 },
    moves: 'G0 X44. Z1.\nG1 Z-60. F0.2\nG0 X60.\nZ1.\nX40.\n>G1 Z-50.\n',
    grip_n: 20_000,
    // 0.2^2 / (8 x 0.8) mm, exact circle 6.274; the bar of 25 held, the cut at 22: safety x push = 0.15 x 20000
    expect: { roughness_um: 6.274, holding_product_n: 3000, holding_share: 0.88 },
  },
  {
    name: 'a turning tool without a known nose',
    tool: { kind: 'turn', edge_angle_deg: 90 },
    moves: 'G0 X44. Z1.\n>G1 Z-60. F0.2\n',
    expect: {},
    absent: ['roughness_um'],
  },
];

function check(given: Case, head: string, sheet: object): void {
  const lines = (head + given.moves).split('\n');
  const line = lines.findIndex(text => text.startsWith('>'));
  const workholding = given.grip_n ? { workholding: { force_n: given.grip_n } } : {};
  const review = reviewText(lines.map(text => text.replace('>', '')).join('\n'), {
    sheet: JSON.stringify({ ...sheet, ...workholding, tools: { 1: given.tool } }),
  });
  const row = factsJson(review, line) as Record<string, number | number[] | undefined>;
  const most = (name: string): number => {
    const value = row[name];
    return (Array.isArray(value) ? value.at(-1) : value) ?? Number.NaN;
  };
  const derived: Figures = {
    holding_product_n: most('holding_safety') * most('holding_force_n'),
    holding_share: most('holding_force_n') / most('force_n'),
  };
  for (const [name, exact] of Object.entries(given.expect)) {
    const value = name in derived ? derived[name] : most(name);
    const by = given.within?.[name] ?? 0.01 * exact;
    assert.ok(Math.abs(value - exact) <= by, `${name} ${value}, by hand ${exact}`);
  }
  for (const [name, exact] of Object.entries(given.spans ?? {})) {
    const value = [row[name]].flat() as number[];
    const by = given.within?.[name] ?? 0.01 * exact[1];
    [value[0], value.at(-1) as number].forEach((end, at) => {
      assert.ok(Math.abs(end - exact[at]) <= by, `${name} ${value}, by hand ${exact}`);
    });
  }
  for (const name of given.absent ?? []) assert.equal(row[name], undefined, name);
  if (given.missing) assert.deepEqual(row.missing, given.missing);
}

describe('figures of a line by hand', () => {
  for (const given of milling) it(given.name, () => check(given, MILL_HEAD, MILL));
  for (const given of changing) it(given.name, () => check(given, MILL_HEAD, MILL));
  for (const given of turning) it(given.name, () => check(given, BAR_HEAD, BAR));

  it('a ball that goes down a slope has no cusp that is known', () => {
    check(
      {
        name: 'slope',
        tool: BALL,
        moves: 'G0 X10. Y40.\nG1 Z0. F300.\nX90. Z-4.\nG0 Z5.\nX10. Y41.\nG1 Z0.\n>X90. Z-4.\n',
        expect: {},
        absent: ['roughness_um'],
      },
      MILL_HEAD,
      MILL,
    );
  });
});
