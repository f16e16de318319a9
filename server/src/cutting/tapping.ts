import { compute, notNegative, optional, positive, wholeNumber } from './compute.ts';
import { forceEstimate } from './kienzle.ts';
import type { Absent, Estimate, Given } from './result.ts';

const starts = optional(wholeNumber(1, 100), 1);

/**
 * Feed of a tap or thread: one lead a turn.
 * @formula vf = P n starts; in inch programs F = P n starts / 25.4 in/min
 * @units pitch_mm mm, spindle_rpm rev/min, starts (1 when left out); gives mm/min
 * @range P over 0, n 0 or more, starts a whole number from 1
 * @source pitch x speed (definition); NISTIR 6556, G84
 */
export function tapFeed(given: { pitch_mm: Given; spindle_rpm: Given; starts?: Given }): number | Absent {
  const rules = { pitch_mm: positive, spindle_rpm: notNegative, starts };
  return compute(given, rules, v => v.pitch_mm * v.spindle_rpm * v.starts);
}

/**
 * How far a tap is pushed along its axis because the programmed feed is not exactly pitch times speed.
 * @formula error = (F/(P n starts) - 1) depth; positive: the axis runs ahead of the thread
 * @units feed_mm_min mm/min, pitch_mm mm, spindle_rpm rev/min, depth_mm mm, starts (1 when left out); gives mm
 * @range F and depth 0 or more, P and n over 0; above 0.01 to 0.02 mm a rigid holder loads the flank (from memory)
 * @source pitch x speed (definition)
 */
export function tapFeedError(given: {
  feed_mm_min: Given;
  pitch_mm: Given;
  spindle_rpm: Given;
  depth_mm: Given;
  starts?: Given;
}): number | Absent {
  const rules = {
    feed_mm_min: notNegative,
    pitch_mm: positive,
    spindle_rpm: positive,
    depth_mm: notNegative,
    starts,
  };
  return compute(given, rules, v => {
    const exact = v.pitch_mm * v.spindle_rpm * v.starts;
    return ((v.feed_mm_min - exact) / exact) * v.depth_mm;
  });
}

/**
 * Torque of a cutting tap.
 * @formula M = K P^2 D kc / 8000, K = 1 for a sharp cutting tap, 1.5 to 2 in use, forming taps 1.5 to 2.5
 * @units pitch_mm mm, diameter_mm mm, specific_force_n_mm2 N/mm2, condition (K, 1 when left out); gives N m as an estimate
 * @range P, D and K over 0, kc 0 or more; packed chips in a blind hole raise it further
 * @source common handbook form; factors from memory
 */
export function tapTorque(given: {
  pitch_mm: Given;
  diameter_mm: Given;
  specific_force_n_mm2: Given;
  condition?: Given;
}): Estimate | Absent {
  const rules = {
    pitch_mm: positive,
    diameter_mm: positive,
    specific_force_n_mm2: notNegative,
    condition: optional(positive, 1),
  };
  return compute(given, rules, v => ({
    ...forceEstimate((v.condition * v.pitch_mm ** 2 * v.diameter_mm * v.specific_force_n_mm2) / 8000, 1),
    basis: `handbook form, condition factor ${v.condition} (sharp 1, in use 1.5 to 2), 20 % scatter`,
  }));
}

/**
 * Torsional stress in the root of a tap or any round shank.
 * @formula tau = 16 M / (pi d^3)
 * @units torque_nm N m, root_diameter_mm mm; gives N/mm2
 * @range M 0 or more, d over 0; high-speed steel breaks at 800 to 1000, keep under a third (from memory)
 * @source torsion of a round bar
 */
export function torsionalStress(given: { torque_nm: Given; root_diameter_mm: Given }): number | Absent {
  return compute(
    given,
    { torque_nm: notNegative, root_diameter_mm: positive },
    v => (16_000 * v.torque_nm) / (Math.PI * v.root_diameter_mm ** 3),
  );
}

/**
 * Turns that a spindle needs to stop.
 * @formula turns = n^2 / (7200 alpha)
 * @units spindle_rpm rev/min, spindle_acceleration_rev_s2 rev/s2; gives revolutions
 * @range n 0 or more, alpha over 0
 * @source omega^2 / (2 alpha) in turns
 */
export function stoppingTurns(given: {
  spindle_rpm: Given;
  spindle_acceleration_rev_s2: Given;
}): number | Absent {
  return compute(
    given,
    { spindle_rpm: notNegative, spindle_acceleration_rev_s2: positive },
    v => (v.spindle_rpm * (v.spindle_rpm / v.spindle_acceleration_rev_s2)) / 7200,
  );
}

/**
 * Depth that a hole must have for a thread of full depth: chamfer of the tap and turns to stop are added.
 * @formula hole = thread + chamfer threads P + stopping turns P
 * @units thread_depth_mm mm, pitch_mm mm, chamfer_threads (taper 7 to 9, plug 3 to 5, bottoming 1 to 2), stopping_turns (0 when left out); gives mm of full diameter
 * @range all 0 or more, P over 0; through holes need none of it
 * @source common practice, no source
 */
export function holeDepthForThread(given: {
  thread_depth_mm: Given;
  pitch_mm: Given;
  chamfer_threads: Given;
  stopping_turns?: Given;
}): number | Absent {
  const rules = {
    thread_depth_mm: notNegative,
    pitch_mm: positive,
    chamfer_threads: notNegative,
    stopping_turns: optional(notNegative, 0),
  };
  return compute(given, rules, v => v.thread_depth_mm + (v.chamfer_threads + v.stopping_turns) * v.pitch_mm);
}

/**
 * Time of a synchronised tapping cycle, in and out, with the spindle's reversals.
 * @formula t = 60 (2 depth / (P n)) + 2 n/(60 alpha)
 * @units depth_mm mm, pitch_mm mm, spindle_rpm rev/min, spindle_acceleration_rev_s2 rev/s2; gives s
 * @range depth 0 or more, P, n and alpha over 0
 * @source kinematics of constant angular acceleration
 */
export function tappingTime(given: {
  depth_mm: Given;
  pitch_mm: Given;
  spindle_rpm: Given;
  spindle_acceleration_rev_s2: Given;
}): number | Absent {
  const rules = {
    depth_mm: notNegative,
    pitch_mm: positive,
    spindle_rpm: positive,
    spindle_acceleration_rev_s2: positive,
  };
  return compute(given, rules, v => {
    const cut = (120 * v.depth_mm) / (v.pitch_mm * v.spindle_rpm);
    return cut + (2 * v.spindle_rpm) / (60 * v.spindle_acceleration_rev_s2);
  });
}
