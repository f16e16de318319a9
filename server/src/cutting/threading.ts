import { radians } from './angles.ts';
import { between, compute, notNegative, optional, positive, wholeNumber } from './compute.ts';
import { forceEstimate, slope } from './kienzle.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { absent } from './result.ts';

/** Height of a 60-degree thread over its pitch: outside (to the screw's root) and inside (to the nut's minor diameter). */
export const THREAD_DEPTH_SHARE = { external: 0.6134, internal: 0.5413 } as const;
const MOST_PASSES = 1000;

/**
 * Depth of a single-point thread.
 * @formula outside 0.6134 P, inside 0.5413 P
 * @units pitch_mm mm, side; gives mm on the radius
 * @range P over 0
 * @source ISO 68-1
 */
export function threadDepth(given: { pitch_mm: Given; side: 'external' | 'internal' }): number | Absent {
  const share = given.side === 'internal' ? THREAD_DEPTH_SHARE.internal : THREAD_DEPTH_SHARE.external;
  return compute({ pitch_mm: given.pitch_mm }, { pitch_mm: positive }, v => share * v.pitch_mm);
}

/**
 * Depth reached after a pass when every pass takes the same chip area.
 * @formula depth_i = h sqrt(i / N)
 * @units thread_depth_mm mm (h), passes (N), pass (i); gives mm
 * @range h over 0, N a whole number 1 to 1000, i from 0 to N
 * @source equal chip area of a V groove (geometry)
 */
export function infeedDepth(given: { thread_depth_mm: Given; passes: Given; pass: Given }): number | Absent {
  const rules = {
    thread_depth_mm: positive,
    passes: wholeNumber(1, MOST_PASSES),
    pass: wholeNumber(0, MOST_PASSES),
  };
  return compute(given, rules, v =>
    v.pass > v.passes
      ? absent('that pass is after the last')
      : v.thread_depth_mm * Math.sqrt(v.pass / v.passes),
  );
}

/**
 * Depths of all passes from the first infeed, equal area, held at a least infeed, with spring passes at full depth.
 * @formula depth_i = first sqrt(i), each at least the least infeed deeper than the one before, the last at h
 * @units thread_depth_mm mm, first_infeed_mm mm, least_infeed_mm mm (0 when left out), spring_passes (0); gives mm from the surface, one a pass
 * @range h and first over 0, least 0 or more, spring passes 0 to 10; at most 1000 passes
 * @source equal chip area; least infeed of 0.05 to 0.1 mm: common practice, no source
 */
export function infeedPasses(given: {
  thread_depth_mm: Given;
  first_infeed_mm: Given;
  least_infeed_mm?: Given;
  spring_passes?: Given;
}): Float64Array | Absent {
  const rules = {
    thread_depth_mm: positive,
    first_infeed_mm: positive,
    least_infeed_mm: optional(notNegative, 0),
    spring_passes: optional(wholeNumber(0, 10), 0),
  };
  return compute(given, rules, v => {
    const depths: number[] = [];
    let depth = 0;
    while (depth < v.thread_depth_mm) {
      if (depths.length >= MOST_PASSES) return absent(`more than ${MOST_PASSES} passes`);
      const equal = v.first_infeed_mm * Math.sqrt(depths.length + 1);
      const next = Math.min(v.thread_depth_mm, Math.max(equal, depth + v.least_infeed_mm));
      depth = v.thread_depth_mm - next < 1e-9 * v.thread_depth_mm ? v.thread_depth_mm : next;
      depths.push(depth);
    }
    for (let i = 0; i < v.spring_passes; i++) depths.push(v.thread_depth_mm);
    return Float64Array.from(depths);
  });
}

/**
 * Number of equal-area passes that start with a given infeed.
 * @formula N = ceil((h / a1)^2)
 * @units thread_depth_mm mm, first_infeed_mm mm; gives a count
 * @range h and a1 over 0
 * @source equal chip area of a V groove (geometry)
 */
export function infeedPassCount(given: { thread_depth_mm: Given; first_infeed_mm: Given }): number | Absent {
  return compute(given, { thread_depth_mm: positive, first_infeed_mm: positive }, v =>
    Math.max(1, Math.ceil((v.thread_depth_mm / v.first_infeed_mm) ** 2 - 1e-9)),
  );
}

