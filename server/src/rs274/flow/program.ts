import { endOfLine, nextLine } from '../chunk.ts';
import { isDigit } from '../expressions/bytes.ts';
import type { Problem } from '../problems.ts';
import type { ProgramText } from '../text.ts';
import { Loops } from './loops.ts';
import { isBlockDeleted, readStatement, type Statement, skip } from './statements.ts';
import { matchStatements } from './structure.ts';

const O_LOOPS: ReadonlySet<string> = new Set(['o-while', 'o-do', 'repeat']);

/** One O program of a file: lines `first` (that of its O word) to `last`. */
export interface ProgramPart {
  /** NaN for a program without O word. */
  number: number;
  first: number;
  last: number;
}

/** A program text made ready for jumping about: lines, flow statements, O programs, block numbers. */
export class FlowProgram {
  readonly lineCount: number;
  /** Flow statements by line. */
  readonly statements = new Map<number, Statement>();
  readonly parts: ProgramPart[] = [];
  readonly problems: Problem[];
  /** O-word subroutines by label: the line of their SUB. */
  readonly subs = new Map<string, number>();
  /** Lines of SUB whose label must be worked out. */
  readonly computed_subs: number[] = [];
  private readonly chunk_of: Int32Array;
  private readonly starts: Int32Array;
  private readonly ends: Int32Array;
  /** Block number of a line, and lines by block number; made at the first jump. */
  private numbers: Float64Array | undefined;
  private numbered: ReadonlyMap<number, number[]> | undefined;
  /** O programs by number; made at the first call. */
  private part_of: Map<number, ProgramPart> | undefined;
  /** Word-address loops that end, made at the first jump. */
  private loops: Loops | undefined;
  /** O-word loops by label; made at the first BREAK or CONTINUE. */
  private labelled: ReadonlyMap<string, Loops> | undefined;

  constructor(
    readonly text: ProgramText,
    /** Name of the file, empty for the program itself. */
    readonly file: string,
  ) {
    this.lineCount = text.lineCount;
    this.chunk_of = new Int32Array(this.lineCount);
    this.starts = new Int32Array(this.lineCount);
    this.ends = new Int32Array(this.lineCount);
    this.placeLines();
    this.problems = this.readStatements();
  }

  /** Bytes that hold a line. */
  bytes(line: number): Uint8Array {
    return this.text.chunks[this.chunk_of[line]].bytes;
  }

  start(line: number): number {
    return this.starts[line];
  }

  end(line: number): number {
    return this.ends[line];
  }

  lengthOf(line: number): number {
    return this.ends[line] - this.starts[line];
  }

  /** Whether a line has block delete. */
  isDeleted(line: number): boolean {
    return isBlockDeleted(this.bytes(line), this.starts[line], this.ends[line]);
  }

  /** Text of a line; characters above 255 are stand-ins. */
  lineText(line: number): string {
    let text = '';
    const bytes = this.bytes(line);
    for (let at = this.starts[line]; at < this.ends[line]; at += 1) text += String.fromCharCode(bytes[at]);
    return text;
  }

