import { compute, notNegative, optional, positive, wholeNumber } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** Share of the static grip that spinning may take away. */
export const SPIN_SHARE_LIMIT = 0.67;

const jawRules = {
  jaw_mass_kg: positive,
  jaw_radius_mm: positive,
  jaws: wholeNumber(1, 12),
  spindle_rpm: notNegative,
};

/** Force with which the jaws want to fly out, N. */
const spin = (v: { jaw_mass_kg: number; jaw_radius_mm: number; jaws: number; spindle_rpm: number }) =>
  ((v.jaws * v.jaw_mass_kg * v.jaw_radius_mm) / 1000) * ((Math.PI * v.spindle_rpm) / 30) ** 2;

/**
 * Force that the jaws of a chuck lose to spinning.
 * @formula Fc = sum(m r) omega^2
 * @units jaw_mass_kg kg a jaw, jaw_radius_mm mm (centre of mass), jaws count, spindle_rpm rev/min; gives N, all jaws together
 * @range m and r over 0, 1 to 12 jaws, n 0 or more
 * @source VDI 3106
 */
export function jawSpinForce(given: {
  jaw_mass_kg: Given;
  jaw_radius_mm: Given;
  jaws: Given;
  spindle_rpm: Given;
}): number | Absent {
  return compute(given, jawRules, spin);
}

/**
 * Grip that is left at speed.
 * @formula gripped from outside F = F0 - Fc, at least 0; gripped from inside F = F0 + Fc
 * @units static_force_n N (all jaws), jaw_mass_kg kg a jaw, jaw_radius_mm mm, jaws count, spindle_rpm rev/min, from inside or outside; gives N
 * @range F0 0 or more; others as jawSpinForce
 * @source VDI 3106
 */
export function gripAtSpeed(given: {
  static_force_n: Given;
  jaw_mass_kg: Given;
  jaw_radius_mm: Given;
  jaws: Given;
  spindle_rpm: Given;
  grip: 'outside' | 'inside';
}): number | Absent {
  const { grip, ...numbers } = given;
  return compute(numbers, { ...jawRules, static_force_n: notNegative }, v =>
    grip === 'inside' ? v.static_force_n + spin(v) : Math.max(0, v.static_force_n - spin(v)),
  );
}

/**
 * Highest speed at which a chuck keeps a third of its grip.
 * @formula n = (30/pi) sqrt(0.67 F0 / sum(m r))
 * @units static_force_n N, jaw_mass_kg kg a jaw, jaw_radius_mm mm, jaws count; gives rev/min
 * @range F0 0 or more, m and r over 0, 1 to 12 jaws; the chuck plate's figure rules, soft or tall jaws lower it
 * @source EN 1550 (spinning may take 67 % of the static grip), quoted in chuck manuals; DIN 6386
 */
export function chuckSpeedLimit(given: {
  static_force_n: Given;
  jaw_mass_kg: Given;
  jaw_radius_mm: Given;
  jaws: Given;
}): number | Absent {
  const { jaw_mass_kg, jaw_radius_mm, jaws } = jawRules;
  return compute(given, { jaw_mass_kg, jaw_radius_mm, jaws, static_force_n: notNegative }, v => {
    const arm_kg_m = (v.jaws * v.jaw_mass_kg * v.jaw_radius_mm) / 1000;
    return (30 / Math.PI) * Math.sqrt((SPIN_SHARE_LIMIT * v.static_force_n) / arm_kg_m);
  });
}

/**
 * How surely a chuck holds against the cut: torque that friction bears over the torque of the cut.
 * @formula safety = mu F r_jaw / (Fc r_work)
 * @units grip_force_n N (all jaws, at speed), friction (0.1 to 0.15 smooth, 0.2 to 0.3 serrated), jaw_radius_mm mm (where the jaws touch), cutting_force_n N, work_radius_mm mm (where the tool cuts); gives a factor
 * @range all over 0 but grip 0 or more; 1.5 to 2 is asked for
 * @source friction; VDI 3106 for the factors; friction values from memory
 */
export function chuckHoldingSafety(given: {
  grip_force_n: Given;
  friction: Given;
  jaw_radius_mm: Given;
  cutting_force_n: Given;
  work_radius_mm: Given;
}): number | Absent {
  const rules = {
    grip_force_n: notNegative,
    friction: positive,
    jaw_radius_mm: positive,
    cutting_force_n: positive,
    work_radius_mm: positive,
  };
  return compute(
    given,
    rules,
    v => (v.friction * v.grip_force_n * v.jaw_radius_mm) / (v.cutting_force_n * v.work_radius_mm),
  );
}

/**
 * How surely a vise or clamps hold against a force along the jaws or under the clamps.
 * @formula safety = faces mu F / Fc
 * @units clamp_force_n N, friction, faces (2 for a vise: both jaws), cutting_force_n N; gives a factor
 * @range F 0 or more, mu and Fc over 0, faces 1 to 100; 1.5 to 2 is asked for
 * @source friction; friction values from memory
 */
export function viseHoldingSafety(given: {
  clamp_force_n: Given;
  friction: Given;
  cutting_force_n: Given;
  faces?: Given;
}): number | Absent {
  const rules = {
    clamp_force_n: notNegative,
    friction: positive,
    cutting_force_n: positive,
    faces: optional(wholeNumber(1, 100), 2),
  };
  return compute(given, rules, v => (v.faces * v.friction * v.clamp_force_n) / v.cutting_force_n);
}

/**
 * Grip that a cut asks of a chuck.
 * @formula F = S Fc r_work / (mu r_jaw)
 * @units cutting_force_n N, work_radius_mm mm, jaw_radius_mm mm, friction, safety (1.5 to 2); gives N at speed, all jaws
 * @range Fc 0 or more, others over 0
 * @source friction; VDI 3106 for the factors
 */
export function gripForCut(given: {
  cutting_force_n: Given;
  work_radius_mm: Given;
  jaw_radius_mm: Given;
  friction: Given;
  safety: Given;
}): number | Absent {
  const rules = {
    cutting_force_n: notNegative,
    work_radius_mm: positive,
    jaw_radius_mm: positive,
    friction: positive,
    safety: positive,
  };
  return compute(given, rules, v => {
    const needed = (v.safety * v.cutting_force_n * v.work_radius_mm) / (v.friction * v.jaw_radius_mm);
    return Number.isFinite(needed) ? needed : absent('the result is too large to state');
  });
}
