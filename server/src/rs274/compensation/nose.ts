import type { Flat } from './element.ts';
import { type CompensationSink, type CompensationState, startCompensation } from './offset.ts';

/**
 * Direction from the centre of the nose to the point that the program moves (imaginary tip), by tip number 1 to 9, along
 * +X and +Z. 3 = outside turning towards the chuck, 2 = boring, 9 and 0 = the centre itself.
 * Common practice, no source.
 */
const TIP: readonly (readonly [x: number, z: number])[] = [
  [0, 0],
  [1, 1],
  [1, -1],
  [-1, -1],
  [-1, 1],
  [0, 1],
  [1, 0],
  [0, -1],
  [-1, 0],
  [0, 0],
];

/**
 * Tip number of the report's successor in the numbering here: its drawing is turned over along X, so that 2 is outside
 * turning towards the chuck and 3 is boring. Source: from memory. Other numbers are returned as they are.
 */
export function tipOfReport(orientation: number): number {
  return [0, 4, 3, 2, 1, 5, 8, 7, 6, 9][orientation] ?? orientation;
}

/**
 * Distance from the nose centre to the imaginary tip in the ZX plane (first axis Z, second X), mm.
 * Undefined for a tip number outside 0 to 9.
 */
export function tipShift(tip_number: number, nose_radius_mm: number): Flat | undefined {
  const tip = TIP[tip_number];
  return tip && { first: tip[1] * nose_radius_mm, second: tip[0] * nose_radius_mm };
}

/**
 * Starts nose radius compensation: the programmed point stands at `tip_at`, the path is offset at the nose centre.
 * `entry_from_tip`: the entry move is measured from the tip instead (the report's successor, from memory).
 */
export function startNoseCompensation<T>(
  tip_at: Flat,
  normal: number,
  shift: Flat,
  entry_from_tip = false,
): CompensationState<T> {
  const centre = { first: tip_at.first - shift.first, second: tip_at.second - shift.second };
  const state = startCompensation<T>(centre, normal);
  return entry_from_tip ? { ...state, entry_from: tip_at } : state;
}

/** Passes the path of the nose centre on as the path of the imaginary tip. */
export function tipSink<T>(sink: CompensationSink<T>, shift: Flat): CompensationSink<T> {
  const tip = (at: Flat): Flat => ({ first: at.first + shift.first, second: at.second + shift.second });
  return {
    line: (to, normal, tag) => sink.line(tip(to), normal, tag),
    arc: (to, normal, turn, tag, corner) =>
      sink.arc(tip(to), normal, { centre: tip(turn.centre), sweep_rad: turn.sweep_rad }, tag, corner),
    problem: problem => sink.problem(problem),
  };
}
