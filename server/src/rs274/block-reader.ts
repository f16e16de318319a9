import { Block, L, MOST_COMMENTS, MOST_WORDS, WORD } from './block.ts';
import { isNote } from './notes.ts';
import type { Problem } from './problems.ts';
import { NUMBER_FAULT, NumberRead, readNumber, skipBlanks } from './read-number.ts';

/** Gives values to expressions and parameters in a block; without one they are left open and the block needs flow. */
export interface ValueSource {
  /**
   * Value of the expression or parameter that begins at `start` of the line. `end` is after it. NaN with `vacant` means
   * that the word counts as not written.
   */
  read(text: string, start: number): { value: number; end: number; vacant?: boolean; problem?: ValueProblem };
  /** Reads `#n=value` or `#<name>=value` at `start`; it takes effect after the block's values have been read. */
  assign(text: string, start: number): { end: number; problem?: ValueProblem };
}

export interface ValueProblem {
  code: string;
  message: string;
  start: number;
  end: number;
}

/** What of the language depends on the file or the dialect. */
export interface ReaderSettings {
  /** `;` ends a block and text after it is not a comment. */
  semicolon_ends_block: boolean;
  /** Rules of the report: nested comments and repeated letters are errors there. */
  report_rules: boolean;
}

/** Reads blocks from bytes, one line at a time, into a block that is used again. Never throws. */
export class BlockReader {
  readonly block = new Block();
  problems: Problem[] = [];
  line = 0;
  values: ValueSource | null = null;
  private readonly number = new NumberRead();
  private base = 0;
  private text: string | null = null;

  constructor(private readonly settings: ReaderSettings) {}

  /** Reads the line between `start` and `end` (its end excluded). */
  read(bytes: Uint8Array, start: number, end: number, line: number): Block {
    const { block } = this;
    block.clear();
    this.line = line;
    this.base = start;
    this.text = null;
    block.length = end - start;
    let p = this.head(bytes, start, end);
    while (p < end) p = this.item(bytes, p, end);
    return block;
  }

  private head(bytes: Uint8Array, start: number, end: number): number {
    let p = skipIgnored(bytes, start, end);
    if (p >= end) return end;
    const c = bytes[p];
    if (c === 37) {
      this.block.percent = true;
      return end;
    }
    if (c === 47) {
      if (p + 1 < end && bytes[p + 1] === 47) return this.comment(p, end);
      this.block.deleted = 1;
      p = skipIgnored(bytes, p + 1, end);
      if (p < end && bytes[p] >= 49 && bytes[p] <= 57) {
        this.block.deleted = bytes[p] - 48;
        p += 1;
      }
      return p;
    }
    if (c === 91 && this.values === null && !closes(bytes, p, end)) {
      return this.noteLine(
        p,
        end,
        'directive-line',
        'this line is not a block of the program; it is left out',
      );
    }
    if (c === 58) {
      readNumber(bytes, p + 1, end, this.number);
      this.block.o = this.number.value;
      return this.number.end > p + 1 ? this.number.end : p + 1;
    }
    if (c === 60) {
      let q = p + 1;
      while (q < end && bytes[q] !== 62) q += 1;
      return this.comment(p, Math.min(end, q + 1));
    }
    return p;
  }

  private item(bytes: Uint8Array, at: number, end: number): number {
    const c = bytes[at];
    if (c <= 32) return at + 1;
    if ((c >= 65 && c <= 90) || (c >= 97 && c <= 122)) return this.word(bytes, at, end, c & 0xdf, 0);
    if (c === 40) return this.parenthesis(bytes, at, end);
    if (c === 59) return this.semicolon(bytes, at, end);
    if (c === 35) return this.assignment(bytes, at, end);
    if (c === 44) return this.commaWord(bytes, at, end);
    if (c === 47 && at + 1 < end && bytes[at + 1] === 47) return this.comment(at, end);
    return this.badCharacter(bytes, at, end);
  }

