import { compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

const exponent = { accepts: (n: number) => n > 0 && n < 1, says: 'must be over 0 and under 1' };

/** Tool life and the speed that gives it. */
export interface EconomicSpeed {
  readonly life_min: number;
  readonly surface_speed_m_min: number;
}

/**
 * Speed and tool life of least cost.
 * @formula T = (1/n - 1)(t_change + Ct/Co); v = C / T^n
 * @units c_m_min m/min, n, tool_change_min min, machine_cost_per_min money/min (Co), tool_cost money an edge (Ct); gives min and m/min
 * @range C and Co over 0, n over 0 and under 1, t_change and Ct 0 or more, not both 0
 * @source Gilbert 1950; Groover, Fundamentals of Modern Manufacturing
 */
export function leastCostSpeed(given: {
  c_m_min: Given;
  n: Given;
  tool_change_min: Given;
  machine_cost_per_min: Given;
  tool_cost: Given;
}): EconomicSpeed | Absent {
  const rules = {
    c_m_min: positive,
    n: exponent,
    tool_change_min: notNegative,
    machine_cost_per_min: positive,
    tool_cost: notNegative,
  };
  return compute(given, rules, v =>
    atLife(v, (1 / v.n - 1) * (v.tool_change_min + v.tool_cost / v.machine_cost_per_min)),
  );
}

/**
 * Speed and tool life of most parts an hour.
 * @formula T = (1/n - 1) t_change; v = C / T^n
 * @units c_m_min m/min, n, tool_change_min min; gives min and m/min
 * @range C and t_change over 0, n over 0 and under 1
 * @source Gilbert 1950; Groover, Fundamentals of Modern Manufacturing
 */
export function mostPartsSpeed(given: {
  c_m_min: Given;
  n: Given;
  tool_change_min: Given;
}): EconomicSpeed | Absent {
  return compute(given, { c_m_min: positive, n: exponent, tool_change_min: positive }, v =>
    atLife(v, (1 / v.n - 1) * v.tool_change_min),
  );
}

function atLife(v: { c_m_min: number; n: number }, life_min: number): EconomicSpeed | Absent {
  if (!(life_min > 0)) return absent('an edge that costs nothing has no least-cost life');
  return { life_min, surface_speed_m_min: v.c_m_min / life_min ** v.n };
}

/**
 * Cost of a part.
 * @formula Co (t_handling + t_cut + t_change t_cut/T) + Ct t_cut/T
 * @units machine_cost_per_min money/min, handling_min, cut_min, tool_change_min and life_min min, tool_cost money an edge; gives money
 * @range T over 0, others 0 or more
 * @source Gilbert 1950; Groover, Fundamentals of Modern Manufacturing
 */
export function partCost(given: {
  machine_cost_per_min: Given;
  handling_min: Given;
  cut_min: Given;
  tool_change_min: Given;
  life_min: Given;
  tool_cost: Given;
}): number | Absent {
  const rules = {
    machine_cost_per_min: notNegative,
    handling_min: notNegative,
    cut_min: notNegative,
    tool_change_min: notNegative,
    life_min: positive,
    tool_cost: notNegative,
  };
  return compute(given, rules, v => {
    const edges = v.cut_min / v.life_min;
    const time = v.handling_min + v.cut_min + v.tool_change_min * edges;
    return v.machine_cost_per_min * time + v.tool_cost * edges;
  });
}

/**
 * Time of a program left at a feed override: only feed moves stretch.
 * @formula t = t_feed / k + t_rest
 * @units total_min min at 100 %, fixed_min min (rapids, tool changes), override_percent %; gives min
 * @range total and fixed 0 or more, fixed at most total, override over 0
 * @source only feed moves stretch (definition)
 */
export function timeAtOverride(given: {
  total_min: Given;
  fixed_min: Given;
  override_percent: Given;
}): number | Absent {
  return compute(given, { total_min: notNegative, fixed_min: notNegative, override_percent: positive }, v =>
    v.fixed_min > v.total_min
      ? absent('the fixed part is more than the whole')
      : ((v.total_min - v.fixed_min) * 100) / v.override_percent + v.fixed_min,
  );
}

/**
 * Money that a difference in time costs.
 * @formula cost = rate (t - t0)/60 x parts
 * @units minutes min, planned_min min, rate_per_hour money/h, parts count (1 when left out); gives money, negative when faster
 * @range times and rate 0 or more, parts over 0
 * @source definition
 */
export function costOfTime(given: {
  minutes: Given;
  planned_min: Given;
  rate_per_hour: Given;
  parts?: Given;
}): number | Absent {
  const rules = {
    minutes: notNegative,
    planned_min: notNegative,
    rate_per_hour: notNegative,
    parts: optional(positive, 1),
  };
  return compute(given, rules, v => (v.rate_per_hour * (v.minutes - v.planned_min) * v.parts) / 60);
}
