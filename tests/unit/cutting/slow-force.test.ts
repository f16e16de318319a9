import assert from 'node:assert/strict';
import * as c from '../../../server/src/cutting/index.ts';
import { known, midpoint, near, present, rad } from './slow.ts';

const steel = { kc11_n_mm2: 2220, mc: 0.14 };
const base = { kc11_n_mm2: 1700, mc: 0.25, chip_load_mm: 0.08, teeth: 4, diameter_mm: 12, axial_depth_mm: 6 };

/** Mean torque by cutting the edge into slices and the arc into steps. */
function slowTorque(
  v: typeof base & { entry_deg: number; exit_deg: number; corner: number; kappa: number },
): number {
  let sum = 0;
  const slices = 400;
  for (let s = 0; s < slices; s++) {
    const z = (v.axial_depth_mm * (s + 0.5)) / slices;
    const dz = v.axial_depth_mm / slices;
    const inCorner = z < v.corner;
    const kappa = inCorner ? Math.acos(1 - z / v.corner) : rad(v.kappa);
    const radius = inCorner ? v.diameter_mm / 2 - v.corner * (1 - Math.sin(kappa)) : v.diameter_mm / 2;
    const arc = midpoint(
      phi => (v.chip_load_mm * Math.sin(kappa) * Math.sin(phi)) ** (1 - v.mc),
      rad(v.entry_deg),
      rad(v.exit_deg),
      400,
    );
    sum += ((v.kc11_n_mm2 * arc * dz) / Math.sin(kappa)) * radius;
  }
  return (v.teeth * sum) / (2 * Math.PI * 1000);
}

