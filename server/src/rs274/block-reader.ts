import { Block, L, MOST_COMMENTS, MOST_WORDS, WORD } from './block.ts';
import {
  badEnd,
  closes,
  commentEnd,
  isAbort,
  isCheckSum,
  isDirective,
  isFlowWord,
  isFunction,
  isKeyword,
  isLetter,
  isParameter,
  isPlaceholder,
  nameEnd,
  skipBad,
  skipDigits,
  skipExpression,
  skipIgnored,
  skipToNextItem,
  switchEnd,
  textEnd,
  textOf,
} from './line-bytes.ts';
import { MOST_PROBLEMS } from './machine.ts';
import { DIRECTIVE, isNote, NOT_A_BLOCK } from './notes.ts';
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
  /** Blocks with block delete are left out, and what stands behind a `/` inside a block. */
  skip_deleted?: boolean;
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
  /** Whether the line was looked at as a note: once is enough. */
  private judged = false;

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
    this.judged = false;
    block.length = end - start;
    let p = this.head(bytes, start, end);
    while (p < end) p = this.item(bytes, p, end);
    return block;
  }

  private head(bytes: Uint8Array, start: number, end: number): number {
    const p = skipIgnored(bytes, start, end);
    if (p >= end) return end;
    const c = bytes[p];
    if (c === 37) {
      this.block.percent = true;
      return end;
    }
    if (c === 47)
      return bytes[p + 1] === 47 && p + 1 < end ? this.comment(p, end) : this.blockDelete(bytes, p, end);
    if (isDirective(bytes, p, end)) return this.noteLine(p, end, 'directive-line', DIRECTIVE);
    if (c === 91 && this.values === null && !closes(bytes, p, end))
      return this.noteLine(p, end, 'directive-line', DIRECTIVE);
    if (c === 58) {
      readNumber(bytes, p + 1, end, this.number);
      this.block.o = this.number.value;
      return this.number.end > p + 1 ? this.number.end : p + 1;
    }
    if (c === 60) return this.comment(p, nameEnd(bytes, p, end));
    return p;
  }

  private blockDelete(bytes: Uint8Array, at: number, end: number): number {
    const to = switchEnd(bytes, at, end);
    const last = bytes[to - 1];
    this.block.deleted = last >= 49 && last <= 57 ? last - 48 : 1;
    return to;
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
    if (c === 42 && isCheckSum(bytes, at, end)) return end;
    if (!this.settings.report_rules) {
      if (c === 39) return this.comment(at, end);
      if (c === 60) return this.comment(at, nameEnd(bytes, at, end));
      if (c === 47) return this.deleteFrom(bytes, at, end);
    } else if (c === 64 || c === 94) return this.word(bytes, at, end, c === 64 ? L.X : L.Y, WORD.polar);
    return this.badCharacter(bytes, at, end);
  }

  /** `/` behind N is block delete; inside a block it leaves out the rest. */
  private deleteFrom(bytes: Uint8Array, at: number, end: number): number {
    if (this.block.count === 0) return this.blockDelete(bytes, at, end);
    if (this.settings.skip_deleted === true) return end;
    return switchEnd(bytes, at, end);
  }

  private word(bytes: Uint8Array, at: number, end: number, letter: number, marks: number): number {
    const { block, number } = this;
    if (letter === L.O && marks === 0) return this.oWord(bytes, at, end);
    let p = skipBlanks(bytes, at + 1, end);
    const c = p < end ? bytes[p] : 0;
    let signed = p;
    if (c === 45 || c === 43) signed = skipBlanks(bytes, p + 1, end);
    const next = signed < end ? bytes[signed] : 0;
    if (next === 35 || next === 91 || (next >= 65 && isFunction(bytes, signed, end)))
      return this.valueWord(bytes, at, p, end, letter, marks);
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
      // What stands where the number should be is part of the same slip.
      if (number.fault === NUMBER_FAULT.missing) p = skipBad(bytes, p, end);
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

  private valueWord(bytes: Uint8Array, at: number, from: number, end: number, letter: number, marks: number) {
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
    const to = Math.min(end, Math.max(this.base + read.end, at + 1));
    if (read.problem === undefined) return to;
    const known = read.problem.code !== 'value-not-known';
    if (known && !isParameter(bytes, at, end) && this.isNote(bytes, at + 1, end))
      return this.noteLine(at, end, 'text-outside-comment', NOT_A_BLOCK);
    this.valueProblem(read.problem);
    // What is left of a setting that cannot be read is part of the same slip.
    return known ? skipToNextItem(bytes, to, end) : to;
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
    if (number.digits === 0 && isPlaceholder(bytes, p)) return this.blankNumber(bytes, at, p, end);
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
    const { to, nested, closed } = commentEnd(bytes, at, end);
    if (nested >= 0) {
      const message = 'a comment cannot hold another one; it ends at the first )';
      this.problem('comment-nested', nested, nested + 1, message);
    } else if (!closed) {
      const message = 'this comment is not closed; the rest of the line was taken as comment';
      this.problem('comment-unclosed', at, end, message);
    }
    if (this.settings.report_rules && isAbort(bytes, at, to)) this.block.abort = true;
    return this.comment(at, to);
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
    const p = skipDigits(bytes, o + 1, end);
    const value = Number(textOf(bytes, o + 1, p));
    const name = String.fromCharCode(letter);
    this.problem('letter-o-for-zero', at, p, `the letter O stands where a zero was meant`, {
      title: `Write ${name}0`,
      start: o,
      end: o + 1,
      text: '0',
    });
    this.put(letter, value, at, p, 0, p - o);
    return p;
  }

  private strayText(bytes: Uint8Array, at: number, end: number): number {
    if (this.isNote(bytes, at, end)) return this.noteLine(at, end, 'text-outside-comment', NOT_A_BLOCK);
    if (isLetter(bytes, at + 1, end)) {
      const p = textEnd(bytes, at, end);
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

  /** A number left blank: `O____`. */
  private blankNumber(bytes: Uint8Array, at: number, from: number, end: number): number {
    const name = String.fromCharCode(bytes[at]).toUpperCase();
    const message = `${name} is left blank: the program is not finished`;
    this.problem('number-blank', at, from + 1, message);
    return skipBad(bytes, from, end);
  }

  private isNote(bytes: Uint8Array, from: number, end: number): boolean {
    if (this.judged || this.block.count > 0) return false;
    this.judged = true;
    return isNote(bytes, from, end);
  }

  private badCharacter(bytes: Uint8Array, at: number, end: number): number {
    if (this.isNote(bytes, at + 1, end)) return this.noteLine(at, end, 'text-outside-comment', NOT_A_BLOCK);
    const p = badEnd(bytes, at, end);
    this.problem('bad-character', at, p, 'this character has no meaning here');
    return p;
  }

  private numberProblem(bytes: Uint8Array, at: number, to: number, letter: number): void {
    const told = tellNumberFault(this.number, bytes, at, to, String.fromCharCode(letter));
    this.problem(told.code, at, told.end, told.message, told.fix);
  }

  private valueProblem(problem: ValueProblem): void {
    this.problem(problem.code, this.base + problem.start, this.base + problem.end, problem.message);
  }

  private problem(code: string, from: number, to: number, message: string, fix?: Problem['fix']): void {
    if (this.problems.length >= MOST_PROBLEMS) return;
    const problem: Problem = { code, line: this.line, start: from - this.base, end: to - this.base, message };
    if (fix !== undefined) problem.fix = { ...fix, start: fix.start - this.base, end: fix.end - this.base };
    this.problems.push(problem);
  }

  private lineText(bytes: Uint8Array, end: number): string {
    this.text ??= textOf(bytes, this.base, end);
    return this.text;
  }
}
