/** Stands for any of some texts in a sample; the first is the typical one. */
export class OneOf {
  readonly choices: readonly string[];
  constructor(choices: readonly string[]) {
    this.choices = choices;
  }
}
export const oneOf = (...choices: readonly string[]) => new OneOf(choices);

/** Typical arguments of one function, in order. */
export type Sample = readonly unknown[];
export type Samples = Readonly<Record<string, Sample>>;

/** The typical arguments themselves, every choice taken as its first. */
export function typical(value: unknown): unknown {
  if (value instanceof OneOf) return value.choices[0];
  if (Array.isArray(value)) return value.map(typical);
  if (ArrayBuffer.isView(value) || typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, typical(entry)]));
}
