/** The tool in work: the numbers of `Cutter` with the same names. */

export const shapeFlat: i32 = 0;
export const shapeRound: i32 = 1;
export const shapeCone: i32 = 2;

/** Metal less than this over the tool's underside is not a depth of cut, mm. */
export const skin: f64 = 0.004;

export let shape: i32 = 0;
/** A round without a flat tip and without a straight part below its full radius. */
export let isBall: bool = false;
export let radius: f64 = 1;
export let flat: f64 = 1;
export let corner: f64 = 0;
export let slope: f64 = 0;
export let edgeHeight: f64 = 0;
export let widest: f64 = 1;

export function setTool(
  ofShape: i32,
  ball: bool,
  radius_mm: f64,
  flat_mm: f64,
  corner_mm: f64,
  slope_mm: f64,
  edge_height_mm: f64,
  widest_mm: f64,
): void {
  shape = ofShape;
  isBall = ball;
  radius = radius_mm;
  flat = flat_mm;
  corner = corner_mm;
  slope = slope_mm;
  edgeHeight = edge_height_mm;
  widest = widest_mm;
  bodies = 0;
}

/** Shank and holder: one more cylinder from `low` over the tip up. */
export let bodies: i32 = 0;
export let body0Radius: f64 = 0;
export let body0Low: f64 = 0;
export let body1Radius: f64 = 0;
export let body1Low: f64 = 0;

export function addBody(radius_mm: f64, low_mm: f64): void {
  if (bodies === 0) {
    body0Radius = radius_mm;
    body0Low = low_mm;
  } else {
    body1Radius = radius_mm;
    body1Low = low_mm;
  }
  bodies++;
}

/** See `profileHeight` of `Cutter`. */
export function profileAt(rho: f64): f64 {
  const over: f64 = Math.min(rho, radius) - flat;
  if (over <= 0) return 0;
  if (shape === shapeCone) return slope * over;
  if (shape === shapeFlat) return 0;
  const inside: f64 = corner * corner - over * over;
  return inside <= 0 ? corner : corner - Math.sqrt(inside);
}

/** See `radiusAtHeight` of `Cutter`. */
export function radiusAt(height: f64): f64 {
  if (height >= edgeHeight) return radius;
  if (height <= 0) return flat;
  if (shape === shapeCone) return flat + height / slope;
  return flat + Math.sqrt(height * (2 * corner - height));
}