/**
 * Highest spindle speed at which the axis can follow a thread.
 * @formula n = vf_max / lead
 * @units max_feed_mm_min mm/min, lead_mm mm; gives rev/min
 * @range both over 0
 * @source pitch x speed (definition)
 */
export function threadSpindleLimit(given: { max_feed_mm_min: Given; lead_mm: Given }): number | Absent {
  return compute(given, { max_feed_mm_min: positive, lead_mm: positive }, v => v.max_feed_mm_min / v.lead_mm);
}

/**
 * Run-up before a thread so that the servo's lag has settled to an allowed pitch error.
 * @formula distance = v tau (ln(1/e) - 1 + e), v = lead n / 60
 * @units lead_mm mm, spindle_rpm rev/min, time_constant_s s, pitch_error share of the pitch; gives mm
 * @range lead and n over 0, tau 0 or more, e over 0 and at most 1
 * @source first-order lag integrated to the time the error falls to e
 */
export function threadRunUp(given: {
  lead_mm: Given;
  spindle_rpm: Given;
  time_constant_s: Given;
  pitch_error: Given;
}): number | Absent {
  const rules = {
    lead_mm: positive,
    spindle_rpm: positive,
    time_constant_s: notNegative,
    pitch_error: { accepts: (e: number) => e > 0 && e <= 1, says: 'must be over 0 and at most 1' },
  };
  return compute(given, rules, v => {
    const settle = -Math.log(v.pitch_error) - 1 + v.pitch_error;
    return ((v.lead_mm * v.spindle_rpm) / 60) * v.time_constant_s * Math.max(0, settle);
  });
}

/**
 * Run-up that acceleration alone needs, and run-out that the lag needs.
 * @formula run-up v^2/(2 a), run-out v tau, v = lead n / 60
 * @units lead_mm mm, spindle_rpm rev/min, acceleration_m_s2 m/s2, time_constant_s s (0 when left out); gives mm
 * @range lead, n and a over 0, tau 0 or more
 * @source kinematics of constant acceleration; first-order lag
 */
export function threadRunUpKinematic(given: {
  lead_mm: Given;
  spindle_rpm: Given;
  acceleration_m_s2: Given;
  time_constant_s?: Given;
}): { readonly run_up_mm: number; readonly run_out_mm: number } | Absent {
  const rules = {
    lead_mm: positive,
    spindle_rpm: positive,
    acceleration_m_s2: positive,
    time_constant_s: optional(notNegative, 0),
  };
  return compute(given, rules, v => {
    const speed = (v.lead_mm * v.spindle_rpm) / 60;
    return {
      run_up_mm: (speed * (speed / v.acceleration_m_s2)) / 2000,
      run_out_mm: speed * v.time_constant_s,
    };
  });
}

/**
 * Cutting force of one radial threading pass: the chip of both flanks.
 * @formula h = (t2 - t1) sin(a/2), b = (t2 + t1)/cos(a/2), Fc = kc1.1 b h^(1 - mc) K; b h is the area between the two depths
 * @units kc11_n_mm2 N/mm2, mc, depth_before_mm mm, depth_after_mm mm, included_angle_deg degrees (60 when left out), correction (1); gives N as an estimate
 * @range kc1.1 over 0, depths 0 or more and growing, angle between 0 and 180
 * @source Kienzle 1952 with the geometry of a V groove, derived here
 */
export function threadPassForce(given: {
  kc11_n_mm2: Given;
  mc: Given;
  depth_before_mm: Given;
  depth_after_mm: Given;
  included_angle_deg?: Given;
  correction?: Given;
}): Estimate | Absent {
  const rules = {
    kc11_n_mm2: positive,
    mc: slope,
    depth_before_mm: notNegative,
    depth_after_mm: notNegative,
    included_angle_deg: optional(between(0, 180, 'open'), 60),
    correction: optional(positive, 1),
  };
  return compute(given, rules, v => {
    if (v.depth_after_mm < v.depth_before_mm) return absent('the pass does not go deeper');
    const half = radians(v.included_angle_deg) / 2;
    const h = (v.depth_after_mm - v.depth_before_mm) * Math.sin(half);
    const b = (v.depth_after_mm + v.depth_before_mm) / Math.cos(half);
    return forceEstimate(v.kc11_n_mm2 * b * h ** (1 - v.mc) * v.correction, h);
  });
}
