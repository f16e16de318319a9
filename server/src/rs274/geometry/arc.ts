import { PLANE_AXES, type Plane, type Point } from './plane.ts';

/** An arc or helix in a plane. Lengths in mm, angles in radians. */
export interface Arc {
  /** Centre along the plane's first and second axis. */
  readonly centre_first: number;
  readonly centre_second: number;
  /** Radius at the start point. */
  readonly radius_mm: number;
  /** Signed angle from start to end, counter-clockwise positive seen from the plane's + normal axis, with all turns. */
  readonly sweep_rad: number;
  /** Path length of the helix; NaN when the start of a rise along the normal axis is not known. */
  readonly length_mm: number;
}

/** What an arc block says about its centre. I, J, K, R in mm, P = number of turns. */
export interface ArcWords {
  readonly i?: number;
  readonly j?: number;
  readonly k?: number;
  readonly r?: number;
  readonly p?: number;
}

/** How far the end point may lie off the circle. */
export interface ArcTolerance {
  /** Always accepted up to this difference of radius, mm. */
  readonly floor_mm: number;
  /** Accepted up to this share of the radius ... */
  readonly relative: number;
  /** ... but never over this, mm. */
  readonly cap_mm: number;
}

/**
 * Tolerances by reader. report: NISTIR 6556 (0.0002 in, 0.002 mm; from memory). successor: the open machine
 * controller that grew out of it, 0.1 % of the radius and at most 0.0028 in / 0.028 mm, never tighter here than the report.
 * common: 0.02 mm, common practice, no source (a parameter of the control).
 */
export const ARC_TOLERANCE = {
  report_mm: { floor_mm: 0.002, relative: 0, cap_mm: 0.002 },
  report_inch: { floor_mm: 0.0002 * 25.4, relative: 0, cap_mm: 0.0002 * 25.4 },
  successor_mm: { floor_mm: 0.002, relative: 0.001, cap_mm: 0.028 },
  successor_inch: { floor_mm: 0.0002 * 25.4, relative: 0.001, cap_mm: 0.0028 * 25.4 },
  common: { floor_mm: 0.02, relative: 0, cap_mm: 0.02 },
} as const satisfies Record<string, ArcTolerance>;

export type ArcProblemCode =
  | 'arc-position-unknown'
  | 'arc-centre-missing'
  | 'arc-centre-incomplete'
  | 'arc-centre-wrong-axis'
  | 'arc-radius-and-centre'
  | 'arc-radius-zero'
  | 'arc-ends-equal'
  | 'arc-radius-short'
  | 'arc-end-off-circle'
  | 'arc-turns-bad';

export interface ArcProblem {
  readonly code: ArcProblemCode;
  readonly message: string;
}

/** The question put to `arcFromWords`. */
export interface ArcBlock {
  readonly plane: Plane;
  readonly clockwise: boolean;
  readonly start: Point;
  readonly end: Point;
  readonly words: ArcWords;
  /** G90.1: I J K are positions of the centre, not distances from the start. */
  readonly absolute_centre: boolean;
  readonly tolerance: ArcTolerance;
}

const SAME_POINT_MM = 1e-7;
const MOST_TURNS = 100_000;

/**
 * Works out the arc of a G2 or G3 block from I J K or R.
 * Centre form: centre = start + (I, J) of the plane's axes, a missing one is 0; equal ends make a full circle.
 * Radius form: the shorter arc for R > 0, the longer for R < 0; a radius a little under half the chord counts as half the chord.
 * P gives whole turns: P2 adds one. With R and I J K in one block R counts.
 * `arc` is absent when the block does not describe one; problems may come with an arc that was still understood.
 * Source: NISTIR 6556 section 3.5.3 (from memory); turns and G90.1: common practice, no source.
 */
