/** One measured figure: how often a yardstick of the same run, taken in turn with it. */
export interface Figure {
  name: string;
  /** What 1 stands for: `byte loop`, `empty round trip`. */
  against: string;
  least: number;
  median: number;
  most: number;
  samples: number;
  /** Share of the samples that may lie above `high`; given where the tail counts. */
  high?: { share: number; value: number };
  /** At most this is wanted (`over`: at least). */
  target?: number;
  over?: boolean;
  /** Medians in plain numbers, to read along with: not for comparing between runs. */
  plain?: string;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** Sums the samples of one figure up. */
export function figure(
  about: Pick<Figure, 'name' | 'against' | 'target' | 'over' | 'plain'>,
  values: readonly number[],
): Figure {
  return {
    ...about,
    least: Math.min(...values),
    median: median(values),
    most: Math.max(...values),
    samples: values.length,
  };
}

/** Runs things in turn, round after round, and gives the milliseconds of each by name; one round before is not counted. */
export function inTurn<N extends string>(
  rounds: number,
  things: Record<N, () => unknown>,
): Record<N, number[]> {
  const names = Object.keys(things) as N[];
  const times = Object.fromEntries(names.map(name => [name, [] as number[]])) as Record<N, number[]>;
  for (let round = -1; round < rounds; round++) {
    for (const name of names) {
      const began = performance.now();
      keep(things[name]());
      const ms = performance.now() - began;
      if (round >= 0) times[name].push(ms);
    }
  }
  return times;
}

let kept: unknown;
/** So that no result is left out because nobody looks at it. */
function keep(value: unknown): void {
  kept = value;
  if (kept === Symbol.iterator) throw new Error('never');
}

/** Sample by sample how often the second goes into the first. */
export function ratios(of: readonly number[], by: readonly number[]): number[] {
  return of.map((value, index) => value / by[index]);
}

export const ms = (values: readonly number[]): string => {
  const value = median(values);
  return `${value.toFixed(value < 10 ? 2 : 0)} ms`;
};
