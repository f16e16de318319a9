/** Lets messages in, and lets them be answered, before work goes on. */
export function nextTurn(): Promise<void> {
  return new Promise(done => setTimeout(done, 0));
}

/**
 * Runs something after a pause in milliseconds; with none, after what came in together with what is handled now. Returns how
 * to call it off.
 */
export function later(pause_ms: number, run: () => void): () => void {
  if (pause_ms > 0) {
    const timer = setTimeout(run, pause_ms);
    return () => clearTimeout(timer);
  }
  let wanted = true;
  soon(() => soon(() => wanted && run()));
  return () => {
    wanted = false;
  };
}

/** A worker of a browser has no `setImmediate`; a timer takes a millisecond at least. */
const soon: (run: () => void) => void =
  typeof setImmediate === 'function' ? run => setImmediate(run) : run => setTimeout(run, 0);
