import type { Absent, Given } from './result.ts';
import { absent, isAbsent } from './result.ts';

/** What a formula accepts for one input. */
export interface Rule {
  readonly accepts: (value: number) => boolean;
  readonly says: string;
  readonly otherwise?: number;
}
export type Rules = Readonly<Record<string, Rule>>;
export type Values<R extends Rules> = { [K in keyof R]: number };
export type GivenFor<R extends Rules> = { readonly [K in keyof R]?: Given };
/** One number for all rows, or one number a row. */
export type Column = number | ArrayLike<number>;
export type ColumnsFor<R extends Rules> = { readonly [K in keyof R]?: Column | undefined };

/** Results for many rows: where `why[i]` is 0 `values[i]` is known, else `reasons[why[i]]` says why not. */
export interface ColumnResult {
  readonly values: Float64Array;
  readonly why: Uint8Array;
  readonly reasons: readonly string[];
}

export const positive: Rule = { accepts: v => v > 0, says: 'must be greater than 0' };
export const notNegative: Rule = { accepts: v => v >= 0, says: 'must be 0 or more' };
export const anyNumber: Rule = { accepts: () => true, says: 'must be a number' };
export const share: Rule = { accepts: v => v > 0 && v <= 1, says: 'must be over 0 and at most 1' };
export const toothCount: Rule = wholeNumber(1, 1000);
export const edgeAngle: Rule = between(0, 180, 'open');

/** A whole number within limits; the limits also bound the work done. */
/* @__NO_SIDE_EFFECTS__ */
export function wholeNumber(low: number, high: number): Rule {
  return {
    accepts: v => Number.isInteger(v) && v >= low && v <= high,
    says: `must be a whole number from ${low} to ${high}`,
  };
}

/** A number between limits, with the limits themselves or without. */
/* @__NO_SIDE_EFFECTS__ */
export function between(low: number, high: number, ends: 'open' | 'closed' = 'closed'): Rule {
  return ends === 'open'
    ? { accepts: v => v > low && v < high, says: `must be between ${low} and ${high}` }
    : { accepts: v => v >= low && v <= high, says: `must be from ${low} to ${high}` };
}

/** Two tables of rules as one. */
/* @__NO_SIDE_EFFECTS__ */
export function together<A extends Rules, B extends Rules>(a: A, b: B): A & B {
  return { ...a, ...b };
}

/** The same rule for an input that may be left out: the stated value stands in. */
/* @__NO_SIDE_EFFECTS__ */
export function optional(rule: Rule, otherwise: number): Rule {
  return { ...rule, otherwise };
}

const UNIT_ENDINGS =
  /_(mm|m_min|mm_min|mm_s|mm_s2|mm_s3|m_s2|rpm|deg|deg_min|n|nm|kw|um|hz|s|ms|min|kg|kg_m3|n_mm2|n_m|n_um|gpa|cm3_min|per_min|per_s|percent|rev_s2)$/;

/**
 * An input's name in words, for saying what is missing: `diameter_mm` reads `diameter`.
 * @formula the unit at the end is cut off, underscores become blanks
 * @units none; gives text
 * @range any text
 * @source definition in this library
 */
export function inputWords(name: string): string {
  return name.replace(UNIT_ENDINGS, '').replaceAll('_', ' ');
}

/**
 * Checks every input against its rule, runs the formula on plain numbers, and lets no result out that is not finite.
 * Missing inputs are all named at once; an input that is itself absent passes its reason on.
 */
export function compute<R extends Rules, T>(
  given: GivenFor<R>,
  rules: R,
  formula: (values: Values<R>) => T | Absent,
): T | Absent {
  const values = {} as { [K in keyof R]: number };
  let missing: string[] | undefined;
  let wrong: Absent | undefined;
  for (const name in rules) {
    const rule = rules[name] as Rule;
    const value = given[name];
    if (value === undefined || (typeof value === 'number' && Number.isNaN(value))) {
      if (rule.otherwise !== undefined && value === undefined) values[name] = rule.otherwise;
      else {
        missing ??= [];
        missing.push(name);
      }
    } else if (typeof value !== 'number') {
      if (!isAbsent(value)) wrong ??= absent(`${inputWords(name)} must be a number`);
      else if (value.missing === undefined) wrong ??= value;
      else {
        missing ??= [];
        missing.push(...value.missing);
      }
    } else if (!Number.isFinite(value) || !rule.accepts(value)) {
      wrong ??= absent(`${inputWords(name)} ${Number.isFinite(value) ? rule.says : 'must be finite'}`);
    } else values[name] = value;
  }
  if (missing !== undefined) return notKnown(missing);
  return wrong ?? settle(formula(values));
}

/** Names inputs that are not known. */
export function notKnown(missing: readonly string[]): Absent {
  const unique = [...new Set(missing)];
  return absent(`${unique.map(inputWords).join(', ')} not known`, unique);
}

/** Lets a result out only when every number in it is finite. */
export function settle<T>(result: T | Absent): T | Absent {
  return isAbsent(result) || isFiniteThroughout(result) ? result : absent('the result is too large to state');
}

function isFiniteThroughout(result: unknown): boolean {
  if (typeof result === 'number') return Number.isFinite(result);
  if (typeof result !== 'object' || result === null) return true;
  if (ArrayBuffer.isView(result)) return (result as Float64Array).every(v => Number.isFinite(v));
  return Object.values(result).every(isFiniteThroughout);
}

/** The same formula over columns: inputs may be one number for all rows or an array with one a row. */
export function computeColumn<R extends Rules>(
  given: ColumnsFor<R>,
  rules: R,
  formula: (values: Values<R>) => number | Absent,
): ColumnResult {
  const names = Object.keys(rules);
  const columns = names.map(name => given[name] ?? rules[name]?.otherwise);
  const lengths = columns.map(c => (c === undefined || typeof c === 'number' ? undefined : c.length));
  const given_rows = lengths.filter(l => l !== undefined);
  const rows = given_rows.length === 0 ? 1 : Math.min(...given_rows);
  const result = { values: new Float64Array(rows), why: new Uint8Array(rows), reasons: [''] };
  const values = {} as { [K in keyof R]: number };
  for (const name of names) values[name as keyof R] = 0;
  for (let row = 0; row < rows; row++) {
    let reason: string | undefined;
    for (let i = 0; i < names.length && reason === undefined; i++) {
      const name = names[i] as string;
      const column = columns[i];
      const value = column === undefined ? Number.NaN : typeof column === 'number' ? column : column[row];
      const rule = rules[name] as Rule;
      if (value === undefined || Number.isNaN(value)) reason = `${inputWords(name)} not known`;
      else if (!Number.isFinite(value) || !rule.accepts(value)) reason = `${inputWords(name)} ${rule.says}`;
      else values[name as keyof R] = value;
    }
    const outcome = reason === undefined ? settle(formula(values)) : absent(reason);
    if (typeof outcome === 'number') result.values[row] = outcome;
    else result.why[row] = reasonNumber(result.reasons, outcome.absent);
  }
  return result;
}

function reasonNumber(reasons: string[], reason: string): number {
  const found = reasons.indexOf(reason);
  if (found > 0) return found;
  return reasons.length < 256 ? reasons.push(reason) - 1 : 255;
}
