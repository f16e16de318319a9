/** Degrees to radians. */
export const radians = (deg: number): number => (deg * Math.PI) / 180;
/** Radians to degrees. */
export const degrees = (rad: number): number => (rad * 180) / Math.PI;
/** Arc cosine that tolerates a rounding error past 1. */
export const acosClamped = (x: number): number => Math.acos(Math.max(-1, Math.min(1, x)));
