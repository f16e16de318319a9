/** Words that one block may hold; more are read and dropped with a problem. */
export const MOST_WORDS = 120;
/** Comments of one block that are kept. */
export const MOST_COMMENTS = 24;

/** Marks of a word. */
export const WORD = {
  /** The number has a decimal point (or comes from an expression): it is never in least increments. */
  point: 1,
  /** The value comes from an expression or a parameter. */
  expression: 2,
  /** Written after a comma: `,C` `,R`. */
  comma: 4,
  /** The value could not be read; the word must not be used. */
  bad: 8,
  /** Written as `@` (an X that is a distance from zero) or `^` (a Y that is an angle). */
  polar: 16,
} as const;

/**
 * One block, read: words in columns, reused from line to line. Letters are upper-case character codes; spans are
 * UTF-16 units from the start of the line, end exclusive.
 */
export class Block {
  count = 0;
  readonly letter = new Uint8Array(MOST_WORDS);
  readonly value = new Float64Array(MOST_WORDS);
  readonly start = new Int32Array(MOST_WORDS);
  readonly end = new Int32Array(MOST_WORDS);
  readonly marks = new Uint8Array(MOST_WORDS);
  /** Digits of the number as written, without sign and point. */
  readonly digits = new Uint8Array(MOST_WORDS);
  /** Index of the last word of each letter A to Z (not after a comma); -1 without. */
  readonly last = new Int16Array(26).fill(-1);
  /** Index of `,A`, `,C` and `,R`; -1 without. */
  comma_a = -1;
  comma_c = -1;
  comma_r = -1;

  commentCount = 0;
  readonly commentStart = new Int32Array(MOST_COMMENTS);
  readonly commentEnd = new Int32Array(MOST_COMMENTS);

  /** N of the block, NaN without. */
  n = Number.NaN;
  /** O or `:` number, NaN without. */
  o = Number.NaN;
  /** Start of an O word that is flow control (`o<name>`, `o100 sub`); -1 without. */
  flow = -1;
  /** Spindle that S, M3 to M5 and the like are for (`$n` of the report's successor); NaN without. */
  spindle = Number.NaN;
  /** Block delete switch: 1 for `/`, 1 to 9 for `/n`; 0 without. */
  deleted = 0;
  /** The line is `%`. */
  percent = false;
  /** It holds `(ABORT, ...)`: the program ends here. */
  abort = false;
  /** The block needs the control-flow driver: assignments, expressions, IF, WHILE, GOTO, O words. */
  needs_flow = false;
  /** A line that is no block (a note, a directive): words were dropped. */
  note = false;
  /** Least span problem worth knowing: the line was not read to its end. */
  length = 0;

  clear(): void {
    for (let i = 0; i < this.count; i += 1) {
      const at = this.letter[i] - 65;
      if (at >= 0 && at < 26) this.last[at] = -1;
    }
    this.count = 0;
    this.comma_a = -1;
    this.comma_c = -1;
    this.comma_r = -1;
    this.commentCount = 0;
    this.n = Number.NaN;
    this.o = Number.NaN;
    this.spindle = Number.NaN;
    this.flow = -1;
    this.deleted = 0;
    this.percent = false;
    this.abort = false;
    this.needs_flow = false;
    this.note = false;
  }

  add(letter: number, value: number, start: number, end: number, marks: number, digits: number): void {
    const at = this.count;
    if (at >= MOST_WORDS) return;
    this.count = at + 1;
    this.letter[at] = letter;
    this.value[at] = value;
    this.start[at] = start;
    this.end[at] = end;
    this.marks[at] = marks;
    this.digits[at] = digits;
    if ((marks & WORD.comma) !== 0) {
      if (letter === 67) this.comma_c = at;
      else if (letter === 82) this.comma_r = at;
      else if (letter === 65) this.comma_a = at;
    } else {
      this.last[letter - 65] = at;
    }
  }

  /** Forgets all words. */
  drop(): void {
    this.last.fill(-1);
    this.count = 0;
    this.comma_a = -1;
    this.comma_c = -1;
    this.comma_r = -1;
  }

  /** Index of the word of a letter (upper-case character code), -1 without. */
  index(letter: number): number {
    return this.last[letter - 65];
  }

  has(letter: number): boolean {
    return this.last[letter - 65] >= 0;
  }

  /** Value of the word of a letter, NaN without. */
  number(letter: number): number {
    const at = this.last[letter - 65];
    return at < 0 ? Number.NaN : this.value[at];
  }
}

/** Upper-case character codes of the letters. */
export const L = {
  A: 65,
  B: 66,
  C: 67,
  D: 68,
  E: 69,
  F: 70,
  G: 71,
  H: 72,
  I: 73,
  J: 74,
  K: 75,
  L: 76,
  M: 77,
  N: 78,
  O: 79,
  P: 80,
  Q: 81,
  R: 82,
  S: 83,
  T: 84,
  U: 85,
  V: 86,
  W: 87,
  X: 88,
  Y: 89,
  Z: 90,
} as const;
