import { type Chunk, endOfLine } from './chunk.ts';
import { Slot } from './slot.ts';
import type { ProgramText } from './text.ts';

export interface Comment {
  /** As written, with its parentheses or semicolon. */
  text: string;
  start: number;
  end: number;
}

/** A comment with its line, 0-based. */
export type PlacedComment = Comment & { line: number };

/** All comments of a text in order; `most` ends it early. */
export function* comments(text: ProgramText, most = Number.POSITIVE_INFINITY): Generator<PlacedComment> {
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

const NO_COMMENTS: readonly PlacedComment[] = [];
const comments_known = new Slot<Chunk, readonly PlacedComment[]>();

/** Comments of a chunk, lines from its first; each chunk is looked through once, where the reader did not note the lines. */
export function commentsOfChunk(chunk: Chunk): readonly PlacedComment[] {
  if (chunk.comment_lines?.length === 0) return NO_COMMENTS;
  let found = comments_known.get(chunk);
  if (found === undefined) {
    found = chunk.comment_lines ? commentsOfLines(chunk, chunk.comment_lines) : findComments(chunk);
    comments_known.set(chunk, found);
  }
  return found;
}

function commentsOfLines(chunk: Chunk, lines: readonly number[]): PlacedComment[] {
  const found: PlacedComment[] = [];
  for (let i = 0; i < lines.length; i += 2) addLine(chunk, lines[i], lines[i + 1], found);
  return found;
}

function addLine(chunk: Chunk, line: number, pos: number, found: PlacedComment[]): number {
  const { bytes } = chunk;
  const end = endOfLine(bytes, pos, bytes.length);
  for (const { start, stop } of commentsOfLine(bytes, pos, end)) {
    found.push({ line, text: chunk.text(start, stop), start: start - pos, end: stop - pos });
  }
  return end;
}

function findComments(chunk: Chunk): PlacedComment[] {
  const { bytes } = chunk;
  const found: PlacedComment[] = [];
  const next = new NextOf(bytes, OPENERS);
  for (let at = next.from(0); at < bytes.length; ) {
    const line = chunk.lineAt(at);
    at = next.from(addLine(chunk, line, chunk.startOfLine(line), found));
  }
  return found;
}

/** Bytes that a comment can begin with: ( ; / */
const OPENERS = [40, 59, 47];

/** Whether a line may hold a comment. */
export function opensComment(bytes: Uint8Array, from: number, to: number): boolean {
  for (let p = from; p < to; p += 1) if (OPENERS.includes(bytes[p])) return true;
  return false;
}

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
