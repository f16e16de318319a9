/** The path of the tool's centre while compensation is on, in the plane, with where it came from and went. */
export interface Loop {
  line: number;
  side: number;
  from_x: number;
  from_y: number;
  to_x: number;
  to_y: number;
  x: number[];
  y: number[];
  /** At one height throughout, by feed. */
  level: boolean;
}

/** Area inside the points of a loop, positive when they run counter-clockwise; squared units of the points. */
export function signedArea({ x, y }: Pick<Loop, 'x' | 'y'>): number {
  let sum = 0;
  for (let i = 0, j = x.length - 1; i < x.length; j = i++) sum += x[j] * y[i] - x[i] * y[j];
  return sum / 2;
}

/** Whether a point lies inside the closed polygon of the points (even-odd rule). */
export function insideOf({ x, y }: Pick<Loop, 'x' | 'y'>, px: number, py: number): boolean {
  let inside = false;
  for (let i = 0, j = x.length - 1; i < x.length; j = i++)
    if (y[i] > py !== y[j] > py && px < ((x[j] - x[i]) * (py - y[i])) / (y[j] - y[i]) + x[i])
      inside = !inside;
  return inside;
}
