import assert from 'node:assert/strict';
import { openJob } from '../../../server/src/job/open-job.ts';
import { LatheStock } from '../../../server/src/stock/lathe.ts';
import { turningTool } from '../../../server/src/stock/turning-tool.ts';

const PROGRAM = `G21 G18 G99 F0.1
T0101
G97 S1000 M3
G0 X12. Z2.
G42 G1 Z0.
X18.
X20. Z-1.
Z-10.
G40 X30.
M30
`;

/** Radius that is left in the middle of the chamfer of 1 x 45, where the part has 9.5 mm, and on the diameter. */
function left(tool: Record<string, unknown>): {
  chamfer: number;
  cylinder: number;
  assumed: readonly string[];
} {
  const sheet = JSON.stringify({
    units: 'mm',
    machine: { kind: 'lathe', dialect: 'lathe-a' },
    tools: { 1: { kind: 'turn', nose_radius: 0.8, edge_angle_deg: 95, ...tool } },
  });
  const { reading } = openJob({
    bytes: new TextEncoder().encode(PROGRAM),
    name: 'chamfer.nc',
    files: { sheet: { path: 'chamfer.setup.json', text: sheet } },
  });
  const made = turningTool({ kind: 'turn', nose_radius_mm: 0.8, edge_angle_deg: 95, tip: 'corner' });
  assert.ok(!('missing' in made));
  const stock = new LatheStock({ low_z_mm: -20, high_z_mm: 0, radius_mm: 12 });
  const cursor = reading.cursor();
  let from: [number, number] = [Number.NaN, Number.NaN];
  while (cursor.next()) {
    const to: [number, number] = [cursor.z, cursor.x];
    if (!Number.isNaN(from[0] + from[1])) stock.move({ kind: 'feed', from, to }, made);
    from = to;
  }
  const at = (z: number) => stock.outer[Math.round((z - stock.low_z_mm) / stock.slice_mm)];
  return { chamfer: at(-0.5), cylinder: at(-5), assumed: reading.assumptions().map(({ code }) => code) };
}

describe('the nose is counted once', () => {
  it('with compensation the chamfer comes out as programmed', () => {
    const { chamfer, cylinder, assumed } = left({ tip_direction: 3 });
    assert.ok(Math.abs(chamfer - 9.5) < 0.01, String(chamfer));
    assert.ok(Math.abs(cylinder - 10) < 1e-9, String(cylinder));
    assert.deepEqual(assumed, []);
  });

  it('without it r (2 - sqrt 2) = 0.4686 mm stay on the chamfer, nothing on the diameter', () => {
    const { chamfer, cylinder, assumed } = left({});
    assert.ok(Math.abs(chamfer - 9.9686) < 0.01, String(chamfer));
    assert.ok(Math.abs(cylinder - 10) < 1e-9, String(cylinder));
    assert.deepEqual(assumed, ['nose-compensation']);
  });
});
