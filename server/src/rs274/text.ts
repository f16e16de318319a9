import { CHUNK_BYTES, Chunk, cutChunks, endOfLine, isLineEnd, OPENED_BYTES, unitsOfText } from './chunk.ts';
import { isAscii } from './kernel.ts';

/** 0-based line and UTF-16 unit, as editors count them. */
export interface Position {
  line: number;
  character: number;
}

/** Where one line stands: its chunk and the bytes of it, without the line end. */
export interface LinePlace {
  chunk: Chunk;
  start: number;
  end: number;
}

/**
 * The text of a program, held as chunks of whole lines with one byte a UTF-16 unit, so that an edit touches only
 * the chunks it falls in. Lines are counted as editors do: CR LF, LF or CR ends one, and text after the last end is a line.
 * It has what a `TextDocument` of the editor protocol needs: offsetAt, positionAt, getText, lineCount, version.
 */
export class ProgramText {
  version = 0;
  /** The file began with a byte order mark. */
  marked = false;
  private pieces: Chunk[];
  private offsets = new Int32Array(1);
  private lines = new Int32Array(1);
  private offsets_valid = 1;
  private lines_valid = 1;
  private near = 0;

  private constructor(pieces: Chunk[]) {
    this.pieces = pieces;
  }

  static fromString(text: string): ProgramText {
    const bare = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
    const { bytes, wide } = unitsOfText(bare);
    const made = new ProgramText(cutChunks(bytes, wide, OPENED_BYTES));
    made.marked = bare !== text;
    return made;
  }

  /** Reads file bytes: UTF-8 where they are, else one byte a character (Latin-1); UTF-16 with its mark. */
  static fromBytes(given: Uint8Array): ProgramText {
    // Pieces of Node's own buffers are slower to make and to search.
    const bytes = new Uint8Array(given.buffer, given.byteOffset, given.length);
    if (isAscii(bytes)) return new ProgramText(cutChunks(bytes, null, OPENED_BYTES));
    const text = decode(bytes);
    if (text === undefined) {
      const marked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
      const made = new ProgramText(cutChunks(marked ? bytes.subarray(3) : bytes, null, OPENED_BYTES));
      made.marked = marked;
      return made;
    }
    return ProgramText.fromString(text);
  }

  /** The same text in the same pieces, of which nothing is known yet. */
  copy(): ProgramText {
    return new ProgramText(this.pieces.map(({ bytes, wide }) => new Chunk(bytes, wide)));
  }

  /** Text in pieces of about `size` bytes: what is read must not depend on where it was cut. */
  static inPiecesOf(size: number, text: string): ProgramText {
    const { bytes, wide } = unitsOfText(text);
    return new ProgramText(cutChunks(bytes, wide, size));
  }

  get chunks(): readonly Chunk[] {
    return this.pieces;
  }

  get length(): number {
    return this.offsetOfChunk(this.pieces.length);
  }

  /** Lines as the editor counts them: one more than there are line ends. */
  get lineCount(): number {
    return this.firstLineOfChunk(this.pieces.length) + 1;
  }

  /** Index of the chunk that holds a line. */
  chunkOfLine(line: number): number {
    // Mostly it is the one that was asked for before.
    const { near } = this;
    if (near + 1 < this.lines_valid && this.lines[near] <= line && line < this.lines[near + 1]) return near;
    // Lines are counted only as far as they are asked for: counting all of a long text costs a pass over it.
    let known = this.lines_valid - 1;
    while (known < this.pieces.length && this.firstLineOfChunk(known) <= line) known += 1;
    this.near = lastNotAfter(this.lines, Math.min(known + 1, this.pieces.length), line);
    return this.near;
  }

  firstLineOfChunk(index: number): number {
    this.reserve();
    for (; this.lines_valid <= index; this.lines_valid += 1) {
      const at = this.lines_valid;
      this.lines[at] = this.lines[at - 1] + this.pieces[at - 1].lineEnds;
    }
    return this.lines[index];
  }

