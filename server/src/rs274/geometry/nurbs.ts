/** A control point in the plane with its weight. */
export interface ControlPoint {
  readonly x: number;
  readonly y: number;
  readonly weight: number;
}

/** Halvings of one piece between two knots. */
const MOST_HALVINGS = 14;

/**
 * Points of a rational spline with clamped, even knots (0 ... 0 1 2 ... n n): chords that stand off it by no more than
 * `chord_mm`, its start left out. `order` is 2 and up (3: quadratic), at most the number of points; weights must be over 0, so that
 * the curve lies in the hull of its control points. Source of the method: blossoms of B-splines (Ramshaw), standard.
 */
export function splineChords(
  points: readonly ControlPoint[],
  order: number,
  chord_mm: number,
): { x: number; y: number }[] {
  const degree = order - 1;
  const pieces = points.length - degree;
  const knots: number[] = [];
  for (let i = 0; i < points.length + order; i += 1) knots.push(Math.min(pieces, Math.max(0, i - degree)));
  const weighted = points.map(({ x, y, weight }): Weighted => [x * weight, y * weight, weight]);
  const out: { x: number; y: number }[] = [];
  for (let piece = 0; piece < pieces; piece += 1) {
    const polygon: Weighted[] = [];
    for (let j = 0; j <= degree; j += 1) {
      const values = [...new Array<number>(degree - j).fill(piece), ...new Array<number>(j).fill(piece + 1)];
      polygon.push(blossom(weighted, knots, degree, piece + degree, values));
    }
    halve(polygon, chord_mm, MOST_HALVINGS, out);
  }
  return out;
}

type Weighted = readonly [x: number, y: number, w: number];

function between(a: Weighted, b: Weighted, share: number): Weighted {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
}

/** Value of the polar form of the piece that begins at knot `span`, at one parameter value a level. */
function blossom(
  points: readonly Weighted[],
  knots: readonly number[],
  degree: number,
  span: number,
  values: readonly number[],
): Weighted {
  let row = points.slice(span - degree, span + 1);
  for (let level = 1; level <= degree; level += 1) {
    const t = values[level - 1];
    row = row.slice(1).map((to, i) => {
      const low = knots[span - degree + level + i];
      const high = knots[span + 1 + i];
      return between(row[i], to, (t - low) / (high - low));
    });
  }
  return row[0];
}

function halve(
  polygon: readonly Weighted[],
  chord_mm: number,
  left: number,
  out: { x: number; y: number }[],
): void {
  const last = polygon[polygon.length - 1];
  if (left === 0 || isFlat(polygon, chord_mm)) {
    out.push({ x: last[0] / last[2], y: last[1] / last[2] });
    return;
  }
  const head: Weighted[] = [];
  const tail: Weighted[] = [];
  let row = polygon;
  while (row.length > 0) {
    head.push(row[0]);
    tail.unshift(row[row.length - 1]);
    const before = row;
    row = before.slice(1).map((to, i) => between(before[i], to, 0.5));
  }
  halve(head, chord_mm, left - 1, out);
  halve(tail, chord_mm, left - 1, out);
}

/** Whether all control points are as near to the straight piece between first and last as the chord may be. */
function isFlat(polygon: readonly Weighted[], chord_mm: number): boolean {
  const [a, b] = [polygon[0], polygon[polygon.length - 1]];
  const [ax, ay] = [a[0] / a[2], a[1] / a[2]];
  const [dx, dy] = [b[0] / b[2] - ax, b[1] / b[2] - ay];
  const long = dx * dx + dy * dy;
  return polygon.every(([x, y, w]) => {
    const [px, py] = [x / w - ax, y / w - ay];
    const share = long > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy) / long)) : 0;
    return Math.hypot(px - share * dx, py - share * dy) <= chord_mm;
  });
}
