/** Chuck, jaws, tailstock, steady rest: does the cutting end or the holder of a lathe tool run into one of them on a move. */
import type { KeepOutBox } from './keep-out.ts';

/** A part of a tool in the plane of the axis: from and to, from the programmed point on, towards the tailstock and away from the axis; mm. */
export interface LatheBody {
  readonly z_mm: readonly [from: number, to: number];
  readonly x_mm: readonly [from: number, to: number];
}

export interface LatheHit {
  /** Index into the list of boxes. */
  readonly box: number;
  /** Programmed point where it first touches: z and radius, mm. */
  readonly at: readonly [z: number, x: number];
}

type Point = readonly [z: number, x: number];

const touching_mm = 0.005;

/**
 * First contact with each box on a straight move of the programmed point. A box stands for what turns with it: X and Y of its corners only say
 * between which distances from the axis it lies (0 when it reaches over the axis); a body that reaches over the axis meets it on the other
 * side, too. Touching without overlap is no contact.
 */
export function latheHits(from: Point, to: Point, body: LatheBody, boxes: readonly KeepOutBox[]): LatheHit[] {
  const hits: LatheHit[] = [];
  boxes.forEach(({ low, high }, box) => {
    const inner = low[0] <= 0 && high[0] >= 0 ? 0 : Math.min(Math.abs(low[0]), Math.abs(high[0]));
    const outer = Math.max(Math.abs(low[0]), Math.abs(high[0]));
    const sides =
      body.x_mm[0] < 0 ? [[inner, outer] as const, [-outer, -inner] as const] : [[inner, outer] as const];
    let first = 2;
    for (const [least, most] of sides) {
      const share = firstInside(
        from,
        to,
        [low[2] - body.z_mm[1] + touching_mm, least - body.x_mm[1] + touching_mm],
        [high[2] - body.z_mm[0] - touching_mm, most - body.x_mm[0] - touching_mm],
      );
      if (share !== undefined) first = Math.min(first, share);
    }
    if (first <= 1)
      hits.push({ box, at: [from[0] + (to[0] - from[0]) * first, from[1] + (to[1] - from[1]) * first] });
  });
  return hits;
}

/** Share of the way at which the point first lies in the rectangle. */
function firstInside(from: Point, to: Point, low: Point, high: Point): number | undefined {
  let enter = 0;
  let leave = 1;
  for (const axis of [0, 1] as const) {
    const way = to[axis] - from[axis];
    if (way === 0) {
      if (from[axis] < low[axis] || from[axis] > high[axis]) return undefined;
      continue;
    }
    const a = (low[axis] - from[axis]) / way;
    const b = (high[axis] - from[axis]) / way;
    enter = Math.max(enter, Math.min(a, b));
    leave = Math.min(leave, Math.max(a, b));
  }
  return enter <= leave ? enter : undefined;
}