  private word(bytes: Uint8Array, at: number, end: number, letter: number, marks: number): number {
    const { block, number } = this;
    if (letter === L.O && marks === 0) return this.oWord(bytes, at, end);
    let p = skipBlanks(bytes, at + 1, end);
    const c = p < end ? bytes[p] : 0;
    let signed = p;
    if (c === 45 || c === 43) signed = skipBlanks(bytes, p + 1, end);
    const next = signed < end ? bytes[signed] : 0;
    if (next === 35 || next === 91) return this.expressionWord(bytes, at, p, end, letter, marks);
    if (c >= 65 && ((c >= 65 && c <= 90) || (c >= 97 && c <= 122))) {
      if (isKeyword(bytes, at, end)) {
        block.needs_flow = true;
        return end;
      }
      if ((letter === L.G || letter === L.M) && (c & 0xdf) === L.O && !isLetter(bytes, p + 1, end)) {
        return this.letterO(bytes, at, p, end, letter);
      }
      return this.strayText(bytes, at, end);
    }
    readNumber(bytes, p, end, number);
    p = number.end;
    if (number.fault !== NUMBER_FAULT.none) this.numberProblem(bytes, at, p, letter);
    if (letter === L.N && marks === 0) {
      if (Number.isNaN(block.n)) block.n = number.value;
      return Math.max(p, at + 1);
    }
    let bits = marks;
    if (number.point) bits |= WORD.point;
    if (Number.isNaN(number.value)) bits |= WORD.bad;
    this.put(letter, number.value, at, Math.max(p, at + 1), bits, number.digits);
    return Math.max(p, at + 1);
  }

  private put(letter: number, value: number, from: number, to: number, bits: number, digits: number): void {
    const { block } = this;
    if (block.count >= MOST_WORDS) {
      if (block.count === MOST_WORDS)
        this.problem('too-many-words', from, to, 'more words than a block may have');
      return;
    }
    if ((bits & WORD.comma) === 0 && letter !== L.G && letter !== L.M && block.has(letter)) {
      const name = String.fromCharCode(letter);
      this.problem('letter-repeated', from, to, `${name} stands twice in this block; the last one counts`);
    }
    block.add(letter, value, from - this.base, to - this.base, bits, digits);
  }

  private expressionWord(
    bytes: Uint8Array,
    at: number,
    from: number,
    end: number,
    letter: number,
    marks: number,
  ): number {
    this.block.needs_flow = true;
    if (this.values === null) return skipExpression(bytes, from, end);
    const read = this.values.read(this.lineText(bytes, end), from - this.base);
    const to = Math.min(end, Math.max(this.base + read.end, from + 1));
    if (read.problem !== undefined) this.valueProblem(read.problem);
    if (read.vacant === true) return to;
    if (letter === L.N) this.block.n = read.value;
    else this.put(letter, read.value, at, to, marks | WORD.point | WORD.expression, 0);
    return to;
  }

  private assignment(bytes: Uint8Array, at: number, end: number): number {
    this.block.needs_flow = true;
    if (this.values === null) return end;
    const read = this.values.assign(this.lineText(bytes, end), at - this.base);
    if (read.problem !== undefined) this.valueProblem(read.problem);
    return Math.min(end, Math.max(this.base + read.end, at + 1));
  }

  private oWord(bytes: Uint8Array, at: number, end: number): number {
    const { block, number } = this;
    const p = skipBlanks(bytes, at + 1, end);
    const c = p < end ? bytes[p] : 0;
    if (c === 60 || c === 35 || c === 91) {
      block.flow = at - this.base;
      block.needs_flow = true;
      return end;
    }
    readNumber(bytes, p, end, number);
    if (number.digits === 0) return this.strayText(bytes, at, end);
    const after = skipBlanks(bytes, number.end, end);
    if (isLetter(bytes, after, end) && isLetter(bytes, after + 1, end) && isFlowWord(bytes, after, end)) {
      block.flow = at - this.base;
      block.needs_flow = true;
      return end;
    }
    block.o = number.value;
    return number.end;
  }

