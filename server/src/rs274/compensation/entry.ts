import {
  aside,
  cross,
  distance,
  dot,
  type Element,
  type Flat,
  minus,
  type Offset,
  type Segment,
  unit,
} from './element.ts';

/**
 * How the first move after G41 or G42 reaches the offset path.
 * tangent-circle: along the tangent to the tool circle around the programmed end (NISTIR 6556 appendix on cutter
 * compensation, from memory). square-to-entry: to the end moved sideways by the radius, square to the entry move itself
 * (successor of the report, from memory). square-to-next: to the start of the next move's offset, square to that next move
 * (common practice, no source).
 */
export type EntryStyle = 'tangent-circle' | 'square-to-entry' | 'square-to-next';

/**
 * The entry line as an element whose end is the tool centre at the end of the move.
 * Undefined when the move is too short for the radius. `at` is the tool centre where the move starts.
 */
export function entryLine<T>(
  at: Flat,
  segment: Segment<T>,
  offset: Offset,
  style: Exclude<EntryStyle, 'square-to-next'>,
): Element<T> | undefined {
  const length = distance(at, segment.end);
  if (!(length > offset.radius_mm)) return undefined;
  if (style === 'square-to-entry') return squareEntry({ ...segment, start: at }, offset);
  const back = Math.atan2(at.second - segment.end.second, at.first - segment.end.first);
  const angle = back - offset.side * Math.acos(offset.radius_mm / length);
  const end = {
    first: segment.end.first + offset.radius_mm * Math.cos(angle),
    second: segment.end.second + offset.radius_mm * Math.sin(angle),
  };
  const out = unit(minus(end, at));
  return { ...squareEntry({ ...segment, start: at }, offset), start: at, begin: at, end, into: out, out };
}

/** A line moved sideways whole; the move that is made goes from the tool's place straight to its end. */
export function squareEntry<T>(segment: Segment<T>, offset: Offset): Element<T> {
  const along = unit(minus(segment.end, segment.start));
  const begin = aside(segment.start, along, offset);
  return {
    kind: 'line',
    start: begin,
    begin,
    end: aside(segment.end, along, offset),
    vertex: segment.end,
    into: along,
    out: along,
    centre: segment.start,
    radius_mm: 0,
    sweep_rad: 0,
    normal: segment.normal,
    side: offset.side,
    offset_mm: offset.radius_mm,
    tag: segment.tag,
  };
}

/**
 * An entry along an arc: from the tool's place to the end of the offset arc, tangent to it there. Its centre lies on the
 * line through the programmed centre and end, equally far from both ends. Undefined when there is no such arc.
 * Source: the successor of NISTIR 6556, from memory; other controls refuse an arc here.
 */
export function entryArc<T>(at: Flat, offsetArc: Element<T>): Element<T> | undefined {
  const { end } = offsetArc;
  const chord = minus(end, at);
  const turn = offsetArc.sweep_rad < 0 ? -1 : 1;
  // Towards the centre: a quarter turn from the direction of travel, to the side that the arc bends to.
  const inward = { first: -turn * offsetArc.out.second, second: turn * offsetArc.out.first };
  const reach = -dot(chord, inward);
  if (Math.abs(reach) < 1e-9) return undefined;
  const radius = dot(chord, chord) / (2 * reach);
  if (!(radius > 0)) return undefined;
  const centre = { first: end.first + radius * inward.first, second: end.second + radius * inward.second };
  const from = minus(at, centre);
  const to = minus(end, centre);
  let sweep = Math.atan2(cross(from, to), dot(from, to));
  if (sweep * turn <= 0) sweep += turn * 2 * Math.PI;
  return { ...offsetArc, kind: 'arc', start: at, begin: at, centre, radius_mm: radius, sweep_rad: sweep };
}
