/** Cases whose volume and engagement are known exactly, at the default cell and at others. */
import assert from 'node:assert/strict';
import { type Cutter, type CutterSpec, cutter } from '../../../server/src/stock/cutter.ts';
import type { MoveFigures } from '../../../server/src/stock/figures.ts';
import { defaultCell } from '../../../server/src/stock/grid.ts';
import { createMillStock, type MillStock } from '../../../server/src/stock/mill.ts';
import type { Move, Point } from '../../../server/src/stock/moves.ts';

function tool(spec: CutterSpec): Cutter {
  const made = cutter(spec);
  if ('missing' in made) throw new Error(made.missing);
  return made;
}

const low: Point = [0, 0, -20];
const high: Point = [100, 80, 0];
const line = (from: Point, to: Point): Move => ({ kind: 'feed', from, to });

function stockOf(spec: CutterSpec, cell?: number): MillStock {
  const cell_mm = cell ?? defaultCell(low, high, [spec.diameter_mm]);
  return createMillStock({ low, high, cell_mm }, [tool(spec)]);
}

interface Exact {
  readonly name: string;
  readonly tool: CutterSpec;
  /** Cut before the move that counts. */
  readonly before?: readonly Move[];
  readonly move: Move;
  readonly removed_mm3?: number;
  readonly engagement_deg?: number;
  readonly entry_deg?: number;
  readonly exit_deg?: number;
  readonly axial_mm?: number;
  readonly radial_mm?: number;
}

const flat10: CutterSpec = { kind: 'flat', diameter_mm: 10 };
/** A pass along x beside a slot whose wall is `step` behind: left wall in metal when the pass lies above it. */
function sideStep(step: number, engagement: number, removed: number): Exact {
  const y = 30.037;
  return {
    name: `side step of ${step * 10} % of the diameter`,
    tool: flat10,
    before: [line([-10, y, -3], [110, y, -3])],
    move: line([-10, y + step, -3], [110, y + step, -3]),
    removed_mm3: removed,
    engagement_deg: engagement,
    entry_deg: 0,
    exit_deg: engagement,
    axial_mm: 3,
    radial_mm: step,
  };
}

