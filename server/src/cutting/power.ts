import type { Column, ColumnResult } from './compute.ts';
import { compute, computeColumn, notNegative, optional, positive, share } from './compute.ts';
import type { Absent, Given } from './result.ts';

const forceRules = { force_n: notNegative, surface_speed_m_min: notNegative };
const fromForce = (v: { force_n: number; surface_speed_m_min: number }) =>
  (v.force_n * v.surface_speed_m_min) / 60_000;

/**
 * Cutting power out of the cutting force.
 * @formula P = Fc vc / 60000
 * @units force_n N, surface_speed_m_min m/min; gives kW
 * @range both 0 or more
 * @source work per time (definition); ISO 3002-4
 */
export function powerFromForce(given: { force_n: Given; surface_speed_m_min: Given }): number | Absent {
  return compute(given, forceRules, fromForce);
}

/**
 * Cutting power out of the cutting force for many rows at once.
 * @formula P = Fc vc / 60000, row by row
 * @units as powerFromForce; each input one number or an array
 * @range as powerFromForce; rows outside it carry a reason
 * @source work per time (definition); ISO 3002-4
 */
export function powerFromForceColumn(given: { force_n: Column; surface_speed_m_min: Column }): ColumnResult {
  return computeColumn(given, forceRules, fromForce);
}

const removalRules = { removal_cm3_min: notNegative, specific_force_n_mm2: notNegative };
const fromRemoval = (v: { removal_cm3_min: number; specific_force_n_mm2: number }) =>
  (v.removal_cm3_min * v.specific_force_n_mm2) / 60_000;

/**
 * Cutting power out of the removal rate. The specific force is the same number as the specific energy: 1 W s/mm3 = 1000 N/mm2.
 * @formula P = Q kc / 60000
 * @units removal_cm3_min cm3/min, specific_force_n_mm2 N/mm2; gives kW
 * @range both 0 or more
 * @source work per time (definition); Dietrich and Tschaetsch, Praxis der Zerspantechnik
 */
export function powerFromRemoval(given: {
  removal_cm3_min: Given;
  specific_force_n_mm2: Given;
}): number | Absent {
  return compute(given, removalRules, fromRemoval);
}

/**
 * Cutting power out of the removal rate for many rows at once.
 * @formula P = Q kc / 60000, row by row
 * @units as powerFromRemoval; each input one number or an array
 * @range as powerFromRemoval; rows outside it carry a reason
 * @source work per time (definition)
 */
export function powerFromRemovalColumn(given: {
  removal_cm3_min: Column;
  specific_force_n_mm2: Column;
}): ColumnResult {
  return computeColumn(given, removalRules, fromRemoval);
}

/**
 * Cutting force out of power and surface speed.
 * @formula Fc = 60000 P / vc
 * @units power_kw kW, surface_speed_m_min m/min; gives N
 * @range P 0 or more, vc over 0
 * @source work per time (definition)
 */
export function forceFromPower(given: { power_kw: Given; surface_speed_m_min: Given }): number | Absent {
  return compute(
    given,
    { power_kw: notNegative, surface_speed_m_min: positive },
    v => (60_000 * v.power_kw) / v.surface_speed_m_min,
  );
}

const torqueRules = { power_kw: notNegative, spindle_rpm: positive };
const torque = (v: { power_kw: number; spindle_rpm: number }) =>
  (30_000 * v.power_kw) / (Math.PI * v.spindle_rpm);

/**
 * Torque at the spindle out of power and speed.
 * @formula M = 30000 P / (pi n) = 9549.3 P / n
 * @units power_kw kW, spindle_rpm rev/min; gives N m
 * @range P 0 or more, n over 0
 * @source power = torque x angular speed (definition)
 */
export function torqueFromPower(given: { power_kw: Given; spindle_rpm: Given }): number | Absent {
  return compute(given, torqueRules, torque);
}

