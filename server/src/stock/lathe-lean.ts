/** Moves on which an edge past 90 degrees takes off what it left: two radii over z hold no such overhang. */
import type { TurningTool } from './turning-tool.ts';

type Point = readonly [z: number, x: number];

/** How far beside the nose the shoulder may stand, mm. */
const beside_mm = 0.02;

/**
 * Whether a move goes out along a shoulder that the leading edge leans over: the wedge under the edge comes off, which the
 * bar does not show. `heightAt` is the height of the bar at a z.
 */
export function leansOver(
  from: Point,
  to: Point,
  { lean, lead, z, inward }: TurningTool,
  heightAt: (z: number) => number,
): boolean {
  const out = (to[1] - from[1]) * inward;
  if (!(lean > 0 && out > 0)) return false;
  const away = (from[0] - to[0]) * lead;
  if (away >= out * lean || -away > out) return false;
  const edge = from[0] + (lead < 0 ? z[0] : z[z.length - 1]);
  return heightAt(edge + lead * beside_mm) > from[1] * inward + beside_mm;
}
