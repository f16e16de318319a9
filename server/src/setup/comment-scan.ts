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
  take(pattern: RegExp): RegExpExecArray | undefined {
    const match = pattern.exec(this.#rest);
    if (!match) return undefined;
    this.cross(match.index, match.index + match[0].length);
    return match;
  }

  /** Crosses out every place of a pattern. */
  drop(pattern: RegExp): void {
    for (let turn = 0; turn < 50 && this.take(pattern); turn++);
  }

  /** Finds a pattern that holds `sized`, and crosses it out. */
  takeSize(pattern: RegExp): WrittenSize | undefined {
    const match = this.take(pattern);
    return match ? writtenSize(match) : undefined;
  }

  /** Crosses out a stretch. */
  cross(start: number, end: number): void {
    this.#rest = this.#rest.slice(0, start) + '¦'.repeat(end - start) + this.#rest.slice(end);
  }

  /** All sizes that are left, without crossing them out. */
  sizesLeft(): WrittenSize[] {
    const pattern = new RegExp(String.raw`(?<![\w./#])${sized}(?!\w|\.\d)`, 'g');
    return [...this.#rest.matchAll(pattern)].map(writtenSize).filter(size => size !== undefined);
  }
}

/** A pattern around a size: `%` stands for it. */
export function around(pattern: string): RegExp {
  return new RegExp(pattern.replace('%', () => sized));
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
