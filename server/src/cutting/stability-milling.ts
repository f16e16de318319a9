import { radians } from './angles.ts';
import type { Values } from './compute.ts';
import { between, compute, notNegative, positive, toothCount } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

const mode = { accepts: (z: number) => z > 0 && z < 1, says: 'must be over 0 and under 1' };
const rules = {
  feed_frequency_hz: positive,
  feed_stiffness_n_um: positive,
  feed_damping_ratio: mode,
  normal_frequency_hz: positive,
  normal_stiffness_n_um: positive,
  normal_damping_ratio: mode,
  specific_force_n_mm2: positive,
  radial_share: notNegative,
  teeth: toothCount,
  entry_deg: between(0, 180),
  exit_deg: between(0, 180),
  spindle_rpm: positive,
};
type Cut = Values<typeof rules>;
interface Complex {
  readonly re: number;
  readonly im: number;
}

/** Depth at which milling starts to chatter, with the tone. */
export interface MillingStability {
  readonly depth_mm: number;
  readonly chatter_hz: number;
}

/**
 * Depth of cut at which milling starts to chatter at a given speed: two directions, one mode each, mean cutting directions.
 * @formula axx = [cos 2p - 2 Kr p + Kr sin 2p]/2, axy = [-sin 2p - 2 p + Kr cos 2p]/2, ayx = [-sin 2p + 2 p + Kr cos 2p]/2, ayy = [-cos 2p - 2 Kr p - Kr sin 2p]/2 from entry to exit; a0 = Gx Gy (axx ayy - axy ayx), a1 = axx Gx + ayy Gy; L = -(a1 +/- sqrt(a1^2 - 4 a0))/(2 a0); a = -2 pi Re L (1 + kappa^2)/(z Kt), kappa = Im L/Re L; tooth period = (pi - 2 atan kappa + 2 k pi)/(2 pi f)
 * @units modes in feed and normal direction (Hz, N/um, damping ratio), specific_force_n_mm2 N/mm2 (Kt), radial_share Kr, teeth, entry_deg and exit_deg degrees, spindle_rpm rev/min; gives mm and Hz
 * @range all over 0 but Kr 0 or more, zeta under 1, entry before exit; good for ae/D above about 0.1 to 0.2, misses period-doubling in very light cuts
 * @source Altintas and Budak 1995 (zero-order solution)
 */
export function millingStabilityLimit(given: {
  feed_frequency_hz: Given;
  feed_stiffness_n_um: Given;
  feed_damping_ratio: Given;
  normal_frequency_hz: Given;
  normal_stiffness_n_um: Given;
  normal_damping_ratio: Given;
  specific_force_n_mm2: Given;
  radial_share: Given;
  teeth: Given;
  entry_deg: Given;
  exit_deg: Given;
  spindle_rpm: Given;
}): MillingStability | Absent {
  return compute(given, rules, v => {
    if (v.exit_deg <= v.entry_deg) return absent('the exit angle must lie after the entry angle');
    const waves = (60 * Math.max(v.feed_frequency_hz, v.normal_frequency_hz)) / (v.spindle_rpm * v.teeth);
    if (waves > 200) return absent('the speed is too low for lobes to matter');
    return leastDepth(v) ?? absent('no chatter found at any depth');
  });
}

function leastDepth(v: Cut): MillingStability | undefined {
  const alpha = directionalFactors(v);
  const low = 0.5 * Math.min(v.feed_frequency_hz, v.normal_frequency_hz);
  const high = 2.5 * Math.max(v.feed_frequency_hz, v.normal_frequency_hz);
  if (high / low > 1000) return undefined;
  const points = 2000;
  let least: MillingStability | undefined;
  const at = (i: number) => low * (high / low) ** (i / points);
  for (const root of [1, -1] as const) {
    let before = solve(v, alpha, at(0), root);
    for (let i = 1; i <= points; i++) {
      const here = solve(v, alpha, at(i), root);
      if (crosses(before, here)) {
        const found = refine(v, alpha, at(i - 1), at(i), root);
        if (found !== undefined && (least === undefined || found.depth_mm < least.depth_mm)) least = found;
      }
      before = here;
    }
  }
  return least;
}

interface Point {
  readonly depth_mm: number;
  /** Waves between two teeth less the whole wave number that the phase asks for; a lobe passes where this is a whole number. */
  readonly waves: number;
}
const crosses = (a: Point | undefined, b: Point | undefined): boolean =>
  a !== undefined &&
  b !== undefined &&
  Math.floor(a.waves) !== Math.floor(b.waves) &&
  Math.abs(a.waves - b.waves) < 0.9;

