/** The lower outline of a single-point tool, as points in (z, x) from its nose: what it leaves of the metal. */

export type TurningKind = 'turn' | 'bore-bar' | 'groove' | 'part-off' | 'thread-turn';

/**
 * Lengths mm. `tip` says what the programmed point is: the corner of the nose towards -z and the axis ('corner'), the centre of
 * the nose, or its edge along one axis beside the centre.
 */
export interface TurningSpec {
  readonly kind: TurningKind;
  readonly nose_radius_mm?: number;
  /** Cutting-edge angle against the feed along the axis, 0 < a <= 120. */
  readonly edge_angle_deg?: number;
  /** Included angle at the nose, 20 to 120. */
  readonly point_angle_deg?: number;
  /** Length of the edges from the nose. */
  readonly edge_length_mm?: number;
  /** Groove and part-off: width of the blade. */
  readonly width_mm?: number;
  /** The tool cuts towards +z (back turning). */
  readonly towards_plus_z?: boolean;
  readonly tip?: 'corner' | 'centre' | 'x-edge' | 'z-edge';
  /** Groove and thread: the tool works in a bore, outwards. */
  readonly inside?: boolean;
  /** Groove: the programmed point is the left (towards -z) or the right corner of the blade. */
  readonly blade_point?: 'left' | 'right';
}

export interface TurningTool {
  readonly kind: TurningKind;
  /** +1: cuts from outside towards the axis; -1: cuts a bore outwards. */
  readonly inward: 1 | -1;
  /** Outline from least z to greatest; heights grow away from the work. Convex from below. */
  readonly z: Float64Array;
  readonly height: Float64Array;
  /** Thread: tangent of half the included angle. */
  readonly half_tangent: number;
  readonly nose_radius_mm: number;
  /** Leading edge past 90 degrees: tangent of what it leans over; 0 for all others. The outline has it upright. */
  readonly lean: number;
  /** Side of the leading edge: -1 towards -z, 1 towards +z. */
  readonly lead: -1 | 1;
}

const noseSteps = 48;

/**
 * Makes the outline. A groover needs its width; a turning tool its edge angle and nose radius (0 for sharp). Without a point
 * angle the trailing edge stands upright, so that only nose and leading edge cut. Returns what is missing.
 */
export function turningTool(spec: TurningSpec): TurningTool | { readonly missing: string } {
  const inward = spec.kind === 'bore-bar' || spec.inside === true ? -1 : 1;
  const nose = spec.nose_radius_mm ?? 0;
  if (!(nose >= 0) || !Number.isFinite(nose)) return { missing: 'nose radius of 0 or more' };
  const length = spec.edge_length_mm ?? 1000;
  if (spec.kind === 'groove' || spec.kind === 'part-off') {
    const width = spec.width_mm;
    if (width === undefined || !(width > 0)) return { missing: 'width of the blade' };
    const left = spec.blade_point === 'right' ? -width : 0;
    return outline(spec.kind, inward, bladePoints(width, Math.min(nose, width / 2), left, length), 0, nose);
  }
  if (spec.kind === 'thread-turn') {
    const angle = spec.point_angle_deg;
    if (angle === undefined || !(angle > 0 && angle < 180))
      return { missing: 'included angle of the thread' };
    const half = Math.tan((angle * Math.PI) / 360);
    const rise = Math.min(length, 10);
    return outline(
      spec.kind,
      inward,
      [
        [-rise * half, rise],
        [0, 0],
        [rise * half, rise],
      ],
      half,
      nose,
    );
  }
  const edge = spec.edge_angle_deg;
  if (edge === undefined || !(edge > 0 && edge <= 120))
    return { missing: 'cutting-edge angle over 0, at most 120 degrees' };
  const points = nosePoints(nose, edge, spec.point_angle_deg, length, spec.tip ?? 'corner');
  const way = spec.towards_plus_z === true ? -1 : 1;
  return {
    ...outline(
      spec.kind,
      inward,
      way > 0 ? points : points.map(([z, x]): [number, number] => [-z, x]).reverse(),
      0,
      nose,
    ),
    lean: edge > 90 ? Math.tan(((edge - 90) * Math.PI) / 180) : 0,
    lead: way > 0 ? -1 : 1,
  };
}

function outline(
  kind: TurningKind,
  inward: 1 | -1,
  points: readonly (readonly [number, number])[],
  half: number,
  nose: number,
): TurningTool {
  return {
    kind,
    inward,
    z: Float64Array.from(points, p => p[0]),
    height: Float64Array.from(points, p => p[1]),
    half_tangent: half,
    nose_radius_mm: nose,
    lean: 0,
    lead: -1,
  };
}

function bladePoints(width: number, corner: number, left: number, length: number): [number, number][] {
  const points: [number, number][] = [[left, length]];
  for (let k = 0; k <= noseSteps / 2 && corner > 0; k++) {
    const a = (k * Math.PI) / noseSteps;
    points.push([left + corner * (1 - Math.cos(a)), corner * (1 - Math.sin(a))]);
  }
  if (corner === 0) points.push([left, 0], [left + width, 0]);
  for (let k = noseSteps / 2; k >= 0 && corner > 0; k--) {
    const a = (k * Math.PI) / noseSteps;
    points.push([left + width - corner * (1 - Math.cos(a)), corner * (1 - Math.sin(a))]);
  }
  points.push([left + width, length]);
  return points;
}

/**
 * Leading edge rises at `edge` from -z over the nose, trailing edge on the +z side at 180 - edge - point. An edge past 90 degrees
 * leans under itself: the height field takes it as upright.
 */
function nosePoints(
  nose: number,
  edge: number,
  point: number | undefined,
  length: number,
  tip: NonNullable<TurningSpec['tip']>,
): [number, number][] {
  const lead = (Math.min(edge, 90) * Math.PI) / 180;
  const trail = ((point === undefined ? 90 : Math.max(0, Math.min(90, 180 - edge - point))) * Math.PI) / 180;
  // centre of the nose, seen from the programmed point
  const cz = tip === 'corner' || tip === 'z-edge' ? nose : 0;
  const cx = tip === 'corner' || tip === 'x-edge' ? nose : 0;
  const points: [number, number][] = [];
  const from = { z: cz - nose * Math.sin(lead), x: cx - nose * Math.cos(lead) };
  points.push([from.z - length * Math.cos(lead), from.x + length * Math.sin(lead)]);
  for (let k = 0; k <= noseSteps; k++) {
    const a = -lead + ((lead + trail) * k) / noseSteps;
    points.push([cz + nose * Math.sin(a), cx - nose * Math.cos(a)]);
  }
  const last = points[points.length - 1];
  points.push([last[0] + length * Math.cos(trail), last[1] + length * Math.sin(trail)]);
  return points;
}
