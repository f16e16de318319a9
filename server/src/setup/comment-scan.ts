import { readLeadingNumber } from './quantity.ts';

/** A size as found in a comment: its number, the unit written with it, and how it was written. */
export type WrittenSize = {
  value: number;
  unit: 'mm' | 'inch' | undefined;
  form: 'fraction' | 'point' | 'whole';
  start: number;
  end: number;
};

const numeral = String.raw`(?:\d{1,3}\s*-\s*\d{1,3}\/\d{1,3}|\d{1,3}\s+\d{1,3}\/\d{1,3}|\d{1,3}\/\d{1,3}|\d{1,6}\.\d{0,6}|\.\d{1,6}|\d{1,6})`;
const unit = `(?:MM|MILLIMET(?:ER|RE)S?|INCH(?:ES)?|IN|"|''|”|″)`;

/** A size inside a larger pattern: group names `n` and `u` with a suffix, the unit optional. */
export const sized = String.raw`(?<n>(?<![\d.])${numeral}(?![\d/]))(?: ?-?(?<u>${unit})(?![A-Z]))?`;

/**
 * A pattern that matches only where one of its words stands: a computer that has just started spends more on a pattern than
 * on everything else about a comment, and few are wanted.
 */
export class WordedPattern {
  constructor(
    readonly words: readonly string[],
    readonly pattern: RegExp,
  ) {}

  exec(text: string): RegExpExecArray | null {
    return this.words.some(word => text.includes(word)) ? this.pattern.exec(text) : null;
  }
}

/** A pattern that needs one of some words, which `|` parts. */
export function worded(words: string, pattern: RegExp): WordedPattern {
  return new WordedPattern(words.split('|'), pattern);
}

type Pattern = Pick<RegExp, 'exec'>;

/**
 * Text of a comment in upper case, letter for letter, from which what was understood is crossed out,
 * so that nothing is read twice and what is left can be judged.
 */
export class CommentScan {
  readonly text: string;
  #rest: string;

  constructor(text: string) {
    this.text = text
      .replace(/[a-z]/g, letter => letter.toUpperCase())
      .replace(/[_\t]/g, ' ')
      .replace(/\d{9,}/g, run => '¦'.repeat(run.length));
    this.#rest = this.text;
  }

  get rest(): string {
    return this.#rest;
  }

  /** Finds a pattern in what is left and crosses it out. */
  take(pattern: Pattern): RegExpExecArray | undefined {
    const match = pattern.exec(this.#rest);
    if (!match) return undefined;
    this.cross(match.index, match.index + match[0].length);
    return match;
  }

  /** Crosses out every place of a pattern. */
  drop(pattern: Pattern): void {
    for (let turn = 0; turn < 50 && this.take(pattern); turn++);
  }

  /** Finds a pattern that holds `sized`, and crosses it out. */
  takeSize(pattern: Pattern): WrittenSize | undefined {
    const match = this.take(pattern);
    return match ? writtenSize(match) : undefined;
  }

  /** Crosses out a stretch. */
  cross(start: number, end: number): void {
    this.#rest = this.#rest.slice(0, start) + '¦'.repeat(end - start) + this.#rest.slice(end);
  }

  /** All sizes that are left, without crossing them out. */
  sizesLeft(): WrittenSize[] {
    return [...this.#rest.matchAll(lone)].map(writtenSize).filter(size => size !== undefined);
  }
}

const lone = new RegExp(String.raw`(?<![\w./#])${sized}(?!\w|\.\d)`, 'g');

/** A pattern around a size: `%` stands for it. It needs one of the words, which `|` parts. */
export function around(words: string, pattern: string): WordedPattern {
  return worded(words, new RegExp(pattern.replace('%', () => sized)));
}

function writtenSize(match: RegExpExecArray | RegExpMatchArray): WrittenSize | undefined {
  const number = match.groups?.n;
  if (number === undefined) return undefined;
  const value = readLeadingNumber(number.replace(/\.$/, ''))?.value;
  if (value === undefined) return undefined;
  const start = match.index ?? 0;
  const word = match.groups?.u;
  return {
    value,
    unit: word === undefined ? undefined : word.startsWith('M') ? 'mm' : 'inch',
    form: number.includes('/') ? 'fraction' : number.includes('.') ? 'point' : 'whole',
    start,
    end: start + match[0].length,
  };
}
