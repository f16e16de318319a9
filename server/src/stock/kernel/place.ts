/** The place on the path that is read. */

/** Number of the station. */
export let place: i32 = 0;
export let sx: f64 = 0;
export let sy: f64 = 0;
export let sz: f64 = 0;
/** Direction of the feed seen from above. */
export let dirX: f64 = 1;
export let dirY: f64 = 0;
/** Cosine and sine of the path's slope: 0 and -1 straight down. */
export let level: f64 = 0;
export let rise: f64 = 0;
/** Distance from the start of the straight piece. */
export let lead: f64 = 0;

export function setPlace(
  station: i32,
  x: f64,
  y: f64,
  z: f64,
  feedX: f64,
  feedY: f64,
  cosine: f64,
  sine: f64,
  since: f64,
): void {
  place = station;
  sx = x;
  sy = y;
  sz = z;
  dirX = feedX;
  dirY = feedY;
  level = cosine;
  rise = sine;
  lead = since;
}
