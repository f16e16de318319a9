/** The solids of revolution that the mill stock can be cut with. */

export type CutterKind = 'flat' | 'ball' | 'bull-nose' | 'cone' | 'drill' | 'face' | 'slot';

/** What the caller knows of a tool. Lengths in mm, the tip of the tool is at z = 0. */
export interface CutterSpec {
  readonly kind: CutterKind;
  readonly diameter_mm: number;
  /** Bull-nose only: 0 < r <= D/2. */
  readonly corner_radius_mm?: number;
  /** Cone and drill: included angle of the point, 10 to 180 degrees. */
  readonly point_angle_deg?: number;
  /** Cone: diameter of the flat at the tip, 0 when left out. */
  readonly tip_diameter_mm?: number;
  readonly flute_length_mm?: number;
  readonly shank_diameter_mm?: number;
  /** Tip to the nose of the holder. */
  readonly stickout_mm?: number;
  readonly holder_diameter_mm?: number;
  readonly holder_length_mm?: number;
}

/** A cylinder of the tool above its cutting part, from `low_mm` to `high_mm` above the tip. */
export interface BodyCylinder {
  readonly what: 'shank' | 'holder';
  readonly radius_mm: number;
  readonly low_mm: number;
  readonly high_mm: number;
}

/**
 * A tool ready to cut: profile height over the tip is 0 up to `flat_mm` from the axis, then a round of radius
 * `corner_mm` (`shape` round) or a slope (`shape` cone), up to `radius_mm`, then a vertical flank.
 */
export interface Cutter {
  readonly kind: CutterKind;
  readonly shape: 'flat' | 'round' | 'cone';
  readonly radius_mm: number;
  readonly flat_mm: number;
  readonly corner_mm: number;
  /** Cone: height gained a millimetre of radius. */
  readonly slope: number;
  /** Profile height at the full radius. */
  readonly edge_height_mm: number;
  readonly body: readonly BodyCylinder[];
  /** Greatest radius of tool, shank and holder. */
  readonly widest_mm: number;
  /** What the height field leaves out for this tool, in words. */
  readonly not_modelled: readonly string[];
}

/** Too little or impossible geometry: said, never guessed. */
export interface CutterProblem {
  readonly missing: string;
}

/**
 * Makes a tool from its sizes. Valid: diameter over 0 and finite; a bull-nose needs its corner radius, a cone or drill
 * its point angle. Returns what is missing instead of guessing it.
 */
export function cutter(spec: CutterSpec): Cutter | CutterProblem {
  const radius = spec.diameter_mm / 2;
  if (!(radius > 0) || !Number.isFinite(radius)) return { missing: 'diameter over 0' };
  const shape = shapeOf(spec, radius);
  if ('missing' in shape) return shape;
  const body = bodyOf(spec, radius);
  let widest = radius;
  for (const part of body) widest = Math.max(widest, part.radius_mm);
  return {
    kind: spec.kind,
    radius_mm: radius,
    ...shape,
    body,
    widest_mm: widest,
    not_modelled:
      spec.kind === 'slot' ? ['undercut of the slot mill: metal above its disc counts as cut'] : [],
  };
}

type Shape = Pick<Cutter, 'shape' | 'flat_mm' | 'corner_mm' | 'slope' | 'edge_height_mm'>;

function shapeOf(spec: CutterSpec, radius: number): Shape | CutterProblem {
  switch (spec.kind) {
    case 'ball':
      return { shape: 'round', flat_mm: 0, corner_mm: radius, slope: 0, edge_height_mm: radius };
    case 'bull-nose': {
      const corner = spec.corner_radius_mm;
      if (corner === undefined || !(corner > 0)) return { missing: 'corner radius over 0' };
      const held = Math.min(corner, radius);
      return { shape: 'round', flat_mm: radius - held, corner_mm: held, slope: 0, edge_height_mm: held };
    }
    case 'cone':
    case 'drill': {
      const angle = spec.point_angle_deg;
      if (angle === undefined || !(angle >= 10 && angle <= 180))
        return { missing: 'point angle of 10 to 180 degrees' };
      const flat = Math.min(radius, Math.max(0, (spec.tip_diameter_mm ?? 0) / 2));
      const slope = angle >= 179.99 ? 0 : 1 / Math.tan((angle * Math.PI) / 360);
      if (slope === 0 || flat >= radius)
        return { shape: 'flat', flat_mm: radius, corner_mm: 0, slope: 0, edge_height_mm: 0 };
      return { shape: 'cone', flat_mm: flat, corner_mm: 0, slope, edge_height_mm: slope * (radius - flat) };
    }
    default:
      return { shape: 'flat', flat_mm: radius, corner_mm: 0, slope: 0, edge_height_mm: 0 };
  }
}

function bodyOf(spec: CutterSpec, radius: number): BodyCylinder[] {
  const body: BodyCylinder[] = [];
  const {
    flute_length_mm: flute,
    stickout_mm: stickout,
    shank_diameter_mm: shank,
    holder_diameter_mm: holder,
  } = spec;
  if (flute !== undefined && flute > 0 && (stickout === undefined || stickout > flute)) {
    const high = stickout ?? flute + 10 * radius;
    body.push({
      what: 'shank',
      radius_mm: shank === undefined ? radius : shank / 2,
      low_mm: flute,
      high_mm: high,
    });
  }
  if (holder !== undefined && holder > 0 && stickout !== undefined && stickout > 0) {
    const high = stickout + (spec.holder_length_mm ?? 2 * holder);
    body.push({ what: 'holder', radius_mm: holder / 2, low_mm: stickout, high_mm: high });
  }
  return body;
}

/** Height of the cutting profile over the tip at distance `rho_mm` from the axis; the flank counts as its lower end. */
export function profileHeight(tool: Cutter, rho_mm: number): number {
  const over = Math.min(rho_mm, tool.radius_mm) - tool.flat_mm;
  if (over <= 0) return 0;
  if (tool.shape === 'cone') return tool.slope * over;
  if (tool.shape === 'flat') return 0;
  const inside = tool.corner_mm * tool.corner_mm - over * over;
  return inside <= 0 ? tool.corner_mm : tool.corner_mm - Math.sqrt(inside);
}

/** Radius of the tool at `height_mm` over the tip, the inverse of `profileHeight`. */
export function radiusAtHeight(tool: Cutter, height_mm: number): number {
  if (height_mm >= tool.edge_height_mm) return tool.radius_mm;
  if (height_mm <= 0) return tool.flat_mm;
  if (tool.shape === 'cone') return tool.flat_mm + height_mm / tool.slope;
  return tool.flat_mm + Math.sqrt(height_mm * (2 * tool.corner_mm - height_mm));
}
