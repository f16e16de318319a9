import { Block, L, MOST_COMMENTS, MOST_WORDS, WORD } from './block.ts';
import {
  closes,
  isBad,
  isFlowWord,
  isKeyword,
  isLetter,
  isPlaceholder,
  skipExpression,
  skipIgnored,
  textOf,
} from './line-bytes.ts';
import { isNote } from './notes.ts';
import { tellNumberFault } from './number-faults.ts';
import type { Problem } from './problems.ts';
import { NUMBER_FAULT, NumberRead, readNumber, skipBlanks } from './read-number.ts';
import type { ValueProblem, ValueSource } from './value-source.ts';

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
  /** Letters already reported as repeated (a bit each), and whether the block has too many words. */
  private repeated = 0;
  private crowded = false;

  constructor(private readonly settings: ReaderSettings) {}

  /** Reads the line between `start` and `end` (its end excluded). */
  read(bytes: Uint8Array, start: number, end: number, line: number): Block {
    const { block } = this;
    block.clear();
    this.line = line;
    this.base = start;
    this.text = null;
    this.repeated = 0;
    this.crowded = false;
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
      const text = 'this line is not a block of the program; it is left out';
      return this.noteLine(p, end, 'directive-line', text);
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
    if (c === 36 && this.settings.report_rules) return this.spindleWord(bytes, at, end);
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
    if (number.fault !== NUMBER_FAULT.none) {
      this.numberProblem(bytes, at, p, letter);
      while (number.digits === 0 && p < end && isPlaceholder(bytes, p)) p += 1;
    }
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
      if (!this.crowded) this.problem('too-many-words', from, to, 'more words than a block may have');
      this.crowded = true;
      return;
    }
    const told = (this.repeated & (1 << (letter - 65))) !== 0;
    if ((bits & WORD.comma) === 0 && letter !== L.G && letter !== L.M && !told && block.has(letter)) {
      this.repeated |= 1 << (letter - 65);
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

  private spindleWord(bytes: Uint8Array, at: number, end: number): number {
    readNumber(bytes, at + 1, end, this.number);
    if (this.number.digits === 0) return this.badCharacter(bytes, at, end);
    this.block.spindle = this.number.value;
    return this.number.end;
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
    const value = Number(textOf(bytes, o + 1, p));
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
    // The digits behind it belong to it: `$1500` is one slip.
    while (p < end && ((bytes[p] >= 48 && bytes[p] <= 57) || bytes[p] === 46)) p += 1;
    this.problem('bad-character', at, p, 'this character has no meaning here');
    return p;
  }

  private numberProblem(bytes: Uint8Array, at: number, to: number, letter: number): void {
    const told = tellNumberFault(this.number, bytes, at, to, String.fromCharCode(letter));
    const fix = told.fix && {
      ...told.fix,
      start: told.fix.start - this.base,
      end: told.fix.end - this.base,
    };
    this.problem(told.code, at, told.end, told.message, fix);
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
    this.text ??= textOf(bytes, this.base, end);
    return this.text;
  }
}
