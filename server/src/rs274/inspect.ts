import { type Block, WORD } from './block.ts';
import { BlockReader } from './block-reader.ts';
import type { Comment } from './comments.ts';
import type { Problem } from './problems.ts';
import type { Reading } from './reading.ts';
import type { Settled } from './settle.ts';
import { KIND } from './steps.ts';
import type { LinePlace, ProgramText } from './text.ts';

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
  return blockIn(text.linePlace(line), settled, line);
}

/** The block that stands at a place; its problems are told with `line`. */
export function blockIn({ chunk, start, end }: LinePlace, settled: Settled, line = 0): BlockView {
  const reader = readerFor(settled);
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

/** Tool changes in order of execution: 0-based line and tool number (NaN when the program does not say which). */
export function toolChanges(reading: Reading): { line: number; tool: number }[] {
  const changes: { line: number; tool: number }[] = [];
  const cursor = reading.cursor();
  while (cursor.next()) {
    if (cursor.kind === KIND.toolchange) changes.push({ line: cursor.line, tool: cursor.run('tool') });
  }
  return changes;
}