  offsetOfChunk(index: number): number {
    this.reserve();
    for (; this.offsets_valid <= index; this.offsets_valid += 1) {
      const at = this.offsets_valid;
      this.offsets[at] = this.offsets[at - 1] + this.pieces[at - 1].length;
    }
    return this.offsets[index];
  }

  /** Where a line stands; a line that is not there is an empty place at the end. */
  linePlace(line: number): LinePlace {
    const index = this.chunkOfLine(Math.max(0, line));
    const chunk = this.pieces[index];
    const start = chunk.startOfLine(Math.max(0, line) - this.lines[index]);
    return { chunk, start, end: endOfLine(chunk.bytes, start, chunk.length) };
  }

  /** Text of a line without its end. */
  lineText(line: number): string {
    const { chunk, start, end } = this.linePlace(line);
    return chunk.text(start, end);
  }

  offsetAt(position: Position): number {
    if (position.line < 0) return 0;
    if (position.line >= this.lineCount) return this.length;
    const { chunk, start, end } = this.linePlace(position.line);
    const index = this.chunkOfLine(position.line);
    const in_line = Math.min(Math.max(0, position.character), end - start);
    return this.offsetOfChunk(index) + Math.min(start + in_line, chunk.length);
  }

  positionAt(offset: number): Position {
    const at = Math.min(Math.max(0, offset), this.length);
    const index = this.chunkOfOffset(at);
    const chunk = this.pieces[index];
    const inside = at - this.offsetOfChunk(index);
    let line = this.firstLineOfChunk(index);
    let start = 0;
    for (let p = 0; p < inside; p += 1) {
      const c = chunk.bytes[p];
      if (c === 10 || (c === 13 && chunk.bytes[p + 1] !== 10)) {
        line += 1;
        start = p + 1;
      }
    }
    const content_end = endOfLine(chunk.bytes, start, chunk.length);
    return { line, character: Math.min(inside, content_end) - start };
  }

  getText(range?: { start: Position; end: Position }): string {
    if (range === undefined) return this.slice(0, this.length);
    const [a, b] = [this.offsetAt(range.start), this.offsetAt(range.end)];
    return this.slice(Math.min(a, b), Math.max(a, b));
  }

  /** Text between two offsets. */
  slice(start: number, end: number): string {
    let text = '';
    for (let index = this.chunkOfOffset(start); index < this.pieces.length; index += 1) {
      const base = this.offsetOfChunk(index);
      if (base >= end) break;
      const chunk = this.pieces[index];
      text += chunk.text(Math.max(0, start - base), Math.min(chunk.length, end - base));
    }
    return text;
  }

  /**
   * Replaces the text between two offsets. Only the chunks it falls in are made new (and a neighbour where a line or
   * a CR LF would otherwise be cut); all other chunks stay the same objects.
   */
  edit(start: number, end: number, text: string): void {
    const from = Math.min(Math.max(0, Math.min(start, end)), this.length);
    const to = Math.min(Math.max(from, Math.max(start, end)), this.length);
    let first = this.chunkOfOffset(from);
    let last = Math.max(first, this.chunkOfOffset(to));
    this.version += 1;
    const base = this.offsetOfChunk(first);
    const inside =
      first === last ? editedInside(this.pieces[first], from - base, to - base, text) : undefined;
    if (inside) {
      this.replace(first, 1, [inside]);
      return;
    }
    const head = this.pieces[first].text(0, from - this.offsetOfChunk(first));
    let content = head + text + this.pieces[last].text(to - this.offsetOfChunk(last));
    while (first > 0 && (content.length < CHUNK_BYTES / 8 || this.mustJoin(first - 1, content))) {
      first -= 1;
      content = this.pieces[first].text() + content;
    }
    while (last + 1 < this.pieces.length && needsNext(content, this.pieces[last + 1])) {
      last += 1;
      content += this.pieces[last].text();
    }
    const { bytes, wide } = unitsOfText(content);
    const fresh =
      content.length === 0 && this.pieces.length > last - first + 1
        ? []
        : cutChunks(bytes, wide, CHUNK_BYTES);
    this.replace(first, last - first + 1, fresh);
  }

