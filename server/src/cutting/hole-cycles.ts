import { compute, notNegative, optional, positive } from './compute.ts';
import type { Absent, Given } from './result.ts';
import { absent } from './result.ts';

/** How a drilling cycle goes in and out: straight (G81, G82), out of the hole each time (G83), a short way back (G73), out at feed (G85). */
export type HoleCycle = 'straight' | 'peck' | 'chip-break' | 'feed-out';
const MOST_PECKS = 10_000;

/**
 * Number of pecks of a hole.
 * @formula ceil(depth / Q)
 * @units depth_mm mm, peck_mm mm; gives a count
 * @range depth 0 or more, Q over 0
 * @source move by move; NISTIR 6556, G83
 */
export function peckCount(given: { depth_mm: Given; peck_mm: Given }): number | Absent {
  return compute(given, { depth_mm: notNegative, peck_mm: positive }, v =>
    Math.ceil(v.depth_mm / v.peck_mm - 1e-9),
  );
}

const rules = {
  depth_mm: notNegative,
  clearance_mm: notNegative,
  feed_mm_min: positive,
  rapid_mm_min: positive,
  peck_mm: optional(positive, Number.MAX_VALUE),
  retract_mm: optional(notNegative, 0),
  dwell_s: optional(notNegative, 0),
};
type Hole = { [K in keyof typeof rules]: number };

/**
 * Time of one hole from the retract plane and back to it, at programmed speeds.
 * @formula straight: (R + depth)/vf + (R + depth)/rapid + dwell; peck: each peck from just above the last depth at feed, out to R and back at rapid; chip-break: a short way back at rapid after each peck, fed again; feed-out: back at feed
 * @units depth_mm mm, clearance_mm mm (R plane above the work), feed_mm_min and rapid_mm_min mm/min, peck_mm mm, retract_mm mm (chip-break: way back; peck: gap above the last depth), dwell_s s, cycle; gives s
 * @range depth, clearance, retract and dwell 0 or more, feeds and peck over 0, at most 10000 pecks; no acceleration
 * @source NISTIR 6556, canned cycles, move by move
 */
export function holeTime(given: {
  cycle: HoleCycle;
  depth_mm: Given;
  clearance_mm: Given;
  feed_mm_min: Given;
  rapid_mm_min: Given;
  peck_mm?: Given;
  retract_mm?: Given;
  dwell_s?: Given;
}): number | Absent {
  const { cycle, ...numbers } = given;
  if ((cycle === 'peck' || cycle === 'chip-break') && given.peck_mm === undefined)
    return absent('peck not known', ['peck_mm']);
  return compute(numbers, rules, v => {
    const { fed, rapid } = distances(cycle, v);
    if (fed === undefined) return absent(`more than ${MOST_PECKS} pecks`);
    return 60 * (fed / v.feed_mm_min + rapid / v.rapid_mm_min) + v.dwell_s;
  });
}

function distances(cycle: HoleCycle, v: Hole): { fed?: number; rapid: number } {
  const way = v.clearance_mm + v.depth_mm;
  if (cycle === 'feed-out') return { fed: 2 * way, rapid: 0 };
  if (cycle === 'straight') return { fed: way, rapid: way };
  const pecks = Math.max(1, Math.ceil(v.depth_mm / v.peck_mm - 1e-9));
  if (pecks > MOST_PECKS) return { rapid: 0 };
  const back = Math.min(v.retract_mm, v.peck_mm);
  if (cycle === 'chip-break') return { fed: way + (pecks - 1) * back, rapid: way + (pecks - 1) * back };
  let rapid = way;
  for (let peck = 1; peck < pecks; peck++) rapid += 2 * (v.clearance_mm + peck * v.peck_mm) - back;
  return { fed: way + (pecks - 1) * back, rapid };
}

/**
 * Time to drill through or to a depth with the point counted.
 * @formula t = 60 (depth + D/(2 tan(sigma/2)))/vf
 * @units depth_mm mm of full diameter, point_length_mm mm (0 when left out), feed_mm_min mm/min; gives s
 * @range depth and point 0 or more, vf over 0
 * @source Groover, Fundamentals of Modern Manufacturing
 */
export function drillTime(given: {
  depth_mm: Given;
  point_length_mm?: Given;
  feed_mm_min: Given;
}): number | Absent {
  const own = { depth_mm: notNegative, point_length_mm: optional(notNegative, 0), feed_mm_min: positive };
  return compute(given, own, v => (60 * (v.depth_mm + v.point_length_mm)) / v.feed_mm_min);
}

/**
 * Dwell that lets a tool clean up a floor: a number of turns.
 * @formula t = 60 turns / n
 * @units turns (1 to 2 suffice), spindle_rpm rev/min; gives s
 * @range turns 0 or more, n over 0
 * @source definition; one to two turns: common practice, no source
 */
export function dwellForTurns(given: { turns: Given; spindle_rpm: Given }): number | Absent {
  return compute(given, { turns: notNegative, spindle_rpm: positive }, v => (60 * v.turns) / v.spindle_rpm);
}
