/** Where a known value comes from, best source first. */
export type OriginFrom = 'setup' | 'standing' | 'crib' | 'comment' | 'program' | 'settled' | 'assumed';

/** The place a value was read from: enough for a link, and for a sentence that says how it is known. */
export type Origin = {
  from: OriginFrom;
  /** In words, fit to be shown: `tools.3.diameter in bracket.setup.json`, `comment on line 4`. */
  where: string;
  file?: string;
  /** 1-based line in `file`, or in the program when there is no file. */
  line?: number;
  /** Path of the key in a setup sheet or crib, dots between: `tools.3.diameter`. */
  key?: string;
  /** UTF-16 offset and length of the value in its text. */
  offset?: number;
  length?: number;
  /** Set when the source itself is vague ("1.9-ISH"); says why. */
  uncertain?: string;
};

/** A value together with how it is known. */
export type Known<T> = { value: T; origin: Origin };

/** Joins a value with its origin. */
export function known<T>(value: T, origin: Origin): Known<T> {
  return { value, origin };
}

const rank: Record<OriginFrom, number> = {
  setup: 0,
  standing: 1,
  crib: 2,
  program: 3,
  comment: 4,
  settled: 5,
  assumed: 6,
};

/** The better known of two: lower is better. A value read from a comment is never better than a sheet or crib. */
export function compareOrigins(a: Origin, b: Origin): number {
  return rank[a.from] - rank[b.from];
}

/** True for values a person stated or confirmed (sheet, standing tool, crib); false for what was only read or assumed. */
export function isConfirmed(origin: Origin): boolean {
  return origin.from === 'setup' || origin.from === 'standing' || origin.from === 'crib';
}