  /** The O program that a line stands in. */
  partOf(line: number): ProgramPart {
    let [low, high] = [0, this.parts.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.parts[middle].first <= line) low = middle;
      else high = middle - 1;
    }
    return this.parts[low];
  }

  partNumbered(number: number): ProgramPart | undefined {
    if (this.part_of === undefined) {
      this.part_of = new Map();
      for (const part of this.parts) if (!this.part_of.has(part.number)) this.part_of.set(part.number, part);
    }
    return this.part_of.get(number);
  }

  /** Line with block number `n` in `part`, searched from `from` on and then from the part's start; -1 without. */
  lineNumbered(n: number, part: ProgramPart, from: number): number {
    const lines = this.linesByNumber().get(n) ?? [];
    const within = (least: number) => {
      const line = lines[firstAtLeast(lines, least)] ?? -1;
      return line <= part.last ? line : -1;
    };
    const ahead = within(Math.max(from, part.first));
    return ahead >= 0 ? ahead : within(part.first);
  }

  /** Block number of each line, NaN without. */
  blockNumbers(): Float64Array {
    if (this.numbers !== undefined) return this.numbers;
    const numbers = new Float64Array(this.lineCount).fill(Number.NaN);
    for (let line = 0; line < this.lineCount; line += 1)
      numbers[line] = numberOf(this.bytes(line), this.starts[line], this.ends[line]);
    this.numbers = numbers;
    return numbers;
  }

  /** Start lines of the word-address loops around a line, outermost first. */
  loopsAround(line: number): number[] {
    this.loops ??= new Loops(
      [...this.statements.values()].filter(({ kind }) => kind === 'while' || kind === 'do'),
    );
    return [...this.loops.around(line)].map(loop => loop.line).reverse();
  }

  /** The O-word loop of a label that stands around a line; undefined without. */
  loopOfLabel(label: string, line: number): Statement | undefined {
    if (this.labelled === undefined) {
      const loops = [...this.statements.values()].filter(({ kind }) => O_LOOPS.has(kind));
      this.labelled = new Map(
        [...groupedBy(loops, loop => loop.label)].map(([name, own]) => [name, new Loops(own)]),
      );
    }
    return this.labelled.get(label)?.around(line).next().value ?? undefined;
  }

  private linesByNumber(): ReadonlyMap<number, readonly number[]> {
    this.numbered ??= groupedBy(this.blockNumbers().keys(), line => this.blockNumbers()[line]);
    return this.numbered;
  }

  private placeLines(): void {
    let line = 0;
    const { chunks } = this.text;
    for (let index = 0; index < chunks.length; index += 1) {
      const { bytes, length } = chunks[index];
      for (let at = 0; at < length && line < this.lineCount; line += 1) {
        this.chunk_of[line] = index;
        this.starts[line] = at;
        this.ends[line] = endOfLine(bytes, at, length);
        at = nextLine(bytes, at, length);
      }
    }
    for (; line < this.lineCount; line += 1) {
      const last = chunks.length - 1;
      this.chunk_of[line] = last;
      this.starts[line] = chunks[last].length;
      this.ends[line] = chunks[last].length;
    }
  }

  private readStatements(): Problem[] {
    for (let line = 0; line < this.lineCount; line += 1) {
      const bytes = this.bytes(line);
      const statement = readStatement(bytes, this.starts[line], this.ends[line], line);
      if (statement !== undefined) {
        this.statements.set(line, statement);
        if (statement.kind === 'sub' && statement.computed >= 0) this.computed_subs.push(line);
        else if (statement.kind === 'sub' && !this.subs.has(statement.label))
          this.subs.set(statement.label, line);
        continue;
      }
      const number = programNumber(bytes, this.starts[line], this.ends[line]);
      if (!Number.isNaN(number)) this.begin(number, line);
    }
    if (this.parts.length === 0 || this.parts[0].first > 0) this.startsWithout();
    return matchStatements(
      [...this.statements.values()],
      statement => this.loopNumber(statement),
      statement => this.isBlockIf(statement),
    );
  }

  private begin(number: number, line: number): void {
    const before = this.parts.at(-1);
    if (before !== undefined) before.last = line - 1;
    this.parts.push({ number, first: line, last: this.lineCount - 1 });
  }

  /** Lines before the first O word belong to its program, unless blocks stand there. */
  private startsWithout(): void {
    const first = this.parts[0];
    if (first === undefined) this.parts.push({ number: Number.NaN, first: 0, last: this.lineCount - 1 });
    else if (this.hasBlocks(0, first.first))
      this.parts.unshift({ number: Number.NaN, first: 0, last: first.first - 1 });
  }

  private hasBlocks(from: number, to: number): boolean {
    for (let line = from; line < to; line += 1) {
      const bytes = this.bytes(line);
      const at = skip(bytes, this.starts[line], this.ends[line]);
      const c = at < this.ends[line] ? bytes[at] & 0xdf : 0;
      if (c === 71 || c === 77 || c === 78 || c === 84 || c === 88) return true;
    }
    return false;
  }

  private loopNumber(statement: Statement): number {
    const bytes = this.bytes(statement.line);
    const start = this.starts[statement.line];
    const end = this.ends[statement.line];
    let p = start + statement.rest;
    if (statement.kind === 'while') {
      p = afterWord(bytes, p, end, 'DO');
      if (p < 0) return Number.NaN;
    }
    p = skip(bytes, p, end);
    const c = p < end ? bytes[p] : 0;
    return isDigit(c) ? c - 48 : Number.NaN;
  }

  /** IF [..] THEN with nothing after it: the branch stands on the next lines. */
  private isBlockIf(statement: Statement): boolean {
    const bytes = this.bytes(statement.line);
    const end = this.ends[statement.line];
    const then = afterWord(bytes, this.starts[statement.line] + statement.rest, end, 'THEN');
    if (then < 0) return false;
    const p = skip(bytes, then, end);
    return p >= end || bytes[p] === 40 || bytes[p] === 59;
  }
}