  /** Puts chunks in the place of others. The old list stays as it is for who holds it. */
  private replace(first: number, count: number, fresh: readonly Chunk[]): void {
    const old = this.pieces;
    const shift = fresh.length - count;
    const pieces: Chunk[] = new Array(old.length + shift);
    for (let i = 0; i < first; i += 1) pieces[i] = old[i];
    for (let i = 0; i < fresh.length; i += 1) pieces[first + i] = fresh[i];
    for (let i = first + fresh.length; i < pieces.length; i += 1) pieces[i] = old[i - shift];
    this.pieces = pieces;
    const end = first + count;
    this.offsets_valid =
      shift === 0 && this.offsets_valid > end
        ? moved(this.offsets, first, this.offsets_valid, fresh, chunk => chunk.length)
        : Math.min(this.offsets_valid, first + 1);
    this.lines_valid =
      shift === 0 && this.lines_valid > end
        ? moved(this.lines, first, this.lines_valid, fresh, chunk => chunk.lineEnds)
        : Math.min(this.lines_valid, first + 1);
  }

  private mustJoin(before: number, content: string): boolean {
    const chunk = this.pieces[before];
    if (!chunk.endsWithLineEnd()) return true;
    return content.charCodeAt(0) === 10 && chunk.bytes[chunk.length - 1] === 13;
  }

  private chunkOfOffset(offset: number): number {
    this.offsetOfChunk(this.pieces.length);
    return lastNotAfter(this.offsets, this.pieces.length, offset);
  }

  private reserve(): void {
    if (this.offsets.length > this.pieces.length) return;
    this.offsets = grown(this.offsets, this.pieces.length + 1);
    this.lines = grown(this.lines, this.pieces.length + 1);
  }
}

/**
 * A chunk with the bytes between two places replaced, where that changes neither its first nor its last byte, so that all
 * others stay as they are; undefined where it must be cut anew.
 */
function editedInside(chunk: Chunk, from: number, to: number, text: string): Chunk | undefined {
  const { bytes, wide } = chunk;
  const length = bytes.length - (to - from) + text.length;
  if (wide !== null || from === 0 || to >= bytes.length) return undefined;
  if (length < CHUNK_BYTES / 8 || length > CHUNK_BYTES * 2) return undefined;
  const edited = new Uint8Array(length);
  edited.set(bytes.subarray(0, from));
  edited.set(bytes.subarray(to), from + text.length);
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    if (unit > 255) return undefined;
    edited[from + i] = unit;
  }
  return new Chunk(edited);
}

/** Counts the starts behind changed chunks anew, and moves those that are known after them; gives how many are known. */
function moved(
  starts: Int32Array,
  first: number,
  known: number,
  fresh: readonly Chunk[],
  size: (chunk: Chunk) => number,
): number {
  const end = first + fresh.length;
  const before = starts[end];
  for (let i = 0; i < fresh.length; i += 1) starts[first + i + 1] = starts[first + i] + size(fresh[i]);
  const by = starts[end] - before;
  if (by !== 0) for (let i = end + 1; i < known; i += 1) starts[i] += by;
  return known;
}

function needsNext(content: string, next: Chunk): boolean {
  if (content.length === 0) return false;
  const tail = content.charCodeAt(content.length - 1);
  if (!isLineEnd(tail)) return true;
  return tail === 13 && next.bytes[0] === 10;
}

function grown(array: Int32Array<ArrayBuffer>, length: number): Int32Array<ArrayBuffer> {
  const bigger = new Int32Array(Math.ceil(length * 1.25) + 8);
  bigger.set(array);
  return bigger;
}

/** Largest index below `count` whose entry is not after `value`. */
function lastNotAfter(starts: Int32Array, count: number, value: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle] <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

function decode(bytes: Uint8Array): string | undefined {
  const mark = bytes.length >= 2 ? (bytes[0] << 8) | bytes[1] : 0;
  const label = mark === 0xfffe ? 'utf-16le' : mark === 0xfeff ? 'utf-16be' : 'utf-8';
  try {
    return new TextDecoder(label, { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError || error instanceof RangeError) return undefined;
    throw error;
  }
}
