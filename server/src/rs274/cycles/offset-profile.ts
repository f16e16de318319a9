import type { Flat, Segment } from '../compensation/element.ts';
import {
  COMPENSATION_RULES,
  finishCompensation,
  pushSegment,
  startCompensation,
} from '../compensation/offset.ts';
import type { Point } from '../geometry/plane.ts';
import type { Profile, ProfileSegment } from './profile.ts';

/** A profile at a distance from the one that was written. */
export interface OffsetProfile {
  readonly profile: Profile;
  /** For each segment the index of the one it was made from. */
  readonly origins: readonly number[];
  /** The distance does not fit into some inside corner or arc. */
  readonly gouges: boolean;
}

/**
 * The profile moved square to itself by `distance_mm`, to the side on which its start stands; outside corners are rounded.
 * The approach (first segment) ends where the moved contour begins.
 */
export function offsetProfile(profile: Profile, distance_mm: number): OffsetProfile {
  const [approach, ...contour] = profile.segments;
  const origins = profile.segments.map((_, index) => index);
  if (!(distance_mm > 0) || approach === undefined || contour.length === 0)
    return { profile, origins, gouges: false };
  const { y } = profile.start;
  const first = flat(approach.to);
  const side = sideOf(profile.start, approach.to, contour[contour.length - 1].to);
  const made: ProfileSegment[] = [];
  const from: number[] = [];
  let gouges = false;
  const point = (at: Flat): Point => ({ x: at.second, y, z: at.first });
  const sink = {
    line: (to: Flat, _normal: number, tag: number) => {
      const kind = profile.segments[tag].kind === 'rapid' ? 'rapid' : 'line';
      made.push({ kind, to: point(to) });
      from.push(tag);
    },
    arc: (to: Flat, _normal: number, turn: { centre: Flat; sweep_rad: number }, tag: number) => {
      const { centre, sweep_rad } = turn;
      made.push({
        kind: 'arc',
        to: point(to),
        turn: { plane: 'zx', centre_first: centre.first, centre_second: centre.second, sweep_rad },
      });
      from.push(tag);
    },
    problem: () => {
      gouges = true;
    },
  };
  const offset = { side, radius_mm: distance_mm } as const;
  const rules = COMPENSATION_RULES.common;
  let state = startCompensation<number>(flat(profile.start), 0);
  let at = first;
  const entry = { start: flat(profile.start), end: first, normal: 0, tag: 0 };
  const still = entry.start.first === first.first && entry.start.second === first.second;
  state = pushSegment(
    state,
    still ? { ...entry, start: { ...first, first: first.first + 1 } } : entry,
    offset,
    rules,
    sink,
  );
  for (const [index, segment] of contour.entries()) {
    const end = flat(segment.to);
    const { turn } = segment;
    const next: Segment<number> = {
      start: at,
      end,
      normal: 0,
      tag: index + 1,
      ...(turn && {
        arc: { centre: { first: turn.centre_first, second: turn.centre_second }, sweep_rad: turn.sweep_rad },
      }),
    };
    state = pushSegment(state, next, offset, rules, sink);
    at = end;
  }
  finishCompensation(state, sink);
  return { profile: { start: profile.start, segments: made }, origins: from, gouges };
}

function flat(at: Point): Flat {
  return { first: at.z, second: at.x };
}

/** 1 where the start stands left of the way from the first to the last point, else -1. */
function sideOf(start: Point, first: Point, last: Point): 1 | -1 {
  const left = (last.z - first.z) * (start.x - first.x) - (last.x - first.x) * (start.z - first.z);
  return left < 0 ? -1 : 1;
}
