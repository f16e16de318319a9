/** The three working planes. Names and axis order as in NISTIR 6556 section 3.5.6; G18 turns Z towards X. */
export type Plane = 'xy' | 'zx' | 'yz';

/** A linear axis letter, lower case. */
export type LinearAxis = 'x' | 'y' | 'z';

/** A position in mm. NaN = not known. */
export interface Point {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** The axes of a plane: the arc turns counter-clockwise from `first` to `second`, seen from +`normal`. */
export interface PlaneAxes {
  readonly first: LinearAxis;
  readonly second: LinearAxis;
  readonly normal: LinearAxis;
}

/** Axes by plane: G17 = xy, G18 = zx, G19 = yz. */
export const PLANE_AXES: Readonly<Record<Plane, PlaneAxes>> = {
  xy: { first: 'x', second: 'y', normal: 'z' },
  zx: { first: 'z', second: 'x', normal: 'y' },
  yz: { first: 'y', second: 'z', normal: 'x' },
};

/** Plane selected by a G code number, or undefined when the number selects none. */
export function planeOfCode(code: number): Plane | undefined {
  if (code === 17) return 'xy';
  if (code === 18) return 'zx';
  return code === 19 ? 'yz' : undefined;
}

/** Builds a position from plane coordinates (mm). */
export function pointInPlane(plane: Plane, first: number, second: number, normal: number): Point {
  if (plane === 'xy') return { x: first, y: second, z: normal };
  if (plane === 'zx') return { x: second, y: normal, z: first };
  return { x: normal, y: first, z: second };
}