/** Volumes by plane and solid geometry; angles acos(1 - 2 ae/D) for one side, 2 asin(ae/D) centred, and the concentric-arc form. */
const cases: readonly Exact[] = [
  sideStep(0.02, 5.13, 6),
  sideStep(0.5, 25.84, 150),
  sideStep(2, 53.13, 600),
  sideStep(5, 90, 1500),
  sideStep(8, 126.87, 2400),
  {
    name: 'slot through the block',
    tool: flat10,
    move: line([-10, 40.01, -3], [110, 40.01, -3]),
    removed_mm3: 3000,
    engagement_deg: 180,
    entry_deg: 0,
    exit_deg: 180,
    axial_mm: 3,
    radial_mm: 10,
  },
  {
    name: 'slot at 30 degrees inside the block',
    tool: flat10,
    move: line([20, 20, -3], [20 + 43.30127, 45, -3]),
    removed_mm3: 1735.619,
    engagement_deg: 180,
    axial_mm: 3,
    radial_mm: 10,
  },
  {
    name: 'face mill of 100 mm over 80 mm',
    tool: { kind: 'face', diameter_mm: 100 },
    move: line([-60, 40, -1], [160, 40, -1]),
    removed_mm3: 8000,
    engagement_deg: 106.26,
    entry_deg: 36.87,
    exit_deg: 143.13,
    axial_mm: 1,
    radial_mm: 80,
  },
  {
    name: 'inside corner, centre path radius 10, side step 1',
    tool: flat10,
    before: [
      line([59, 10, -3], [59, 40, -3]),
      { kind: 'arc', from: [59, 40, -3], to: [50, 49, -3], centre: [50, 40, -3], sweep_rad: Math.PI / 2 },
      line([50, 49, -3], [20, 49, -3]),
      line([60, 10, -3], [60, 40, -3]),
    ],
    move: { kind: 'arc', from: [60, 40, -3], to: [50, 50, -3], centre: [50, 40, -3], sweep_rad: Math.PI / 2 },
    engagement_deg: 44.77,
    exit_deg: 180,
  },
  {
    name: 'inside corner, centre path radius 3, side step 1',
    tool: flat10,
    before: [
      line([52, 10, -3], [52, 40, -3]),
      { kind: 'arc', from: [52, 40, -3], to: [50, 42, -3], centre: [50, 40, -3], sweep_rad: Math.PI / 2 },
      line([50, 42, -3], [20, 42, -3]),
      line([53, 10, -3], [53, 40, -3]),
    ],
    move: { kind: 'arc', from: [53, 40, -3], to: [50, 43, -3], centre: [50, 40, -3], sweep_rad: Math.PI / 2 },
    engagement_deg: 60,
    exit_deg: 180,
  },
  {
    name: 'drill of 118 degrees, 12 deep over the tip',
    tool: { kind: 'drill', diameter_mm: 10, point_angle_deg: 118 },
    move: line([50.1, 40.2, 5], [50.1, 40.2, -12]),
    removed_mm3: 785.18,
    engagement_deg: 360,
    axial_mm: 12,
    radial_mm: 10,
  },
  {
    name: 'plunge of a flat end mill',
    tool: flat10,
    move: line([50.3, 40.1, 2], [50.3, 40.1, -4]),
    removed_mm3: 314.159,
    engagement_deg: 360,
    axial_mm: 4,
  },
  {
    name: 'ball in a level groove 2 deep',
    tool: { kind: 'ball', diameter_mm: 10 },
    move: line([-10, 40.07, -2], [110, 40.07, -2]),
    removed_mm3: 1118.238,
    engagement_deg: 180,
    axial_mm: 2,
    radial_mm: 8,
  },
  {
    // volume by numerical integration of the capsule below z = 0 in steps of 0.05 mm
    name: 'ball down a slope from the surface to 4 deep over 80 mm',
    tool: { kind: 'ball', diameter_mm: 10 },
    move: line([10, 40, 0], [90, 40, -4]),
    removed_mm3: 1076.27,
    engagement_deg: 180,
    axial_mm: 4,
  },
  {
    name: 'bull-nose slot, corner 1, 3 deep',
    tool: { kind: 'bull-nose', diameter_mm: 10, corner_radius_mm: 1 },
    move: line([-10, 40, -3], [110, 40, -3]),
    removed_mm3: 2957.08,
    engagement_deg: 180,
    axial_mm: 3,
    radial_mm: 10,
  },
  {
    name: 'chamfer cone of 90 degrees along an edge, 2 deep on centre',
    tool: { kind: 'cone', diameter_mm: 12, point_angle_deg: 90 },
    move: line([-10, 40, -2], [110, 40, -2]),
    removed_mm3: 400,
    engagement_deg: 180,
    axial_mm: 2,
    radial_mm: 4,
  },
];

/** Round tools are read just below the top of the contact: their width may be 6 % under that at the top. */
function check(exact: Exact, figures: MoveFigures, loose: number): void {
  const near = (what: string, value: number, wanted: number | undefined, by: number): void => {
    if (wanted === undefined) return;
    assert.ok(Math.abs(value - wanted) <= by, `${what} ${value}, exact ${wanted}`);
  };
  const round = !['flat', 'face'].includes(exact.tool.kind);
  near('volume', figures.removed_mm3, exact.removed_mm3, (exact.removed_mm3 ?? 0) * 0.01 * loose);
  near('engagement', figures.engagement_deg, exact.engagement_deg, 2 * loose);
  near('entry', figures.entry_deg, exact.entry_deg, 2 * loose);
  near('exit', figures.exit_deg, exact.exit_deg, 2 * loose);
  near('axial depth', figures.axial_depth_mm, exact.axial_mm, 0.01 * (exact.axial_mm ?? 0) + 0.01);
  near(
    'radial width',
    figures.radial_width_mm,
    exact.radial_mm,
    (round ? 0.06 : 0.01) * (exact.radial_mm ?? 0) + 0.002,
  );
}

function run(exact: Exact, cell?: number): MoveFigures {
  const stock = stockOf(exact.tool, cell);
  for (const move of exact.before ?? []) stock.move(move);
  return stock.move(exact.move);
}

