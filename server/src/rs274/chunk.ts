/**
 * Bytes that a chunk of program text should hold: of text that was just opened about 2,000 finishing lines, since each chunk
 * costs something of its own; where it was edited about 125, since an edit reads such a piece again.
 */
export const OPENED_BYTES = 57344;
export const CHUNK_BYTES = 3584;

const LF = 10;
const CR = 13;
/** Stands for a character above 255 where the reader looks; never part of a word. */
const STAND_IN = 0xbf;

/** A piece of program text that never changes: whole lines, one byte a UTF-16 unit. */
export class Chunk {
  /** Axis words with a point, where none but zero is without; -1 where one is, or nobody knows. Noted by the reader in passing. */
  pointed_words = -1;
  /** Line and place of each line that may hold a comment, in turn; undefined where nobody knows. Noted like that. */
  comment_lines: readonly number[] | undefined;
  private known_line_ends = -1;
  private line_starts: Int32Array | null = null;
  /** How often the start of a line was asked for before those of all were found. */
  private asked = 0;

  constructor(
    readonly bytes: Uint8Array,
    /** The UTF-16 units themselves, when one of them does not fit a byte. */
    readonly wide: Uint16Array | null = null,
  ) {}

  get length(): number {
    return this.bytes.length;
  }

  /** Number of line ends (CR LF, LF, CR). */
  get lineEnds(): number {
    if (this.known_line_ends < 0) this.known_line_ends = countLineEnds(this.bytes);
    return this.known_line_ends;
  }

  /** Takes over a count that the reader made in passing. */
  noteLineEnds(count: number): void {
    this.known_line_ends = count;
  }

  endsWithLineEnd(): boolean {
    return this.bytes.length > 0 && isLineEnd(this.bytes[this.bytes.length - 1]);
  }

  /** Start of line `index` of the chunk; its length when there is no such line. The starts are kept once asked for. */
  startOfLine(index: number): number {
    if (index === 0) return 0;
    if (this.line_starts === null && this.asked < FEW) {
      this.asked += 1;
      const { bytes, lineEnds } = this;
      if (index <= NEAR) return startFromBegin(bytes, index);
      if (index <= lineEnds && lineEnds - index <= NEAR) return startFromEnd(bytes, lineEnds - index);
    }
    const starts = this.starts();
    return index < starts.length ? starts[index] : this.bytes.length;
  }

  /** Line of the chunk that a place stands in. */
  lineAt(place: number): number {
    const starts = this.starts();
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle] <= place) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private starts(): Int32Array {
    this.line_starts ??= lineStarts(this.bytes, this.lineEnds);
    return this.line_starts;
  }

  /** UTF-16 units from `start` to `end` as text. */
  text(start = 0, end = this.bytes.length): string {
    const units = this.wide ?? this.bytes;
    let text = '';
    for (let at = start; at < end; at += 8192) {
      text += String.fromCharCode.apply(
        null,
        units.subarray(at, Math.min(end, at + 8192)) as unknown as number[],
      );
    }
    return text;
  }
}

/** So many lines from an end of a chunk a line is looked for, a few times: finding the starts of all costs more than that. */
const NEAR = 40;
const FEW = 3;

function startFromBegin(bytes: Uint8Array, lines: number): number {
  let at = 0;
  for (let line = 0; line < lines && at < bytes.length; line += 1) at = nextLine(bytes, at, bytes.length);
  return at;
}

/** Start of the line that so many line ends follow. */
function startFromEnd(bytes: Uint8Array, lines: number): number {
  let left = lines;
  let at = bytes.length;
  for (; at > 0; at -= 1) {
    const c = bytes[at - 1];
    if (c !== LF && !(c === CR && bytes[at] !== LF)) continue;
    if (left === 0) return at;
    left -= 1;
  }
  return 0;
}

export function isLineEnd(byte: number): boolean {
  return byte === LF || byte === CR;
}

/** Position after the line end that follows `at`; `limit` when there is none. */
export function nextLine(bytes: Uint8Array, at: number, limit: number): number {
  let p = at;
  while (p < limit) {
    const c = bytes[p];
    p += 1;
    if (c === LF) return p;
    if (c === CR) return p < limit && bytes[p] === LF ? p + 1 : p;
  }
  return limit;
}

/** Position of the line end that follows `at`; `limit` when there is none. */
export function endOfLine(bytes: Uint8Array, at: number, limit: number): number {
  let p = at;
  while (p < limit && bytes[p] !== LF && bytes[p] !== CR) p += 1;
  return p;
}

/** One byte a UTF-16 unit; the units themselves beside it when one is above 255. */
export function unitsOfText(text: string): { bytes: Uint8Array; wide: Uint16Array | null } {
  const encoded = new TextEncoder().encode(text);
  if (encoded.length === text.length) return { bytes: encoded, wide: null };
  const wide = new Uint16Array(text.length);
  let high = false;
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    wide[i] = unit;
    if (unit > 255) high = true;
  }
  return { bytes: narrow(wide), wide: high ? wide : null };
}

/** Cuts text into chunks that end at line ends, never between CR and LF. */
export function cutChunks(bytes: Uint8Array, wide: Uint16Array | null, size: number): Chunk[] {
  const chunks: Chunk[] = [];
  let at = 0;
  while (bytes.length - at > size * 2) {
    const cut = cutAfter(bytes, at + size, size);
    if (cut >= bytes.length) break;
    chunks.push(chunkOf(bytes, wide, at, cut));
    at = cut;
  }
  if (at < bytes.length || chunks.length === 0) chunks.push(chunkOf(bytes, wide, at, bytes.length));
  return chunks;
}

function cutAfter(bytes: Uint8Array, at: number, size: number): number {
  const reach = Math.min(bytes.length, at + size);
  const found = nextLine(bytes, at, reach);
  if (found < reach) return found;
  return nextLine(bytes, at, bytes.length);
}

function chunkOf(bytes: Uint8Array, wide: Uint16Array | null, from: number, to: number): Chunk {
  if (wide === null) return new Chunk(bytes.subarray(from, to));
  const units = wide.subarray(from, to);
  return new Chunk(bytes.subarray(from, to), units.some(unit => unit > 255) ? units : null);
}

function narrow(wide: Uint16Array): Uint8Array {
  const bytes = new Uint8Array(wide.length);
  for (let i = 0; i < wide.length; i += 1) bytes[i] = wide[i] > 255 ? STAND_IN : wide[i];
  return bytes;
}

/** Starts of the lines; behind the last line end the length of the whole. */
function lineStarts(bytes: Uint8Array, line_ends: number): Int32Array {
  const starts = new Int32Array(line_ends + 1);
  let count = 1;
  const bare = bytes.indexOf(CR) < 0;
  for (let i = bare ? bytes.indexOf(LF) : 0; i >= 0 && i < bytes.length; ) {
    const c = bytes[i];
    if (c === LF || (c === CR && bytes[i + 1] !== LF)) {
      starts[count] = i + 1;
      count += 1;
    }
    i = bare ? bytes.indexOf(LF, i + 1) : i + 1;
  }
  return starts;
}

function countLineEnds(bytes: Uint8Array): number {
  let count = 0;
  for (let i = 0; i < bytes.length; i += 1) {
    const c = bytes[i];
    if (c === LF || (c === CR && bytes[i + 1] !== LF)) count += 1;
  }
  return count;
}
