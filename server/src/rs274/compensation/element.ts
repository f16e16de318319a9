/** A point on the plane's first and second axis, mm. */
export interface Flat {
  readonly first: number;
  readonly second: number;
}

/**
 * One programmed move in the plane: a line, or an arc with centre and signed sweep (counter-clockwise positive).
 * `normal` is the tool-axis position at its end, `tag` whatever the caller wants to find again on the output.
 */
export interface Segment<T> {
  readonly start: Flat;
  readonly end: Flat;
  readonly normal: number;
  readonly arc?: { readonly centre: Flat; readonly sweep_rad: number };
  readonly tag: T;
}

/** Offset of the tool centre: 1 = left of the path (G41), -1 = right (G42). */
export interface Offset {
  readonly side: 1 | -1;
  readonly radius_mm: number;
}

/**
 * A segment with its offset. `begin` is where the part that is left starts after the corner before it;
 * `jump` stands for an arc that the tool does not fit into.
 */
export interface Element<T> {
  readonly kind: 'line' | 'arc' | 'jump';
  readonly start: Flat;
  readonly end: Flat;
  readonly begin: Flat;
  /** Programmed end: the corner. */
  readonly vertex: Flat;
  /** Unit directions of travel at start and end. */
  readonly into: Flat;
  readonly out: Flat;
  readonly centre: Flat;
  /** Radius of the offset arc and its signed sweep; 0 for a line. */
  readonly radius_mm: number;
  readonly sweep_rad: number;
  readonly normal: number;
  readonly side: 1 | -1;
  readonly offset_mm: number;
  readonly tag: T;
}

/** Arcs of a smaller offset radius are points. */
export const POINT_RADIUS_MM = 1e-3;

/**
 * Offsets one segment. A line moves sideways by the radius; an arc keeps its centre and changes its radius
 * to R - r when the tool is on the side of the centre, else R + r. R < r there: the tool does not fit (`jump`).
 */
export function offsetSegment<T>(segment: Segment<T>, offset: Offset): Element<T> {
  const { side, radius_mm } = offset;
  const { start, end, normal, tag } = segment;
  const common = { vertex: end, normal, side, offset_mm: radius_mm, tag };
  if (segment.arc === undefined) {
    const along = unit(minus(end, start));
    const begin = aside(start, along, offset);
    return {
      ...common,
      kind: 'line',
      start: begin,
      begin,
      end: aside(end, along, offset),
      into: along,
      out: along,
      centre: start,
      radius_mm: 0,
      sweep_rad: 0,
    };
  }
  const { centre, sweep_rad } = segment.arc;
  const turn = sweep_rad < 0 ? -1 : 1;
  const into = quarter(unit(minus(start, centre)), turn);
  const out = quarter(unit(minus(end, centre)), turn);
  const radius = distance(start, centre) - side * turn * radius_mm;
  const begin = aside(start, into, offset);
  return {
    ...common,
    kind: radius < -POINT_RADIUS_MM ? 'jump' : 'arc',
    start: begin,
    begin,
    end: aside(end, out, offset),
    into,
    out,
    centre,
    radius_mm: Math.max(0, radius),
    sweep_rad,
  };
}

/** The point beside a path: `at` moved by the radius to the tool's side of the direction `along`. */
export function aside(at: Flat, along: Flat, offset: Offset): Flat {
  const sideways = quarter(along, offset.side);
  return {
    first: at.first + offset.radius_mm * sideways.first,
    second: at.second + offset.radius_mm * sideways.second,
  };
}

/** Signed angle from `a` to `b` seen from `centre`, in (-pi, pi]. */
export function angleBetween(centre: Flat, a: Flat, b: Flat): number {
  const u = minus(a, centre);
  const v = minus(b, centre);
  return Math.atan2(cross(u, v), dot(u, v));
}

export function minus(a: Flat, b: Flat): Flat {
  return { first: a.first - b.first, second: a.second - b.second };
}

export function dot(a: Flat, b: Flat): number {
  return a.first * b.first + a.second * b.second;
}

export function cross(a: Flat, b: Flat): number {
  return a.first * b.second - a.second * b.first;
}

export function distance(a: Flat, b: Flat): number {
  return Math.hypot(a.first - b.first, a.second - b.second);
}

/** Direction of length 1. */
export function unit(of: Flat): Flat {
  const length = Math.hypot(of.first, of.second);
  return { first: of.first / length, second: of.second / length };
}

/** Turned by a quarter: 1 counter-clockwise, -1 clockwise. */
function quarter(of: Flat, turn: 1 | -1): Flat {
  return { first: -turn * of.second, second: turn * of.first };
}
