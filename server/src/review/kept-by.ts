import type { Rule } from './rule.ts';

/** What is made of a table of rules, made once and kept with the table. */
export function keptBy<T>(make: (rules: readonly Rule[]) => T): (rules: readonly Rule[]) => T {
  const kept = new WeakMap<readonly Rule[], T>();
  return rules => {
    let found = kept.get(rules);
    if (found === undefined) {
      found = make(rules);
      kept.set(rules, found);
    }
    return found;
  };
}
