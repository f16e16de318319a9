import { nearestName } from '../../setup/nearest.ts';
import { codeExplanations, letterExplanations, rangeOf } from './explain-codes.ts';
import { findingExplanations } from './explain-findings.ts';
import { keyExplanations } from './explain-keys.ts';
import { quantityExplanations, wordExplanations } from './explain-quantities.ts';
import type { Explanation } from './explanation.ts';

/** Longest name that is looked up. */
const MOST_LETTERS = 200;
const MOST_NEAR = 6;

let held: readonly Explanation[] | undefined;
let index: Map<string, Explanation[]> | undefined;

/** Everything that can be asked for: findings, problems, quantities, our words, codes, letters, keys. */
export function explanations(): readonly Explanation[] {
  held ??= [
    ...findingExplanations(),
    ...quantityExplanations(),
    ...wordExplanations(),
    ...codeExplanations(),
    ...letterExplanations(),
    ...keyExplanations(),
  ];
  return held;
}

/**
 * What a name stands for; more than one where a code has several meanings or a key stands in several places. Case, blanks,
 * `-` and `_` do not count; `G083` is `G83`; numbers and names in a key's path stand for `*`.
 */
export function explain(name: string): readonly Explanation[] {
  if (name.length > MOST_LETTERS) return [];
  const found = names().get(normal(name));
  if (found) return found;
  const code = /^([GM])\s*0*(\d{1,5}(?:\.\d)?)$/i.exec(name.trim());
  if (code) return explainCode(code[1].toUpperCase(), Number(code[2]));
  return keyByPath(name);
}

function explainCode(letter: string, number: number): readonly Explanation[] {
  const own = names().get(normal(`${letter}${number}`));
  if (own) return own;
  const row = rangeOf(letter, number);
  return row ? (names().get(normal(`${letter}${row.number}`)) ?? []) : [];
}

/** `tools.3.diameter` is the key `tools.*.diameter`. */
function keyByPath(name: string): readonly Explanation[] {
  const wanted = name.trim().split('.');
  if (wanted.length < 2) return [];
  return explanations().filter(({ kind, name: path }) => {
    if (kind !== 'key') return false;
    const steps = path.split('.');
    return (
      steps.length === wanted.length &&
      steps.every((step, i) => step === '*' || normal(step) === normal(wanted[i]))
    );
  });
}

/** Names that may have been meant, the likeliest first. */
export function nearNames(name: string): string[] {
  const wanted = normal(name);
  if (wanted === '' || name.length > MOST_LETTERS) return [];
  const all = [...new Set(explanations().map(each => each.name))];
  const near = nearestName(name, all);
  const holding = wanted.length < 3 ? [] : all.filter(each => normal(each).includes(wanted));
  const parts = wanted
    .split('-')
    .filter(part => part.length > 3)
    .flatMap(part => all.filter(each => normal(each).split(/[-.]/).includes(part)));
  return [...new Set([...(near === undefined ? [] : [near]), ...holding, ...parts])].slice(0, MOST_NEAR);
}

function names(): Map<string, Explanation[]> {
  if (!index) {
    index = new Map();
    for (const each of explanations())
      for (const key of new Set([each.name, ...each.also].map(normal))) {
        const there = index.get(key);
        if (there) there.push(each);
        else index.set(key, [each]);
      }
  }
  return index;
}

function normal(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, '-');
}
