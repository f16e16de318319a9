import * as c from '../../../server/src/cutting/index.ts';
import { near, present, rad } from './slow.ts';

const cut = {
  feed_frequency_hz: 800,
  feed_stiffness_n_um: 20,
  feed_damping_ratio: 0.03,
  normal_frequency_hz: 870,
  normal_stiffness_n_um: 15,
  normal_damping_ratio: 0.04,
  specific_force_n_mm2: 1000,
  radial_share: 0.3,
  teeth: 4,
  entry_deg: 90,
  exit_deg: 180,
};
type Cut = typeof cut;

/** Mean directional matrix by averaging over the arc, tooth by tooth: d force over d vibration, both directions. */
function meanDirections(v: Cut): readonly [number, number, number, number] {
  const sum: [number, number, number, number] = [0, 0, 0, 0];
  const steps = 20_000;
  const span = rad(v.exit_deg) - rad(v.entry_deg);
  for (let i = 0; i < steps; i++) {
    const phi = rad(v.entry_deg) + (span * (i + 0.5)) / steps;
    const [s, k] = [Math.sin(phi), Math.cos(phi)];
    // thickness grows with x sin + y cos; the force on the tool is -Ft cos - Fr sin, Ft sin - Fr cos
    const fx = -k - v.radial_share * s;
    const fy = s - v.radial_share * k;
    sum[0] += fx * s;
    sum[1] += fx * k;
    sum[2] += fy * s;
    sum[3] += fy * k;
  }
  const scale = (v.teeth * span) / (2 * Math.PI) / steps;
  return [sum[0] * scale, sum[1] * scale, sum[2] * scale, sum[3] * scale];
}

type Z = readonly [number, number];
const mul = (a: Z, b: Z): Z => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const add = (a: Z, b: Z): Z => [a[0] + b[0], a[1] + b[1]];
const times = (a: Z, k: number): Z => [a[0] * k, a[1] * k];
const inverse = (a: Z): Z => [a[0] / (a[0] ** 2 + a[1] ** 2), -a[1] / (a[0] ** 2 + a[1] ** 2)];
function root(a: Z): Z {
  const size = Math.sqrt(Math.hypot(...a));
  const angle = Math.atan2(a[1], a[0]) / 2;
  return [size * Math.cos(angle), size * Math.sin(angle)];
}
const tip = (f: number, fn: number, k_n_um: number, zeta: number): Z =>
  times(inverse([1 - (f / fn) ** 2, 2 * zeta * (f / fn)]), 1 / (1000 * k_n_um));

/** Least depth at which some frequency stands: 1 = b Kt (1 - e^(-i w T)) times an eigenvalue of directions times response. */
function searched(v: Cut, rpm: number): number {
  const [axx, axy, ayx, ayy] = meanDirections(v);
  const period = 60 / (rpm * v.teeth);
  let least = Infinity;
  for (const sign of [1, -1]) {
    let before: Z | undefined;
    for (let f = 500; f < 2200; f += 0.02) {
      const gx = tip(f, v.feed_frequency_hz, v.feed_stiffness_n_um, v.feed_damping_ratio);
      const gy = tip(f, v.normal_frequency_hz, v.normal_stiffness_n_um, v.normal_damping_ratio);
      const trace = add(times(gx, axx), times(gy, ayy));
      const determinant = times(mul(gx, gy), axx * ayy - axy * ayx);
      const split = root(add(mul(trace, trace), times(determinant, -4)));
      const eigen = times(add(trace, times(split, sign)), 0.5);
      const wt = 2 * Math.PI * f * period;
      const loop = mul([1 - Math.cos(wt), Math.sin(wt)], eigen);
      // depth = 1 / (Kt loop) must be real and positive; a jump of the root is not a crossing
      const near_before = before !== undefined && Math.abs(loop[1] - before[1]) < 0.2 * Math.hypot(...loop);
      if (near_before && before![1] * loop[1] <= 0 && loop[0] > 0) {
        least = Math.min(least, 1 / (v.specific_force_n_mm2 * loop[0]));
      }
      before = loop;
    }
  }
  return least;
}

describe('milling stability against searching the characteristic equation', () => {
  for (const [rpm, change] of [
    [4600, {}],
    [6000, {}],
    [9000, {}],
    [12_500, {}],
    [16_000, {}],
    [8000, { entry_deg: 0, exit_deg: 90 }],
    [8000, { entry_deg: 0, exit_deg: 180 }],
    [10_000, { entry_deg: 127, exit_deg: 180, teeth: 3 }],
    [7000, { entry_deg: 60, exit_deg: 120, radial_share: 0.5, teeth: 2 }],
  ] as const) {
    it(`${rpm} rev/min ${JSON.stringify(change)}`, () => {
      const given = { ...cut, ...change };
      const fast = present(c.millingStabilityLimit({ ...given, spindle_rpm: rpm }));
      near(fast.depth_mm, searched(given, rpm), 1e-2);
    });
  }
});