  private parenthesis(bytes: Uint8Array, at: number, end: number): number {
    let depth = 1;
    let p = at + 1;
    let first_close = -1;
    let nested = -1;
    while (p < end && depth > 0) {
      const c = bytes[p];
      if (c === 40) {
        depth += 1;
        if (nested < 0 && first_close < 0) nested = p;
      } else if (c === 41) {
        depth -= 1;
        if (first_close < 0) first_close = p;
      }
      p += 1;
    }
    if (nested < 0 && first_close >= 0) return this.comment(at, first_close + 1);
    if (nested >= 0 && depth === 0) {
      this.problem(
        'comment-nested',
        nested,
        nested + 1,
        'a comment cannot hold another one; it ends at the first )',
      );
      return this.comment(at, p);
    }
    if (first_close >= 0) return this.comment(at, first_close + 1);
    this.problem(
      'comment-unclosed',
      at,
      end,
      'this comment is not closed; the rest of the line was taken as comment',
    );
    return this.comment(at, end);
  }

  private semicolon(bytes: Uint8Array, at: number, end: number): number {
    if (this.settings.semicolon_ends_block || skipIgnored(bytes, at + 1, end) >= end) return end;
    return this.comment(at, end);
  }

  private comment(from: number, to: number): number {
    const { block } = this;
    if (block.commentCount < MOST_COMMENTS) {
      block.commentStart[block.commentCount] = from - this.base;
      block.commentEnd[block.commentCount] = to - this.base;
      block.commentCount += 1;
    }
    return to;
  }

  private commaWord(bytes: Uint8Array, at: number, end: number): number {
    const p = skipBlanks(bytes, at + 1, end);
    const letter = p < end ? bytes[p] & 0xdf : 0;
    if (letter === L.C || letter === L.R || letter === L.A)
      return this.word(bytes, p, end, letter, WORD.comma);
    return this.badCharacter(bytes, at, end);
  }

  private letterO(bytes: Uint8Array, at: number, o: number, end: number, letter: number): number {
    let p = o + 1;
    while (p < end && bytes[p] >= 48 && bytes[p] <= 57) p += 1;
    let value = 0;
    for (let q = o + 1; q < p; q += 1) value = value * 10 + (bytes[q] - 48);
    const name = String.fromCharCode(letter);
    this.problem('letter-o-for-zero', at, p, `the letter O stands where a zero was meant`, {
      title: `Write ${name}0`,
      start: o - this.base,
      end: o + 1 - this.base,
      text: '0',
    });
    this.put(letter, value, at, p, 0, p - o);
    return p;
  }

  private strayText(bytes: Uint8Array, at: number, end: number): number {
    const { block } = this;
    if (block.count === 0 && isNote(bytes, at, end)) {
      return this.noteLine(
        at,
        end,
        'text-outside-comment',
        'this text is not a block; put it in parentheses',
      );
    }
    if (isLetter(bytes, at + 1, end)) {
      let p = at;
      while (p < end && bytes[p] !== 40 && bytes[p] !== 59) p += 1;
      while (p > at && bytes[p - 1] <= 32) p -= 1;
      this.problem('text-outside-comment', at, p, 'this text is not part of a block; put it in parentheses');
      return p;
    }
    const name = String.fromCharCode(bytes[at]).toUpperCase();
    this.problem('number-missing', at, at + 1, `${name} has no number`);
    return at + 1;
  }

  private noteLine(from: number, to: number, code: string, message: string): number {
    this.block.note = true;
    this.problem(code, from, to, message);
    return to;
  }

  private badCharacter(bytes: Uint8Array, at: number, end: number): number {
    let p = at + 1;
    const quote = bytes[at] === 34 || bytes[at] === 39;
    while (p < end && (quote || isBad(bytes[p]))) p += 1;
    this.problem('bad-character', at, p, 'this character has no meaning here');
    return p;
  }