function refine(v: Cut, alpha: Alpha, from: number, to: number, root: 1 | -1): MillingStability | undefined {
  let a = from;
  let b = to;
  const start = solve(v, alpha, a, root);
  const end = solve(v, alpha, b, root);
  if (start === undefined || end === undefined) return undefined;
  const target = Math.max(Math.floor(start.waves), Math.floor(end.waves));
  const rising = end.waves > start.waves;
  let point = start;
  for (let turn = 0; turn < 60; turn++) {
    const m = (a + b) / 2;
    const here = solve(v, alpha, m, root);
    if (here === undefined) return undefined;
    point = here;
    if (here.waves >= target === rising) b = m;
    else a = m;
  }
  const settled = target >= 0 && Math.abs(point.waves - target) < 1e-3;
  return settled ? { depth_mm: point.depth_mm, chatter_hz: (a + b) / 2 } : undefined;
}

type Alpha = readonly [number, number, number, number];

function directionalFactors(v: Cut): Alpha {
  const kr = v.radial_share;
  const difference = (f: (p: number) => number) => f(radians(v.exit_deg)) - f(radians(v.entry_deg));
  return [
    0.5 * difference(p => Math.cos(2 * p) - 2 * kr * p + kr * Math.sin(2 * p)),
    0.5 * difference(p => -Math.sin(2 * p) - 2 * p + kr * Math.cos(2 * p)),
    0.5 * difference(p => -Math.sin(2 * p) + 2 * p + kr * Math.cos(2 * p)),
    0.5 * difference(p => -Math.cos(2 * p) - 2 * kr * p - kr * Math.sin(2 * p)),
  ];
}

function flexibility(hz: number, natural: number, stiffness_n_um: number, zeta: number): Complex {
  const r = hz / natural;
  const a = 1 - r * r;
  const b = 2 * zeta * r;
  const scale = 1 / (1000 * stiffness_n_um * (a * a + b * b));
  return { re: a * scale, im: -b * scale };
}

const times = (x: Complex, y: Complex): Complex => ({
  re: x.re * y.re - x.im * y.im,
  im: x.re * y.im + x.im * y.re,
});
const plus = (x: Complex, y: Complex): Complex => ({ re: x.re + y.re, im: x.im + y.im });
const by = (x: Complex, k: number): Complex => ({ re: x.re * k, im: x.im * k });
function over(x: Complex, y: Complex): Complex {
  const size = y.re * y.re + y.im * y.im;
  return { re: (x.re * y.re + x.im * y.im) / size, im: (x.im * y.re - x.re * y.im) / size };
}
function squareRoot(x: Complex): Complex {
  const size = Math.hypot(x.re, x.im);
  const re = Math.sqrt(Math.max(0, (size + x.re) / 2));
  const im = Math.sqrt(Math.max(0, (size - x.re) / 2));
  return { re, im: x.im < 0 ? -im : im };
}

/** Depth and waves at one chatter frequency for one of the two roots, where the depth is a positive one. */
function solve(v: Cut, alpha: Alpha, hz: number, root: 1 | -1): Point | undefined {
  const [axx, axy, ayx, ayy] = alpha;
  const gx = flexibility(hz, v.feed_frequency_hz, v.feed_stiffness_n_um, v.feed_damping_ratio);
  const gy = flexibility(hz, v.normal_frequency_hz, v.normal_stiffness_n_um, v.normal_damping_ratio);
  const a0 = by(times(gx, gy), axx * ayy - axy * ayx);
  const a1 = plus(by(gx, axx), by(gy, ayy));
  const rootPart = by(squareRoot(plus(times(a1, a1), by(a0, -4))), root);
  const lambda = over(by(plus(a1, rootPart), -1), by(a0, 2));
  const kappa = lambda.im / lambda.re;
  const depth_mm = (-2 * Math.PI * lambda.re * (1 + kappa * kappa)) / (v.teeth * v.specific_force_n_mm2);
  if (!(depth_mm > 0) || !Number.isFinite(depth_mm)) return undefined;
  const phase = Math.PI - 2 * Math.atan(kappa);
  return { depth_mm, waves: (60 * hz) / (v.spindle_rpm * v.teeth) - phase / (2 * Math.PI) };
}
