import { angleBetween, cross, distance, dot, type Element, type Flat, minus } from './element.ts';

const SLACK_MM = 1e-4;

/**
 * The point where the end of one offset element meets the start of the next at an inside corner, on what is left of
 * both; undefined when the tool does not fit between them. Of two points the one nearer to the corner counts.
 */
export function insideCorner<T>(before: Element<T>, after: Element<T>): Flat | undefined {
  if (before.kind === 'jump' || after.kind === 'jump') return undefined;
  const fits = crossings(before, after).filter(at => leftOf(before, at) && reachable(after, at));
  let best: Flat | undefined;
  for (const at of fits) {
    if (best === undefined || distance(at, before.vertex) < distance(best, before.vertex)) best = at;
  }
  return best;
}

/** Signed sweep of an offset arc that is left between two points on it. */
export function sweepLeft<T>(arc: Element<T>, from: Flat, to: Flat): number {
  if (arc.radius_mm < SLACK_MM) return arc.sweep_rad;
  return arc.sweep_rad - angleBetween(arc.centre, arc.start, from) - angleBetween(arc.centre, to, arc.end);
}

/** Whether the element still runs forward when it ends at `at`. */
function leftOf<T>(element: Element<T>, at: Flat): boolean {
  if (element.kind === 'line') return dot(minus(at, element.begin), element.out) >= -SLACK_MM;
  const turn = Math.sign(element.sweep_rad);
  return turn * sweepLeft(element, element.begin, at) * element.radius_mm >= -SLACK_MM;
}

/** Whether the element still runs forward when it starts at `at`. */
function reachable<T>(element: Element<T>, at: Flat): boolean {
  if (element.kind === 'line') return dot(minus(element.end, at), element.out) >= -SLACK_MM;
  const turn = Math.sign(element.sweep_rad);
  return turn * sweepLeft(element, at, element.end) * element.radius_mm >= -SLACK_MM;
}

function crossings<T>(a: Element<T>, b: Element<T>): Flat[] {
  if (a.kind === 'line' && b.kind === 'line') return lineLine(a, b);
  if (a.kind === 'line') return lineCircle(a.end, a.out, b.centre, b.radius_mm);
  if (b.kind === 'line') return lineCircle(b.start, b.out, a.centre, a.radius_mm);
  return circleCircle(a.centre, a.radius_mm, b.centre, b.radius_mm);
}

function lineLine<T>(a: Element<T>, b: Element<T>): Flat[] {
  const area = cross(a.out, b.out);
  if (Math.abs(area) < 1e-12) return [];
  return [along(a.end, a.out, cross(minus(b.start, a.end), b.out) / area)];
}

function lineCircle(on: Flat, direction: Flat, centre: Flat, radius: number): Flat[] {
  const middle = along(on, direction, dot(minus(centre, on), direction));
  const height = distance(middle, centre);
  if (height > radius + SLACK_MM) return [];
  const half = Math.sqrt(Math.max(0, radius * radius - height * height));
  return [along(middle, direction, half), along(middle, direction, -half)];
}

function circleCircle(a: Flat, a_radius: number, b: Flat, b_radius: number): Flat[] {
  const apart = distance(a, b);
  if (apart < 1e-9) return [];
  if (apart > a_radius + b_radius + SLACK_MM || apart < Math.abs(a_radius - b_radius) - SLACK_MM) return [];
  const direction = { first: (b.first - a.first) / apart, second: (b.second - a.second) / apart };
  const reach = (apart * apart + a_radius * a_radius - b_radius * b_radius) / (2 * apart);
  const half = Math.sqrt(Math.max(0, a_radius * a_radius - reach * reach));
  const middle = along(a, direction, reach);
  const sideways = { first: -direction.second, second: direction.first };
  return [along(middle, sideways, half), along(middle, sideways, -half)];
}

function along(from: Flat, direction: Flat, length: number): Flat {
  return { first: from.first + length * direction.first, second: from.second + length * direction.second };
}
