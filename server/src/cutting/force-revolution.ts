import { radians } from './angles.ts';
import {
  between,
  compute,
  edgeAngle,
  notNegative,
  optional,
  positive,
  toothCount,
  wholeNumber,
} from './compute.ts';
import { slope } from './kienzle.ts';
import { integrateSoftEnds } from './numeric.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Force on the tool over one turn: arrays a step, and the peaks between the steps too. */
export interface ForceOverRevolution {
  readonly angle_deg: Float64Array;
  /** Sum of the tangential forces of all teeth, N. */
  readonly tangential_n: Float64Array;
  /** Force on the tool along the feed and to the left of it, N. */
  readonly feed_n: Float64Array;
  readonly left_n: Float64Array;
  readonly peak_tangential_n: number;
  /** Greatest side force (feed and left together), N: what bends the tool. */
  readonly peak_side_n: number;
  readonly mean_torque_nm: number;
  readonly peak_torque_nm: number;
}

const rules = {
  kc11_n_mm2: positive,
  mc: slope,
  chip_load_mm: notNegative,
  teeth: toothCount,
  diameter_mm: positive,
  axial_depth_mm: notNegative,
  entry_deg: between(0, 180),
  exit_deg: between(0, 180),
  helix_deg: between(-80, 80),
  radial_share: between(0, 2),
  edge_angle_deg: optional(edgeAngle, 90),
  correction: optional(positive, 1),
  steps: optional(wholeNumber(4, 3600), 360),
};
type Cut = { [K in keyof typeof rules]: number };

/**
 * Forces on a mill over one turn: every tooth, each helical edge from tip to depth, with the peak.
 * @formula at each place of each edge dFt = kc1.1 K (fz sin(kappa) sin(phi))^(1 - mc) dz / sin(kappa), dFr = share dFt; summed in closed form along the helix; feed = -Ft cos - Fr sin, left = Ft sin - Fr cos
 * @units kc11_n_mm2 N/mm2, mc, chip_load_mm mm a tooth, teeth, diameter_mm mm, axial_depth_mm mm, entry_deg and exit_deg degrees, helix_deg degrees (left-hand negative), radial_share (0.3 free-cutting to 0.6), edge_angle_deg (90), correction (1), steps (360); gives N, N m
 * @range entry to exit within 0 to 180, helix within 80 degrees either way, share 0 to 2, 4 to 3600 steps; evenly spaced teeth without runout, clockwise spindle; empirical, 20 % either way
 * @source Altintas, Manufacturing Automation, ch. 2, with Kienzle 1952 for the force
 */
export function forceOverRevolution(given: {
  kc11_n_mm2: Given;
  mc: Given;
  chip_load_mm: Given;
  teeth: Given;
  diameter_mm: Given;
  axial_depth_mm: Given;
  entry_deg: Given;
  exit_deg: Given;
  helix_deg: Given;
  radial_share: Given;
  edge_angle_deg?: Given;
  correction?: Given;
  steps?: Given;
}): ForceOverRevolution | Absent {
  return compute(given, rules, v => {
    if (v.exit_deg < v.entry_deg) return absent('the exit angle lies before the entry angle');
    if (helixLagOf(v) > MOST_LAG)
      return absent('the edge winds more than ten times around the tool over this depth');
    return revolution(v);
  });
}

/** Ten turns, radians. */
const MOST_LAG = 62.8;
const helixLagOf = (v: Cut) =>
  (2 * v.axial_depth_mm * Math.tan(radians(Math.abs(v.helix_deg)))) / v.diameter_mm;

interface Force {
  tangential: number;
  feed: number;
  left: number;
}

function revolution(v: Cut): ForceOverRevolution {
  const sum = forceAtRotation(v);
  const pitch = (2 * Math.PI) / v.teeth;
  const angle_deg = new Float64Array(v.steps);
  const tangential_n = new Float64Array(v.steps);
  const feed_n = new Float64Array(v.steps);
  const left_n = new Float64Array(v.steps);
  for (let step = 0; step < v.steps; step++) {
    const force = sum((2 * Math.PI * step) / v.steps);
    angle_deg[step] = (360 * step) / v.steps;
    tangential_n[step] = force.tangential;
    feed_n[step] = force.feed;
    left_n[step] = force.left;
  }
  let peak_tangential_n = 0;
  let peak_side_n = 0;
  for (const rotation of peakPlaces(v, pitch)) {
    const force = sum(rotation);
    peak_tangential_n = Math.max(peak_tangential_n, force.tangential);
    peak_side_n = Math.max(peak_side_n, Math.hypot(force.feed, force.left));
  }
  const lever = v.diameter_mm / 2000;
  const arc = integrateSoftEnds(
    phi => Math.max(0, Math.sin(phi)) ** (1 - v.mc),
    radians(v.entry_deg),
    radians(v.exit_deg),
  );
  const mean_torque_nm = (v.teeth * scale(v) * v.axial_depth_mm * arc * lever) / (2 * Math.PI);
  const peak_torque_nm = peak_tangential_n * lever;
  return {
    angle_deg,
    tangential_n,
    feed_n,
    left_n,
    peak_tangential_n,
    peak_side_n,
    mean_torque_nm,
    peak_torque_nm,
  };
}

