import { type Block, WORD } from './block.ts';
import { BlockReader } from './block-reader.ts';
import { type Chunk, endOfLine } from './chunk.ts';
import type { Problem } from './problems.ts';
import type { Reading } from './reading.ts';
import type { Settled } from './settle.ts';
import { Slot } from './slot.ts';
import { KIND } from './steps.ts';
import type { ProgramText } from './text.ts';

/** One word of a block. Spans are UTF-16 units in the line, end exclusive. */
export interface Word {
  letter: string;
  /** NaN when it comes from an expression or could not be read. */
  value: number;
  /** As written, without blanks around. */
  text: string;
  start: number;
  end: number;
  /** Written after a comma: `,C` `,R`. */
  comma: boolean;
  /** The number has a decimal point. */
  point: boolean;
}

export interface Comment {
  /** As written, with its parentheses or semicolon. */
  text: string;
  start: number;
  end: number;
}

/** One block as an object, for one line at a time. */
export interface BlockView {
  words: Word[];
  comments: Comment[];
  n?: number;
  /** Program number. */
  o?: number;
  deleted: boolean;
  /** Expressions, assignments or flow control stand in it. */
  flow: boolean;
  problems: Problem[];
}

/** The block of a line. */
export function blockAt(text: ProgramText, line: number, settled: Settled): BlockView {
  const reader = readerFor(settled);
  const { chunk, start, end } = text.linePlace(line);
  const block = reader.read(chunk.bytes, start, end, line);
  const source = chunk.text(start, end);
  const view: BlockView = {
    words: [],
    comments: [],
    deleted: block.deleted > 0,
    flow: block.needs_flow,
    problems: reader.problems,
  };
  for (let at = 0; at < block.count; at += 1) view.words.push(wordOf(block, at, source));
  for (let at = 0; at < block.commentCount; at += 1) {
    const [from, to] = [block.commentStart[at], block.commentEnd[at]];
    view.comments.push({ text: source.slice(from, to), start: from, end: to });
  }
  if (!Number.isNaN(block.n)) view.n = block.n;
  if (!Number.isNaN(block.o)) view.o = block.o;
  return view;
}

const readers = new WeakMap<Settled, BlockReader>();

/** A reader ready for one line; the same one for all lines of a program. */
function readerFor(settled: Settled): BlockReader {
  let reader = readers.get(settled);
  if (reader === undefined) {
    reader = new BlockReader({
      semicolon_ends_block: settled.semicolon_ends_block.value,
      report_rules: settled.dialect.value === 'ngc',
    });
    readers.set(settled, reader);
  }
  reader.problems = [];
  return reader;
}

function wordOf(block: Block, at: number, source: string): Word {
  const marks = block.marks[at];
  return {
    letter: String.fromCharCode(block.letter[at]),
    value: block.value[at],
    text: source.slice(block.start[at], block.end[at]),
    start: block.start[at],
    end: block.end[at],
    comma: (marks & WORD.comma) !== 0,
    point: (marks & WORD.point) !== 0,
  };
}

/** All comments of a text in order; `most` ends it early. */
export function* comments(
  text: ProgramText,
  most = Number.POSITIVE_INFINITY,
): Generator<Comment & { line: number }> {
  let given = 0;
  for (let index = 0; index < text.chunks.length; index += 1) {
    const found = commentsOfChunk(text.chunks[index]);
    if (found.length === 0) continue;
    const first = text.firstLineOfChunk(index);
    for (const comment of found) {
      if (given >= most) return;
      given += 1;
      yield { ...comment, line: comment.line + first };
    }
  }
}

const NO_COMMENTS: readonly (Comment & { line: number })[] = [];
const comments_known = new Slot<Chunk, readonly (Comment & { line: number })[]>();

/** Comments of a chunk, lines from its first; each chunk is looked through once, one of plain blocks not at all. */
export function commentsOfChunk(chunk: Chunk): readonly (Comment & { line: number })[] {
  if (chunk.plain) return NO_COMMENTS;
  let found = comments_known.get(chunk);
  if (found === undefined) {
    found = findComments(chunk);
    comments_known.set(chunk, found);
  }
  return found;
}

function findComments(chunk: Chunk): readonly (Comment & { line: number })[] {
  const { bytes } = chunk;
  const found: (Comment & { line: number })[] = [];
  const next = new NextOf(bytes, OPENERS);
  for (let at = next.from(0); at < bytes.length; ) {
    const line = chunk.lineAt(at);
    const pos = chunk.startOfLine(line);
    const end = endOfLine(bytes, at, bytes.length);
    for (const { start, stop } of commentsOfLine(bytes, pos, end)) {
      found.push({ line, text: chunk.text(start, stop), start: start - pos, end: stop - pos });
    }
    at = next.from(end);
  }
  return found.length === 0 ? NO_COMMENTS : found;
}

/** Bytes that a comment can begin with: ( ; / */
const OPENERS = [40, 59, 47];

/** Finds the next of some bytes, each looked for once. */
class NextOf {
  private readonly places: number[];

  constructor(
    private readonly bytes: Uint8Array,
    private readonly wanted: readonly number[],
  ) {
    this.places = wanted.map(() => -1);
  }

  /** The first place from `at` on, going forward from call to call; the length when there is none. */
  from(at: number): number {
    const { bytes, places, wanted } = this;
    let least = bytes.length;
    for (let i = 0; i < wanted.length; i += 1) {
      if (places[i] < at) {
        const found = bytes.indexOf(wanted[i], at);
        places[i] = found < 0 ? bytes.length : found;
      }
      least = Math.min(least, places[i]);
    }
    return least;
  }
}

function commentsOfLine(bytes: Uint8Array, start: number, end: number): { start: number; stop: number }[] {
  const found: { start: number; stop: number }[] = [];
  let p = start;
  while (p < end) {
    const c = bytes[p];
    if (c === 40) {
      let depth = 1;
      let q = p + 1;
      for (; q < end && depth > 0; q += 1) {
        if (bytes[q] === 40) depth += 1;
        else if (bytes[q] === 41) depth -= 1;
      }
      found.push({ start: p, stop: q });
      p = q;
    } else if (c === 59 || (c === 47 && bytes[p + 1] === 47)) {
      let q = p + 1;
      while (q < end && bytes[q] <= 32) q += 1;
      if (q < end) found.push({ start: p, stop: end });
      return found;
    } else {
      p += 1;
    }
  }
  return found;
}

/** Tool changes in order of execution: 0-based line and tool number (NaN when the program does not say which). */
export function toolChanges(reading: Reading): { line: number; tool: number }[] {
  const changes: { line: number; tool: number }[] = [];
  const cursor = reading.cursor();
  while (cursor.next()) {
    if (cursor.kind === KIND.toolchange) changes.push({ line: cursor.line, tool: cursor.run('tool') });
  }
  return changes;
}
