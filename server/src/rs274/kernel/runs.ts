/** Runs that differ in motion code and feed alone. */
import { askedFeed, askedMotion, askedRow, askRun, isUnknown, setAsked } from './memory.ts';

/** So many are remembered; those before are asked for again. */
const most: i32 = 8;

let made: i32 = 0;

export function forgetRuns(): void {
  made = 0;
}

/** Run for a motion code and a feed in the state that holds: one asked for before, or a new one. */
export function runFor(motion: i32, feed: f64): i32 {
  const known: i32 = made < most ? made : most;
  for (let at: i32 = 0; at < known; at++) {
    const feedAt: f64 = askedFeed(at);
    const same: bool = feedAt === feed || (isUnknown(feedAt) && isUnknown(feed));
    if (same && askedMotion(at) === motion) return askedRow(at);
  }
  const row: i32 = askRun(motion, feed);
  setAsked(made % most, motion, feed, row);
  made++;
  return row;
}
