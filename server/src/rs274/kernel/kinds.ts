/** Kinds and flags of steps, as in `KIND` and `STEP_FLAG` (steps.ts); a test holds one against the other. */
export const kindRapid: i32 = 0;
export const kindFeed: i32 = 1;
export const kindArc: i32 = 2;
export const kindThread: i32 = 3;
export const kindTap: i32 = 4;
export const flagCycle: i32 = 1;
