import { RUN, RUN_WIDTH } from '../rs274/steps.ts';

/** G3 times ten: the largest motion code of a plain move. */
const PLAIN_MOTION = 30;

/** Whether two runs belong in one part: equal but for G0 to G3, which change all the time and which `kinds` tells. */
export function sameRun(a: Float64Array, b: Float64Array, a_from = 0, b_from = 0): boolean {
  for (let i = 0; i < RUN_WIDTH; i++) {
    const left = a[a_from + i];
    const right = b[b_from + i];
    if (left === right || (Number.isNaN(left) && Number.isNaN(right))) continue;
    if (i !== RUN.motion || !(left <= PLAIN_MOTION && right <= PLAIN_MOTION)) return false;
  }
  return true;
}

/** A number that is equal for runs that belong in one part. */
export function runHash(run: Float64Array): number {
  let hash = 17;
  for (let i = 0; i < RUN_WIDTH; i++) {
    const value = i === RUN.motion && run[i] <= PLAIN_MOTION ? 0 : run[i];
    hash = (Math.imul(hash, 31) + ((value * 1000) | 0)) | 0;
  }
  return hash;
}
