/** Directions round a circle in steps of 7.5 degrees, -180 to 180, kept in the scratch room. */
import { scratchAt, setScratch } from './memory.ts';

/** Steps of a full turn. */
export const turns: i32 = 48;
/** Quarter either way from the feed in sixteen steps. */
export const quarterSteps: i32 = 17;
export const pi: f64 = Math.PI;
export const quarter: f64 = 1.5707963267948966;
const cosines: i32 = 0;
const sines: i32 = 49;
const quarterC: i32 = 98;
const quarterS: i32 = 115;
/** First number of the scratch room that is free for others. */
export const scratchFree: i32 = 132;

/** Fills the tables; before anything is read. */
export function fillTurns(): void {
  for (let k: i32 = 0; k <= turns; k++) {
    const angle: f64 = (k - 24) * 0.1308996938995747;
    setScratch(cosines + k, cosine(angle));
    setScratch(sines + k, sine(angle));
  }
  for (let k: i32 = 0; k < quarterSteps; k++) {
    const angle: f64 = (k - 8) * 0.19634954084936207;
    setScratch(quarterC + k, cosine(angle));
    setScratch(quarterS + k, sine(angle));
  }
}

/** Sine of an angle within +-3/2 pi, by its series up to the 15th power after folding: within 1e-11. */
export function sine(angle: f64): f64 {
  let a: f64 = angle;
  if (a > quarter) a = pi - a;
  else if (a < -quarter) a = -pi - a;
  const q: f64 = a * a;
  let sum: f64 = 1 - q * 0.004761904761904762;
  sum = 1 - q * 0.00641025641025641 * sum;
  sum = 1 - q * 0.00909090909090909 * sum;
  sum = 1 - q * 0.013888888888888888 * sum;
  sum = 1 - q * 0.023809523809523808 * sum;
  sum = 1 - q * 0.05 * sum;
  sum = 1 - q * 0.16666666666666666 * sum;
  return a * sum;
}

/** Cosine of an angle within +-pi. */
export function cosine(angle: f64): f64 {
  return sine(angle < 0 ? angle + quarter : quarter - angle);
}

export function cosineOf(turn: i32): f64 {
  return scratchAt(cosines + turn);
}
export function sineOf(turn: i32): f64 {
  return scratchAt(sines + turn);
}
export function quarterCosine(step: i32): f64 {
  return scratchAt(quarterC + step);
}
export function quarterSine(step: i32): f64 {
  return scratchAt(quarterS + step);
}