/** Items by a key, in order; those whose key is NaN are left out. */
function groupedBy<Key, Item>(items: Iterable<Item>, keyOf: (item: Item) => Key): Map<Key, Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    if (Number.isNaN(key)) continue;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}

/** Index of the first line that is `least` or more. */
function firstAtLeast(lines: readonly number[], least: number): number {
  let [low, high] = [0, lines.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lines[middle] < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Offset after the next `word` at depth 0 of brackets; -1 without. */
export function afterWord(bytes: Uint8Array, at: number, end: number, word: string): number {
  let depth = 0;
  for (let p = at; p < end; p += 1) {
    const c = bytes[p];
    if (c === 91) depth += 1;
    else if (c === 93) depth -= 1;
    else if (c === 40) return -1;
    else if (depth === 0 && (c & 0xdf) === word.charCodeAt(0)) {
      let i = 0;
      while (i < word.length && p + i < end && (bytes[p + i] & 0xdf) === word.charCodeAt(i)) i += 1;
      if (i === word.length) return p + i;
    }
  }
  return -1;
}

/** Number of an O word or `:` that begins a program; NaN without. */
function programNumber(bytes: Uint8Array, start: number, end: number): number {
  let p = skip(bytes, start, end);
  const c = p < end ? bytes[p] : 0;
  if (c !== 79 && c !== 111 && c !== 58) return Number.NaN;
  p = skip(bytes, p + 1, end);
  let number = Number.NaN;
  for (; p < end && isDigit(bytes[p]); p += 1)
    number = (Number.isNaN(number) ? 0 : number * 10) + (bytes[p] - 48);
  return number;
}

function numberOf(bytes: Uint8Array, start: number, end: number): number {
  let p = skip(bytes, start, end);
  if (p < end && bytes[p] === 47) {
    p = skip(bytes, p + 1, end);
    if (p < end && isDigit(bytes[p])) p = skip(bytes, p + 1, end);
  }
  if (p >= end || (bytes[p] & 0xdf) !== 78) return Number.NaN;
  p = skip(bytes, p + 1, end);
  let number = Number.NaN;
  for (; p < end && isDigit(bytes[p]); p += 1)
    number = (Number.isNaN(number) ? 0 : number * 10) + (bytes[p] - 48);
  if (p + 1 < end && bytes[p] === 46 && isDigit(bytes[p + 1])) {
    for (let place = 0.1; p + 1 < end && isDigit(bytes[p + 1]); p += 1, place /= 10)
      number += (bytes[p + 1] - 48) * place;
  }
  return number;
}
