import type { Review } from '../../server/src/review/review.ts';
import { byteLoop } from './anchors.ts';
import { type Figure, figure, inTurn, median, ratios } from './figures.ts';
import { makeProgram, PROGRAM_KINDS } from './programs.ts';
import { coldReview } from './review-cold.ts';

/** Bytes that the process holds after everything that is not held is gone. */
function held(): number {
  let least = Number.POSITIVE_INFINITY;
  // Buffers are given back a while after the objects that held them.
  for (let calm = 0; calm < 3; calm++) {
    globalThis.gc?.();
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 30);
    const { heapUsed, external } = process.memoryUsage();
    if (heapUsed + external < 0.999 * least) calm = 0;
    least = Math.min(least, heapUsed + external);
  }
  return least;
}

/** Where a review is held while its memory is looked at: a local that nobody reads again is let go at once. */
export let alive: Review | undefined;

/** What a whole review holds on top of the text, for each byte of text. */
export function memory(): Figure[] {
  return PROGRAM_KINDS.map(kind => {
    const bytes = makeProgram(kind, 1_000_000);
    const shares: number[] = [];
    for (let round = 0; round < 7; round++) {
      const before = held();
      alive = coldReview(bytes);
      shares.push((held() - before) / bytes.length);
      alive = undefined;
    }
    const name = `memory of a review on top of the text, ${kind}`;
    return figure({ name, against: 'byte of text', target: 2 }, shares);
  });
}

const SIZES = [10_000, 100_000, 1_000_000, 5_000_000];

/** Time and memory a line from 10,000 to 5,000,000 lines, each against the byte loop of the same size, 100,000 lines being 1. */
export function growth(): Figure[] {
  const time = new Map<number, number[]>();
  const memory = new Map<number, number>();
  for (const lines of SIZES) {
    const bytes = makeProgram('finishing', lines);
    const times = Math.max(1, Math.round(200_000 / lines));
    const again = (work: () => unknown) => () => {
      for (let i = 0; i < times; i++) work();
    };
    const took = inTurn(7, {
      loop: again(() => byteLoop(bytes)),
      review: again(() => coldReview(bytes)),
    });
    time.set(lines, ratios(took.review, took.loop));
    const before = held();
    alive = coldReview(bytes);
    memory.set(lines, (held() - before) / lines);
    alive = undefined;
  }
  const base = median(time.get(100_000) ?? []);
  const baseBytes = memory.get(100_000) ?? Number.NaN;
  return SIZES.flatMap(lines => [
    figure(
      {
        name: `growth: time a line at ${lines.toLocaleString('en')} lines`,
        against: 'at 100,000 lines',
        target: 1.3,
      },
      (time.get(lines) ?? []).map(ratio => ratio / base),
    ),
    figure(
      {
        name: `growth: memory a line at ${lines.toLocaleString('en')} lines`,
        against: 'at 100,000 lines',
        target: 1.3,
        plain: `${memory.get(lines)?.toFixed(0)} bytes a line`,
      },
      [(memory.get(lines) ?? Number.NaN) / baseBytes],
    ),
  ]);
}