export function arcFromWords(block: ArcBlock): {
  readonly arc?: Arc;
  readonly problems: readonly ArcProblem[];
} {
  const { plane, words, tolerance } = block;
  const axes = PLANE_AXES[plane];
  const problems: ArcProblem[] = [];
  const add = (code: ArcProblemCode, message: string) => problems.push({ code, message });

  const from = { first: block.start[axes.first], second: block.start[axes.second] };
  const to = { first: block.end[axes.first], second: block.end[axes.second] };
  const [low, high] = [block.start[axes.normal], block.end[axes.normal]];
  const rise = Number.isNaN(low) && Number.isNaN(high) ? 0 : high - low;

  const given = { x: words.i, y: words.j, z: words.k };
  const first = given[axes.first];
  const second = given[axes.second];
  const has_centre = first !== undefined || second !== undefined;
  if (given[axes.normal] !== undefined) {
    add('arc-centre-wrong-axis', `${CENTRE_LETTER[axes.normal]} does not belong to an arc in this plane`);
  }
  if (!has_centre && words.r === undefined) {
    add('arc-centre-missing', 'the arc has neither a centre (I J K) nor a radius (R)');
    return { problems };
  }
  if (has_centre && words.r !== undefined) {
    add('arc-radius-and-centre', 'the arc has both R and a centre; R was taken');
  }
  if (Number.isNaN(from.first + from.second + to.first + to.second)) {
    add('arc-position-unknown', 'the start or end of the arc is not known');
    return { problems };
  }

  let centre: Flat | undefined;
  if (words.r !== undefined) {
    centre = centreFromRadius(from, to, words.r, block.clockwise, tolerance, add);
  } else if (block.absolute_centre) {
    if (first === undefined || second === undefined) {
      add('arc-centre-incomplete', 'an absolute arc centre (G90.1) needs both coordinates');
      return { problems };
    }
    centre = { first, second };
  } else {
    centre = { first: from.first + (first ?? 0), second: from.second + (second ?? 0) };
  }
  if (centre === undefined) return { problems };

  const radius_mm = Math.hypot(from.first - centre.first, from.second - centre.second);
  const end_radius = Math.hypot(to.first - centre.first, to.second - centre.second);
  if (radius_mm < SAME_POINT_MM || end_radius < SAME_POINT_MM) {
    add('arc-radius-zero', 'the centre of the arc is its own start or end');
    return { problems };
  }
  const off = Math.abs(radius_mm - end_radius);
  if (words.r === undefined && off > allowedDifference(Math.max(radius_mm, end_radius), tolerance)) {
    add('arc-end-off-circle', `the end is ${off.toFixed(4)} mm off the circle around the centre`);
  }
  const sweep_rad = sweepBetween(from, to, centre, block.clockwise, wholeTurns(words.p, add));
  return {
    arc: {
      centre_first: centre.first,
      centre_second: centre.second,
      radius_mm,
      sweep_rad,
      length_mm: helixLength_mm(radius_mm, sweep_rad, rise),
    },
    problems,
  };
}

/** Length of a helix: sqrt((radius x sweep)^2 + rise^2), mm and radians. */
export function helixLength_mm(radius_mm: number, sweep_rad: number, rise_mm: number): number {
  const flat = Math.abs(radius_mm * sweep_rad);
  return rise_mm === 0 ? flat : Math.hypot(flat, rise_mm);
}

interface Flat {
  readonly first: number;
  readonly second: number;
}

type Add = (code: ArcProblemCode, message: string) => void;

const CENTRE_LETTER = { x: 'I', y: 'J', z: 'K' } as const;

function allowedDifference(radius_mm: number, tolerance: ArcTolerance): number {
  return Math.max(tolerance.floor_mm, Math.min(tolerance.cap_mm, tolerance.relative * radius_mm));
}

function centreFromRadius(
  from: Flat,
  to: Flat,
  r: number,
  clockwise: boolean,
  tolerance: ArcTolerance,
  add: Add,
): Flat | undefined {
  const radius = Math.abs(r);
  if (radius < SAME_POINT_MM) {
    add('arc-radius-zero', 'the radius of the arc is 0');
    return undefined;
  }
  const along = { first: to.first - from.first, second: to.second - from.second };
  const chord = Math.hypot(along.first, along.second);
  if (chord < SAME_POINT_MM) {
    add('arc-ends-equal', 'an arc with R cannot end where it starts; a full circle needs I J K');
    return undefined;
  }
  const half = chord / 2;
  if (half - radius > allowedDifference(radius, tolerance)) {
    add('arc-radius-short', `the radius must be at least ${half.toFixed(4)} mm to reach the end point`);
    return undefined;
  }
  const height = radius > half ? Math.sqrt(radius * radius - half * half) : 0;
  // The centre lies left of the chord for a short counter-clockwise or a long clockwise arc.
  const side = (clockwise ? -1 : 1) * (r > 0 ? 1 : -1);
  return {
    first: (from.first + to.first) / 2 - (side * height * along.second) / chord,
    second: (from.second + to.second) / 2 + (side * height * along.first) / chord,
  };
}

function sweepBetween(from: Flat, to: Flat, centre: Flat, clockwise: boolean, turns: number): number {
  const direction = clockwise ? -1 : 1;
  const full = 2 * Math.PI;
  const same = Math.hypot(to.first - from.first, to.second - from.second) < SAME_POINT_MM;
  const start = Math.atan2(from.second - centre.second, from.first - centre.first);
  const end = Math.atan2(to.second - centre.second, to.first - centre.first);
  let turned = same ? full : (end - start) * direction;
  if (turned <= 0) turned += full;
  if (turned > full) turned -= full;
  return direction * (turned + (turns - 1) * full);
}

function wholeTurns(p: number | undefined, add: Add): number {
  if (p === undefined) return 1;
  const turns = Math.round(p);
  if (turns >= 1 && turns <= MOST_TURNS && Math.abs(turns - p) <= 1e-4) return turns;
  add('arc-turns-bad', 'P of an arc is a whole number of turns, 1 or more');
  return 1;
}
