import type { Point } from '../geometry/plane.ts';
import type { ArcTurn, CycleWriter } from './emit.ts';

/** One block of a finishing profile, lathe X as radius, mm. The first block of a profile is the approach. */
export interface ProfileSegment {
  readonly kind: 'rapid' | 'line' | 'arc';
  readonly to: Point;
  /** Plane zx: first axis Z, second X. */
  readonly turn?: ArcTurn;
}

/** A finishing profile (blocks N a to N b, or a subprogram), worked out from where the cycle starts. */
export interface Profile {
  readonly start: Point;
  readonly segments: readonly ProfileSegment[];
}

/** A profile with all its points moved, mm (X as radius). */
export function shiftProfile(profile: Profile, x: number, z: number): Profile {
  const moved = (at: Point): Point => ({ x: at.x + x, y: at.y, z: at.z + z });
  return {
    start: moved(profile.start),
    segments: profile.segments.map(segment => ({
      kind: segment.kind,
      to: moved(segment.to),
      ...(segment.turn && {
        turn: {
          ...segment.turn,
          centre_first: segment.turn.centre_first + z,
          centre_second: segment.turn.centre_second + x,
        },
      }),
    })),
  };
}

/** Writes the segments from `first` on; with `tagged` each move carries the index of its block. */
export function writeProfile(writer: CycleWriter, profile: Profile, first: number, tagged: boolean): void {
  for (const [index, segment] of profile.segments.entries()) {
    if (index < first) continue;
    const tag = tagged ? index : undefined;
    if (segment.kind === 'rapid') writer.rapid(segment.to, tag);
    else if (segment.turn === undefined) writer.feed(segment.to, tag);
    else writer.arc(segment.to, segment.turn, tag);
  }
}

/** A stretch of the other axis over which the profile lies beyond a level; `open` when it begins with the profile. */
export interface Span {
  readonly from: number;
  readonly to: number;
  readonly open: boolean;
}

/**
 * Where the profile behind its approach block lies beyond `level` along `axis`, looking along `sign` (-1: below it).
 * The stretches come in the order of the profile, measured on the other axis.
 */
export function spansBeyond(profile: Profile, axis: 'x' | 'z', level: number, sign: 1 | -1): Span[] {
  const other = axis === 'x' ? 'z' : 'x';
  const spans: Span[] = [];
  const [approach, ...contour] = profile.segments;
  if (approach === undefined) return spans;
  let at = approach.to;
  let span: { from: number; open: boolean } | undefined;
  for (const segment of contour) {
    const shares = [0, ...crossings(at, segment, axis, level), 1];
    for (let n = 1; n < shares.length; n += 1) {
      const middle = pointOn(at, segment, (shares[n - 1] + shares[n]) / 2);
      const beyond = sign * (middle[axis] - level) > EDGE_MM;
      const where = pointOn(at, segment, shares[n - 1])[other];
      if (beyond && span === undefined) span = { from: where, open: at === approach.to && n === 1 };
      else if (!beyond && span !== undefined) {
        spans.push({ ...span, to: where });
        span = undefined;
      }
    }
    at = segment.to;
  }
  if (span !== undefined) spans.push({ ...span, to: at[other] });
  return spans;
}

/** Whether the profile behind its approach never turns back along an axis. */
export function isMonotone(profile: Profile, axis: 'x' | 'z'): boolean {
  const points = profile.segments.flatMap((segment, index) => {
    const from = index === 0 ? segment.to : profile.segments[index - 1].to;
    return index === 0 ? [segment.to[axis]] : [...extremes(from, segment, axis), segment.to[axis]];
  });
  let direction = 0;
  for (let n = 1; n < points.length; n += 1) {
    const step = points[n] - points[n - 1];
    if (Math.abs(step) < EDGE_MM) continue;
    if (direction !== 0 && Math.sign(step) !== direction) return false;
    direction = Math.sign(step);
  }
  return true;
}

const EDGE_MM = 1e-9;

/** Shares of a segment, between 0 and 1, where it passes the level, in the order of travel. */
function crossings(from: Point, segment: ProfileSegment, axis: 'x' | 'z', level: number): number[] {
  const { to, turn } = segment;
  if (turn === undefined) {
    const a = from[axis] - level;
    const b = to[axis] - level;
    if (Math.abs(a) <= EDGE_MM || Math.abs(b) <= EDGE_MM || a * b > 0) return [];
    return [a / (a - b)];
  }
  const radius = Math.hypot(from.z - turn.centre_first, from.x - turn.centre_second);
  const height = (level - (axis === 'x' ? turn.centre_second : turn.centre_first)) / radius;
  if (!(Math.abs(height) < 1)) return [];
  const angles =
    axis === 'x' ? [Math.asin(height), Math.PI - Math.asin(height)] : [Math.acos(height), -Math.acos(height)];
  return angles
    .map(angle => travelTo(from, turn, angle) / Math.abs(turn.sweep_rad))
    .filter(share => share > EDGE_MM && share < 1 - EDGE_MM)
    .sort((a, b) => a - b);
}

function pointOn(from: Point, segment: ProfileSegment, share: number): Point {
  const { to, turn } = segment;
  if (share === 1) return to;
  if (turn === undefined) {
    return { x: from.x + share * (to.x - from.x), y: from.y, z: from.z + share * (to.z - from.z) };
  }
  const radius = Math.hypot(from.z - turn.centre_first, from.x - turn.centre_second);
  const start = Math.atan2(from.x - turn.centre_second, from.z - turn.centre_first);
  const angle = start + share * turn.sweep_rad;
  return {
    x: turn.centre_second + radius * Math.sin(angle),
    y: from.y,
    z: turn.centre_first + radius * Math.cos(angle),
  };
}

/** Highest and lowest values inside an arc, in the order of travel. */
function extremes(from: Point, segment: ProfileSegment, axis: 'x' | 'z'): number[] {
  const { turn } = segment;
  if (turn === undefined) return [];
  const radius = Math.hypot(from.z - turn.centre_first, from.x - turn.centre_second);
  const peaks = axis === 'x' ? [Math.PI / 2, -Math.PI / 2] : [0, Math.PI];
  return peaks
    .map(angle => ({ angle, travel: travelTo(from, turn, angle) }))
    .filter(({ travel }) => travel > EDGE_MM && travel < Math.abs(turn.sweep_rad) - EDGE_MM)
    .sort((a, b) => a.travel - b.travel)
    .map(({ angle }) =>
      axis === 'x'
        ? turn.centre_second + radius * Math.sin(angle)
        : turn.centre_first + radius * Math.cos(angle),
    );
}

/** Angle travelled from the start of the arc to `angle`, in [0, 2 pi). */
function travelTo(from: Point, turn: ArcTurn, angle: number): number {
  const start = Math.atan2(from.x - turn.centre_second, from.z - turn.centre_first);
  const travel = (angle - start) * (turn.sweep_rad < 0 ? -1 : 1);
  const full = 2 * Math.PI;
  return ((travel % full) + full) % full;
}