describe('forces against slices and steps', () => {
  for (const [entry_deg, exit_deg, corner, kappa, axial_depth_mm] of [
    [0, 180, 0, 90, 6],
    [120, 180, 0, 90, 6],
    [0, 60, 1, 90, 6],
    [36.87, 113.58, 0, 45, 2],
    [143, 180, 6, 90, 0.5],
    [90, 180, 6, 90, 8],
    [0, 25, 2, 90, 1],
    [60, 120, 0, 17, 0.8],
  ] as const) {
    it(`milling torque from ${entry_deg} to ${exit_deg}, corner ${corner}, edge ${kappa}, depth ${axial_depth_mm}`, () => {
      const given = { ...base, axial_depth_mm, entry_deg, exit_deg };
      const fast = known(c.millingTorque({ ...given, corner_radius_mm: corner, edge_angle_deg: kappa }));
      near(fast, slowTorque({ ...given, corner, kappa }), 3e-3);
      const power = known(
        c.millingPower({ ...given, corner_radius_mm: corner, edge_angle_deg: kappa, spindle_rpm: 3000 }),
      );
      near(power, (fast * 2 * Math.PI * 50) / 1000, 1e-9);
    });
  }

  /** Force on the whole tool at one rotation, 1000 slices along each edge. */
  function slowForces(v: Record<string, number>, rotation: number): { side: number; tangential: number } {
    let [feed, left, tangential] = [0, 0, 0];
    const slices = 1000;
    for (let tooth = 0; tooth < v.teeth!; tooth++) {
      for (let s = 0; s < slices; s++) {
        const z = (v.axial_depth_mm! * (s + 0.5)) / slices;
        const lag = (2 * z * Math.tan(rad(v.helix_deg!))) / v.diameter_mm!;
        let phi = (rotation + (2 * Math.PI * tooth) / v.teeth! - lag) % (2 * Math.PI);
        if (phi < 0) phi += 2 * Math.PI;
        if (phi < rad(v.entry_deg!) || phi > rad(v.exit_deg!)) continue;
        const ft =
          v.kc11_n_mm2! * (v.chip_load_mm! * Math.sin(phi)) ** (1 - v.mc!) * (v.axial_depth_mm! / slices);
        tangential += ft;
        feed += -ft * Math.cos(phi) - v.radial_share! * ft * Math.sin(phi);
        left += ft * Math.sin(phi) - v.radial_share! * ft * Math.cos(phi);
      }
    }
    return { side: Math.hypot(feed, left), tangential };
  }

  for (const [name, change] of Object.entries({
    'climb, half width': { entry_deg: 90, exit_deg: 180, helix_deg: 38 },
    'slot, one tooth, straight flutes': { entry_deg: 0, exit_deg: 180, helix_deg: 0, teeth: 1 },
    'light conventional, straight flutes': { entry_deg: 0, exit_deg: 25, helix_deg: 0 },
    'light climb, left-hand helix': { entry_deg: 150, exit_deg: 180, helix_deg: -30 },
    'deep finishing, long lag': { entry_deg: 160, exit_deg: 180, helix_deg: 45, axial_depth_mm: 30 },
    'three teeth, three quarters wide': { entry_deg: 60, exit_deg: 180, helix_deg: 30, teeth: 3 },
  })) {
    it(`force over a turn: ${name}`, () => {
      const given = { ...base, radial_share: 0.3, steps: 90, ...change };
      const fast = present(c.forceOverRevolution(given));
      let [tangential, side, mean] = [0, 0, 0];
      for (let i = 0; i < 720; i++) {
        const slow = slowForces({ ...given, helix_deg: Math.abs(given.helix_deg) }, (2 * Math.PI * i) / 720);
        tangential = Math.max(tangential, slow.tangential);
        side = Math.max(side, slow.side);
        mean += (slow.tangential * given.diameter_mm) / 2000 / 720;
      }
      near(fast.mean_torque_nm, mean, 1e-2, 'mean torque');
      near(fast.peak_tangential_n, tangential, 1e-2, 'peak');
      near(fast.peak_side_n, side, 1e-2, 'side');
      const of = given.helix_deg === 0 ? 1 : 0;
      assert.ok(of === 1 || Math.max(...fast.tangential_n) <= fast.peak_tangential_n * (1 + 1e-9));
      near(known(c.millingTorque(given)), fast.mean_torque_nm, 1e-9);
    });
  }

  it('torque is constant at a whole multiple of the axial pitch', () => {
    const pitch = known(c.axialPitch({ diameter_mm: 12, teeth: 4, helix_deg: 30 }));
    const fast = present(
      c.forceOverRevolution({
        ...base,
        axial_depth_mm: pitch,
        entry_deg: 100,
        exit_deg: 180,
        helix_deg: 30,
        radial_share: 0.3,
      }),
    );
    near(Math.min(...fast.tangential_n), Math.max(...fast.tangential_n), 1e-6);
    near(fast.peak_torque_nm, fast.mean_torque_nm, 1e-6);
  });

  it('drill torque: slices along both lips', () => {
    const h = 0.1 * Math.sin(rad(59));
    const perLip = midpoint(r => 2220 * h ** -0.14 * 0.1 * r, 0, 5);
    const cut = { ...steel, diameter_mm: 10, feed_per_rev_mm: 0.2, point_angle_deg: 118 };
    near(known(c.drillTorque(cut)), (2 * perLip) / 1000, 1e-6);
    const opened = midpoint(r => 2220 * h ** -0.14 * 0.1 * r, 3, 5);
    near(known(c.drillTorque({ ...cut, hole_mm: 6 })), (2 * opened) / 1000, 1e-6);
  });

  it('turning: edge length and area of a nosed edge, traced point by point', () => {
    for (const [depth, r, f, kappa] of [
      [2, 0.8, 0.3, 90],
      [2, 0.8, 0.3, 75],
      [0.2, 0.8, 0.1, 95],
      [3, 1.2, 0.2, 45],
    ] as const) {
      // surface left by the nose: depth of the edge above the tip as a function of the way along the axis
      const lead = rad(90 - kappa);
      const inNose = r * (1 - Math.sin(lead));
      const nose = Math.min(depth, inNose);
      const dl = (t: number) => r / Math.sqrt(2 * r * t - t * t);
      const arc = midpoint(u => dl(nose * u * u) * 2 * nose * u, 0, 1, 20_000);
      const edge = arc + Math.max(0, depth - inNose) / Math.cos(lead) + f / 2;
      const cut = { axial_depth_mm: depth, feed_per_rev_mm: f, nose_radius_mm: r, edge_angle_deg: kappa };
      near(known(c.turningEdgeLength(cut)), edge, 1e-4);
      near(known(c.equivalentChipThickness(cut)) * edge, f * depth - f ** 3 / (24 * r), 1e-3);
    }
  });
});