  private numberProblem(bytes: Uint8Array, at: number, to: number, letter: number): void {
    const name = String.fromCharCode(letter);
    const { fault, value } = this.number;
    const from = skipBlanks(bytes, at + 1, to);
    const span = { start: from - this.base, end: to - this.base };
    if (fault === NUMBER_FAULT.missing) {
      if (isPlaceholder(bytes, Math.max(to, at + 1))) {
        this.problem('number-blank', at, at + 2, `${name} is left blank: the program is not finished`);
      } else {
        this.problem('number-missing', at, Math.max(to, at + 1), `${name} has no number`);
      }
    } else if (fault === NUMBER_FAULT.comma) {
      const fix = { title: 'Write a point', ...span, text: String(value) };
      this.problem('number-comma', at, to, 'a decimal point is written as a point, not as a comma', fix);
    } else if (fault === NUMBER_FAULT.letter_o) {
      const fix = { title: 'Write a zero', ...span, text: this.slice(bytes, from, to).replace(/o/gi, '0') };
      this.problem('letter-o-for-zero', at, to, 'the letter O stands where a zero was meant', fix);
    } else if (fault === NUMBER_FAULT.exponent) {
      const fix = { title: 'Write it out', ...span, text: value.toFixed(6).replace(/0+$/, '') };
      this.problem(
        'number-exponent',
        at,
        to,
        'a number cannot have an exponent; a control reads E as a word',
        fix,
      );
    } else {
      this.problem('number-bad', at, to, `the number of ${name} cannot be read`);
    }
  }

  private valueProblem(problem: ValueProblem): void {
    this.problem(problem.code, this.base + problem.start, this.base + problem.end, problem.message);
  }

  private problem(code: string, from: number, to: number, message: string, fix?: Problem['fix']): void {
    const problem: Problem = { code, line: this.line, start: from - this.base, end: to - this.base, message };
    if (fix !== undefined) problem.fix = fix;
    this.problems.push(problem);
  }

  private lineText(bytes: Uint8Array, end: number): string {
    this.text ??= this.slice(bytes, this.base, end);
    return this.text;
  }

  private slice(bytes: Uint8Array, from: number, to: number): string {
    return String.fromCharCode.apply(null, bytes.subarray(from, to) as unknown as number[]);
  }
}

function isBad(c: number): boolean {
  if (c <= 32 || (c >= 48 && c <= 57)) return false;
  if ((c >= 65 && c <= 90) || (c >= 97 && c <= 122)) return false;
  return c !== 40 && c !== 59 && c !== 35 && c !== 47;
}

function isLetter(bytes: Uint8Array, at: number, end: number): boolean {
  const c = at < end ? bytes[at] & 0xdf : 0;
  return c >= 65 && c <= 90;
}

function isPlaceholder(bytes: Uint8Array, at: number): boolean {
  return bytes[at] === 95 || bytes[at] === 63;
}

function skipIgnored(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  while (p < end && bytes[p] <= 32) p += 1;
  return p;
}

/** Whether the `[` at `at` has its `]` on the line. */
function closes(bytes: Uint8Array, at: number, end: number): boolean {
  for (let p = at; p < end; p += 1) if (bytes[p] === 93) return true;
  return false;
}

function skipExpression(bytes: Uint8Array, at: number, end: number): number {
  let depth = 0;
  let p = at;
  for (; p < end; p += 1) {
    const c = bytes[p];
    if (c === 91) depth += 1;
    else if (c === 93) depth -= 1;
    else if (depth === 0 && c !== 35 && c !== 45 && c !== 43 && c > 32 && !(c >= 48 && c <= 57)) break;
    if (depth < 0) break;
  }
  return Math.max(p, at + 1);
}

const KEYWORDS = ['IF', 'WHILE', 'GOTO', 'DO', 'END', 'THEN', 'POPEN', 'PCLOS', 'DPRNT', 'BPRNT'];
const FLOW_WORDS = [
  'SUB',
  'ENDSUB',
  'CALL',
  'RETURN',
  'IF',
  'ELSE',
  'ELSEIF',
  'ENDIF',
  'WHILE',
  'ENDWHILE',
  'DO',
  'REPEAT',
  'ENDREPEAT',
  'BREAK',
  'CONTINUE',
];

function isKeyword(bytes: Uint8Array, at: number, end: number): boolean {
  const word = wordAt(bytes, at, end);
  return KEYWORDS.includes(word);
}

function isFlowWord(bytes: Uint8Array, at: number, end: number): boolean {
  return FLOW_WORDS.includes(wordAt(bytes, at, end));
}

function wordAt(bytes: Uint8Array, at: number, end: number): string {
  let word = '';
  for (let p = at; p < end && word.length < 12 && isLetter(bytes, p, end); p += 1) {
    word += String.fromCharCode(bytes[p] & 0xdf);
  }
  return word;
}