describe('mill stock, exact cases', () => {
  for (const exact of cases) {
    it(`${exact.name}, default cell`, () => check(exact, run(exact), 1));
    it(`${exact.name}, cell 0.2`, () => check(exact, run(exact, 0.2), 1));
  }

  it('engagement jumps from 36.9 to 121.8 degrees in a sharp inside corner at a tenth of the diameter', () => {
    const stock = stockOf(flat10);
    const [x, y] = [70, 20];
    stock.move(line([20, y + 1, -3], [x - 1, y + 1, -3]));
    stock.move(line([x - 1, y + 1, -3], [x - 1, y + 41, -3]));
    const straight = stock.move(line([20, y, -3], [60, y, -3]));
    const corner = stock.move(line([60, y, -3], [x, y, -3]));
    const after = stock.move(line([x, y, -3], [x, y + 40, -3]));
    assert.ok(
      Math.abs(straight.mean_engagement_deg - 36.87) < 6,
      `straight mean ${straight.mean_engagement_deg}`,
    );
    assert.ok(Math.abs(corner.least_engagement_deg - 36.87) < 2, `straight ${corner.least_engagement_deg}`);
    assert.ok(Math.abs(corner.engagement_deg - 121.8) < 2, `corner ${corner.engagement_deg}`);
    assert.ok(Math.hypot(corner.at_x - x, corner.at_y - y) < 0.5, 'the place of the corner');
    assert.ok(Math.abs(after.least_engagement_deg - 36.87) < 2, `after ${after.least_engagement_deg}`);
    assert.ok(corner.climb_share > 0.95);
  });

  it('helix entry into solid, then a full circle on the floor: together a cylinder of 16 mm, 6 deep', () => {
    const stock = stockOf({ kind: 'flat', diameter_mm: 8 });
    const helix = stock.move({
      kind: 'arc',
      from: [54, 40, 0],
      to: [54, 40, -6],
      centre: [50, 40, 0],
      sweep_rad: 12 * Math.PI,
    });
    const floor = stock.move({
      kind: 'arc',
      from: [54, 40, -6],
      to: [54, 40, -6],
      centre: [50, 40, -6],
      sweep_rad: 2 * Math.PI,
    });
    const both = helix.removed_mm3 + floor.removed_mm3;
    assert.ok(Math.abs(both - 1206.372) < 12.06, `volume ${both}`);
    assert.ok(Math.abs(helix.engagement_deg - 180) < 2, `engagement ${helix.engagement_deg}`);
    // only the metal of one pitch stands before the tool, not the wall of the turns before
    assert.ok(helix.axial_depth_mm > 0.95 && helix.axial_depth_mm < 1.9, `depth ${helix.axial_depth_mm}`);
    assert.equal(helix.centre_in_metal, 1);
  });

  for (const [ae, phi] of [
    [0.3, 19.95],
    [1, 36.87],
    [4, 78.46],
  ]) {
    it(`a wall in two depths, ${ae} wide: the second pass is as deep as what the first left`, () => {
      const stock = stockOf(flat10);
      const first = stock.move(line([-10, ae - 5, -8], [110, ae - 5, -8]));
      const second = stock.move(line([-10, ae - 5, -15], [110, ae - 5, -15]));
      assert.ok(Math.abs(first.axial_depth_mm - 8) < 0.01, `first ${first.axial_depth_mm}`);
      assert.ok(Math.abs(second.axial_depth_mm - 7) < 0.01, `second ${second.axial_depth_mm}`);
      assert.ok(Math.abs(second.engagement_deg - phi) < 2, `engagement ${second.engagement_deg}`);
    });
  }

  it('comes nearer to the exact volume as the cells shrink', () => {
    const exact = cases.find(one => one.name.startsWith('ball in a level'));
    assert.ok(exact?.removed_mm3 !== undefined);
    const errors = [2, 0.5, 0.125].map(cell =>
      Math.abs(run(exact, cell).removed_mm3 / (exact.removed_mm3 ?? 1) - 1),
    );
    assert.ok(errors[1] < errors[0] && errors[2] < errors[1], `errors ${errors}`);
    assert.ok(errors[2] < 0.001);
  });

  /** Sections by plane geometry: flat 8 and quarters of radius 1; triangle of 2; 10 by 3. Off the cells' own lines, so that no size is exact by luck. */
  const shrinking: [string, CutterSpec, number, number][] = [
    ['bull-nose slot', { kind: 'bull-nose', diameter_mm: 10, corner_radius_mm: 1 }, -3, 2957.08],
    ['chamfer groove', { kind: 'cone', diameter_mm: 12, point_angle_deg: 90 }, -2, 400],
    ['slot of a disc', { kind: 'slot', diameter_mm: 10 }, -3, 3000],
  ];
  for (const [name, spec, z, exact] of shrinking) {
    it(`${name}: the error of the volume shrinks with the cells`, () => {
      const errors = [2, 0.125].map(cell => {
        const stock = stockOf(spec, cell);
        return Math.abs(stock.move(line([-10, 40.037, z], [110, 40.037, z])).removed_mm3 / exact - 1);
      });
      // a straight wall is exact at any cell
      assert.ok(errors[1] < errors[0] || errors[0] < 1e-6, `errors ${errors}`);
      assert.ok(errors[1] < 0.001, `errors ${errors}`);
    });
  }

  it('climbs with the metal on the right, cuts conventionally with it on the left', () => {
    const stock = stockOf(flat10);
    stock.move(line([-10, 40, -3], [110, 40, -3]));
    assert.ok(stock.move(line([-10, 41, -3], [110, 41, -3])).climb_share < 0.001);
    assert.ok(stock.move(line([-10, 39, -3], [110, 39, -3])).climb_share > 0.999);
  });

  it('says what a move in air, over its own path and up the hole meets: nothing', () => {
    const stock = stockOf(flat10);
    stock.move(line([20, 40, -3], [80, 40, -3]));
    for (const move of [
      line([80, 40, -3], [20, 40, -3]),
      line([20, 40, -3], [20, 40, 5]),
      line([20, 40, 5], [80, 10, 5]),
    ]) {
      const figures = stock.move(move);
      assert.ok(figures.air_share > 0.9999, `air ${figures.air_share} to ${move.to}`);
      assert.equal(figures.axial_depth_mm, 0);
      assert.ok(figures.removed_mm3 < 0.05, `removed ${figures.removed_mm3}`);
    }
  });

  it('finds a rapid through the block, with place and depth', () => {
    const stock = stockOf(flat10);
    const hit = stock.move({ kind: 'rapid', from: [-20, 40, -2], to: [50, 40, -2] });
    assert.ok(Math.abs(hit.contact_x - -5) < 0.5, `first contact at ${hit.contact_x}`);
    assert.equal(hit.contact_y, 40);
    assert.ok(Math.abs(hit.axial_depth_mm - 2) < 0.01);
  });

  it('tells how much of the underside stands in metal when moving down', () => {
    const stock = stockOf(flat10);
    const solid = stock.move(line([50, 40, 2], [50, 40, -2]));
    assert.ok(solid.bottom_share > 0.95);
    assert.equal(solid.centre_in_metal, 1);
    const half = stock.move(line([0, 60, 2], [0, 60, -2]));
    assert.ok(Math.abs(half.bottom_share - 0.5) < 0.15, `share ${half.bottom_share}`);
    const clear = stock.move(line([-8, 60, 2], [-8, 60, -2]));
    assert.equal(clear.bottom_share, 0);
  });

  it('finds shank and holder in metal', () => {
    const stock = createMillStock({ low, high, cell_mm: 0.4 }, [
      tool({
        kind: 'flat',
        diameter_mm: 10,
        flute_length_mm: 8,
        shank_diameter_mm: 12,
        stickout_mm: 30,
        holder_diameter_mm: 30,
      }),
    ]);
    const shallow = stock.move(line([20, 40, -6], [60, 40, -6]));
    assert.equal(shallow.body_contact_mm, 0);
    const deep = stock.move(line([20, 60, -11], [60, 60, -11]));
    assert.ok(Math.abs(deep.body_contact_mm - 3) < 0.01, `contact ${deep.body_contact_mm}`);
  });

  it('names what is missing for a tool and what is not modelled', () => {
    assert.deepEqual(cutter({ kind: 'bull-nose', diameter_mm: 10 }), { missing: 'corner radius over 0' });
    assert.deepEqual(cutter({ kind: 'drill', diameter_mm: 10 }), {
      missing: 'point angle of 10 to 180 degrees',
    });
    assert.equal(tool({ kind: 'slot', diameter_mm: 10 }).not_modelled.length, 1);
  });
});