/**
 * Torque at the spindle for many rows at once.
 * @formula M = 30000 P / (pi n), row by row
 * @units as torqueFromPower; each input one number or an array
 * @range as torqueFromPower; rows outside it carry a reason
 * @source power = torque x angular speed (definition)
 */
export function torqueFromPowerColumn(given: { power_kw: Column; spindle_rpm: Column }): ColumnResult {
  return computeColumn(given, torqueRules, torque);
}

/**
 * Torque of a force at the edge of a tool or workpiece.
 * @formula M = Fc D / 2000
 * @units force_n N, diameter_mm mm; gives N m
 * @range F 0 or more, D over 0
 * @source force times lever (definition)
 */
export function torqueFromForce(given: { force_n: Given; diameter_mm: Given }): number | Absent {
  return compute(
    given,
    { force_n: notNegative, diameter_mm: positive },
    v => (v.force_n * v.diameter_mm) / 2000,
  );
}

/**
 * Power out of torque and speed.
 * @formula P = pi M n / 30000
 * @units torque_nm N m, spindle_rpm rev/min; gives kW
 * @range both 0 or more
 * @source power = torque x angular speed (definition)
 */
export function powerFromTorque(given: { torque_nm: Given; spindle_rpm: Given }): number | Absent {
  return compute(
    given,
    { torque_nm: notNegative, spindle_rpm: notNegative },
    v => (Math.PI * v.torque_nm * v.spindle_rpm) / 30_000,
  );
}

/**
 * Power that the motor must give for a cutting power.
 * @formula Pm = P / eta + idle
 * @units power_kw kW, efficiency share of 1 (usual 0.7 to 0.85), idle_kw kW (0 when left out); gives kW
 * @range P and idle 0 or more, eta over 0 and at most 1
 * @source Machinery's Handbook, power at the motor; efficiencies from memory
 */
export function motorPower(given: { power_kw: Given; efficiency: Given; idle_kw?: Given }): number | Absent {
  const rules = { power_kw: notNegative, efficiency: share, idle_kw: optional(notNegative, 0) };
  return compute(given, rules, v => v.power_kw / v.efficiency + v.idle_kw);
}

/**
 * Specific cutting force measured in one cut.
 * @formula kc = Fc / (b h)
 * @units force_n N, chip_width_mm mm, chip_thickness_mm mm; gives N/mm2
 * @range F 0 or more, b and h over 0
 * @source ISO 3002-4, specific cutting force
 */
export function specificForceFromForce(given: {
  force_n: Given;
  chip_width_mm: Given;
  chip_thickness_mm: Given;
}): number | Absent {
  return compute(
    given,
    { force_n: notNegative, chip_width_mm: positive, chip_thickness_mm: positive },
    v => v.force_n / v.chip_width_mm / v.chip_thickness_mm,
  );
}

/**
 * Motor power by the unit-power method of inch handbooks.
 * @formula P = Kp C Q W / E
 * @units unit_power_hp_in3_min hp/(in3/min), removal_in3_min in3/min, feed_factor (1 when left out), wear_factor (1 when left out), efficiency share of 1; gives hp
 * @range all 0 or more, efficiency over 0 and at most 1; C is 1.0 at a chip of 0.012 in, W 1.1 to 1.6
 * @source Machinery's Handbook, 31st ed., p. 1147 and following
 */
export function motorPowerByUnitPower(given: {
  unit_power_hp_in3_min: Given;
  removal_in3_min: Given;
  efficiency: Given;
  feed_factor?: Given;
  wear_factor?: Given;
}): number | Absent {
  const rules = {
    unit_power_hp_in3_min: notNegative,
    removal_in3_min: notNegative,
    efficiency: share,
    feed_factor: optional(positive, 1),
    wear_factor: optional(positive, 1),
  };
  return compute(
    given,
    rules,
    v => (v.unit_power_hp_in3_min * v.feed_factor * v.removal_in3_min * v.wear_factor) / v.efficiency,
  );
}
