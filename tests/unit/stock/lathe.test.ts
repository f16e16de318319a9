/** Turning cases whose volume is known exactly. */
import assert from 'node:assert/strict';
import { LatheStock } from '../../../server/src/stock/lathe.ts';
import type { LatheFigures } from '../../../server/src/stock/lathe-figures.ts';
import { type TurningSpec, type TurningTool, turningTool } from '../../../server/src/stock/turning-tool.ts';

function tool(spec: TurningSpec): TurningTool {
  const made = turningTool(spec);
  if ('missing' in made) throw new Error(made.missing);
  return made;
}

const turn = tool({ kind: 'turn', nose_radius_mm: 0.4, edge_angle_deg: 95, point_angle_deg: 55 });
const sharp = tool({ kind: 'turn', nose_radius_mm: 0, edge_angle_deg: 90, point_angle_deg: 55 });
const bore = tool({ kind: 'bore-bar', nose_radius_mm: 0.4, edge_angle_deg: 95, point_angle_deg: 55 });
const bar = { low_z_mm: -100, high_z_mm: 0, radius_mm: 25 };

function near(value: number, exact: number, share = 0.01): void {
  assert.ok(Math.abs(value - exact) <= Math.abs(exact) * share, `${value}, exact ${exact}`);
}

describe('lathe stock, exact cases', () => {
  it('turns a cylinder: pi (25^2 - 22^2) 60', () => {
    const stock = new LatheStock(bar);
    const cut = stock.move({ kind: 'feed', from: [2, 22], to: [-60, 22] }, sharp);
    near(cut.removed_mm3, 26577.9);
    near(cut.radial_depth_mm, 3);
    near(cut.outer_radius_mm, 25);
    near(cut.inner_radius_mm, 22);
  });

  it('turns a taper: cylinder less the frustum of radii 20 and 25 over 50', () => {
    const stock = new LatheStock(bar);
    const cut = stock.move({ kind: 'feed', from: [0, 20], to: [-50, 25] }, sharp);
    // pi 25^2 50 - pi 50/3 (20^2 + 20 25 + 25^2)
    near(cut.removed_mm3, 18325.957);
    near(cut.radial_depth_mm, 5);
  });

  it('cuts a groove 3 wide to radius 20: pi (25^2 - 20^2) 3', () => {
    const stock = new LatheStock(bar);
    const cut = stock.move(
      { kind: 'feed', from: [-40, 27], to: [-40, 20] },
      tool({ kind: 'groove', width_mm: 3 }),
    );
    near(cut.removed_mm3, 2120.575);
    near(cut.from_z_mm, -40);
    near(cut.to_z_mm, -37);
  });

  it('bores from 10 to 12 over 30 deep: pi (12^2 - 10^2) 30', () => {
    const stock = new LatheStock({ ...bar, bore_radius_mm: 10 });
    const cut = stock.move({ kind: 'feed', from: [2, 12], to: [-30, 12] }, bore);
    near(cut.removed_mm3, 4146.9);
    near(cut.radial_depth_mm, 2);
  });

  it('faces 1 off the end: pi 25^2', () => {
    const stock = new LatheStock(bar);
    const cut = stock.move({ kind: 'feed', from: [-1, 27], to: [-1, 0] }, sharp);
    near(cut.removed_mm3, 1963.495);
    near(cut.to_z_mm - cut.from_z_mm, 1, 0.02);
  });

  it('faces 1.5 off with a nose of 0.4: no ring stays before the nose', () => {
    const stock = new LatheStock({ ...bar, high_z_mm: 1.5 });
    const nosed = tool({ kind: 'turn', nose_radius_mm: 0.4, edge_angle_deg: 95 });
    const cut = stock.move({ kind: 'feed', from: [0, 27], to: [0, -0.8] }, nosed);
    near(cut.removed_mm3, 2945.243);
    near(cut.depth_mm, 1.5, 0.02);
    near(stock.volume_mm3(), Math.PI * 25 ** 2 * 100);
  });

  it('a recess near the end leaves the flange before it, when it does not come through', () => {
    const stock = new LatheStock(bar);
    const nosed = tool({ kind: 'turn', nose_radius_mm: 0.4, edge_angle_deg: 95 });
    // a slot 0.8 wide with round corners: pi (25^2 - 20^2) 0.8 less (2 - pi/2) r^2 of the section
    const cut = stock.move({ kind: 'feed', from: [-2, 27], to: [-2, 20] }, nosed);
    near(cut.removed_mm3, 565.487 - 0.0687 * 2 * Math.PI * 20.1, 0.02);
    near(stock.outer[stock.outer.length - 50], 25);
  });

  it('parts off with a blade of 2 down to the axis', () => {
    const stock = new LatheStock(bar);
    const cut = stock.move(
      { kind: 'feed', from: [-52, 27], to: [-52, 0] },
      tool({ kind: 'part-off', width_mm: 2 }),
    );
    near(cut.removed_mm3, 3926.991);
  });

  it('drills 10 mm to 20 deep over the tip, 118 degrees', () => {
    const stock = new LatheStock(bar);
    const cut = stock.drill(5, -20, 10, 118);
    // pi 5^2 (20 - h) + pi 5^2 h/3, h = 5/tan 59 = 3.004
    near(cut.removed_mm3, 1413.49);
  });

  it('turns a ball end: the cylinder of radius 25 less the half ball', () => {
    const stock = new LatheStock(bar);
    const ball = tool({ kind: 'turn', nose_radius_mm: 0, edge_angle_deg: 90, point_angle_deg: 35 });
    const cut = stock.move(
      { kind: 'arc', from: [0, 0], to: [-25, 25], centre: [-25, 0], sweep_rad: Math.PI / 2 },
      ball,
    );
    // pi 25^3 - 2/3 pi 25^3
    near(cut.removed_mm3, 16362.461);
  });

  it('leaves the nose radius in the corner of a shoulder', () => {
    const stock = new LatheStock(bar);
    const nosed = stock.move({ kind: 'feed', from: [2, 20], to: [-50, 20] }, turn);
    const plain = new LatheStock(bar).move({ kind: 'feed', from: [2, 20], to: [-50, 20] }, sharp);
    // (1 - pi/4) r^2 of the section, at about radius 20.1: 0.0343 2 pi 20.1
    near(plain.removed_mm3 - nosed.removed_mm3, 4.34, 0.1);
  });

  it('takes a second pass over the same path as no cut', () => {
    const stock = new LatheStock(bar);
    stock.move({ kind: 'feed', from: [2, 22], to: [-60, 22] }, turn);
    const again: LatheFigures = stock.move({ kind: 'feed', from: [-60, 22], to: [2, 22] }, turn);
    assert.equal(again.cuts, false);
    assert.equal(again.radial_depth_mm, 0);
  });

  it('depths of threading passes count from the pass before', () => {
    const stock = new LatheStock(bar);
    const thread = tool({ kind: 'thread-turn', point_angle_deg: 60 });
    const pass = (x: number) =>
      stock.move({ kind: 'thread', from: [3, x], to: [-20, x], lead_mm: 2 }, thread);
    near(pass(24.6).thread_pass_mm, 0.4);
    near(pass(24.3).thread_pass_mm, 0.3);
    assert.equal(pass(24.3).cuts, false);
    near(stock.outer[stock.outer.length - 10], 25);
  });

  it('the volumes of the moves add up to what the bar lacks', () => {
    const stock = new LatheStock({ ...bar, bore_radius_mm: 8 });
    const before = stock.volume_mm3();
    let sum = 0;
    for (const x of [24, 23, 22.5])
      sum += stock.move({ kind: 'feed', from: [2, x], to: [-40, x] }, turn).removed_mm3;
    sum += stock.move(
      { kind: 'feed', from: [-30, 26], to: [-30, 15] },
      tool({ kind: 'groove', width_mm: 2 }),
    ).removed_mm3;
    sum += stock.move({ kind: 'feed', from: [1, 10], to: [-35, 9] }, bore).removed_mm3;
    near(before - stock.volume_mm3(), sum, 1e-9);
  });

  it('names what is missing', () => {
    assert.deepEqual(turningTool({ kind: 'groove' }), { missing: 'width of the blade' });
    assert.deepEqual(turningTool({ kind: 'turn' }), {
      missing: 'cutting-edge angle over 0, at most 120 degrees',
    });
    assert.deepEqual(turningTool({ kind: 'thread-turn' }), { missing: 'included angle of the thread' });
  });
});