const scale = (v: Cut) =>
  v.kc11_n_mm2 * v.correction * v.chip_load_mm ** (1 - v.mc) * Math.sin(radians(v.edge_angle_deg)) ** -v.mc;

/** Rotations within one tooth pitch where a peak can stand: an even grid and both sides of every entry and exit. */
function peakPlaces(v: Cut, pitch: number): number[] {
  const places: number[] = [];
  for (let i = 0; i < 1440; i++) places.push((pitch * i) / 1440);
  const lag = helixLagOf(v);
  for (const event of [radians(v.entry_deg), radians(v.exit_deg)]) {
    for (const place of [event, event + lag]) places.push(place - 1e-9, place, place + 1e-9);
  }
  return places;
}

/** Sum over the teeth at one rotation of the leading tip. */
function forceAtRotation(v: Cut): (rotation: number) => Force {
  const entry = radians(v.entry_deg);
  const exit = radians(v.exit_deg);
  const lag = helixLagOf(v);
  const pitch = (2 * Math.PI) / v.teeth;
  const along = lag < 1e-6 ? pointForce(v, v.axial_depth_mm) : windowForce(v, v.axial_depth_mm / lag);
  return rotation => {
    const total = { tangential: 0, feed: 0, left: 0 };
    for (let tooth = 0; tooth < v.teeth; tooth++) {
      const tip = rotation + tooth * pitch;
      const turns = Math.ceil((lag + 2 * Math.PI) / (2 * Math.PI));
      for (let turn = -1; turn < turns; turn++) {
        const lead = (tip % (2 * Math.PI)) + 2 * Math.PI * turn;
        const to = Math.min(exit, lead);
        const from = Math.max(entry, lead - lag);
        if (lag < 1e-6 ? lead >= entry && lead <= exit : to > from) along(from, to, total);
      }
    }
    return total;
  };
}

type Adder = (from: number, to: number, total: Force) => void;

function pointForce(v: Cut, depth: number): Adder {
  const force = scale(v) * depth;
  return (_from, phi, total) => {
    const tangential = force * Math.max(0, Math.sin(phi)) ** (1 - v.mc);
    addForce(total, tangential, tangential * Math.cos(phi), tangential * Math.sin(phi), v.radial_share);
  };
}

function windowForce(v: Cut, depthPerRadian: number): Adder {
  const power = 1 - v.mc;
  const force = scale(v) * depthPerRadian;
  const plain = cumulative(power);
  const sine = cumulative(power + 1);
  const cosine = (phi: number) => Math.max(0, Math.sin(phi)) ** (power + 1) / (power + 1);
  return (from, to, total) =>
    addForce(
      total,
      force * (plain(to) - plain(from)),
      force * (cosine(to) - cosine(from)),
      force * (sine(to) - sine(from)),
      v.radial_share,
    );
}

function addForce(
  total: Force,
  tangential: number,
  withCosine: number,
  withSine: number,
  share: number,
): void {
  total.tangential += tangential;
  total.feed += -withCosine - share * withSine;
  total.left += withSine - share * withCosine;
}

/** Running integral of sin^power from 0, by a table with the exact slope between its points. */
function cumulative(power: number): (phi: number) => number {
  const panels = 256;
  const width = Math.PI / panels;
  const raised = (phi: number) => Math.max(0, Math.sin(phi)) ** power;
  const table = new Float64Array(panels + 1);
  for (let i = 0; i < panels; i++) {
    table[i + 1] = (table[i] as number) + integrateSoftEnds(raised, i * width, (i + 1) * width, 1);
  }
  return phi => {
    const at = Math.max(0, Math.min(panels, phi / width));
    const i = Math.min(panels - 1, Math.floor(at));
    const t = at - i;
    const rise = (table[i + 1] as number) - (table[i] as number);
    const left = raised(i * width) * width;
    const right = raised((i + 1) * width) * width;
    return (
      (table[i] as number) + t * (left + t * (3 * rise - 2 * left - right + t * (left + right - 2 * rise)))
    );
  };
}
