import { type Chunk, endOfLine, nextLine } from './chunk.ts';
import type { NumberedLine, ProfileSource } from './machine.ts';
import { NumberRead, readNumber } from './read-number.ts';
import { Slot } from './slot.ts';
import type { ProgramText } from './text.ts';

/** Blocks that a profile may have. */
const MOST_PROFILE_LINES = 5000;

/** Finds blocks by number in a text, as seen from one line. */
export class TextProfiles implements ProfileSource {
  constructor(
    private readonly text: ProgramText,
    /** Line of the text being executed. */
    private readonly here: () => number,
  ) {}

  lines(first: number, last: number): { lines: NumberedLine[]; ahead: boolean } | undefined {
    if (Number.isNaN(first) || Number.isNaN(last)) return undefined;
    const here = this.here();
    let ahead = true;
    let start = this.find(first, here + 1, this.text.lineCount);
    if (start < 0) {
      ahead = false;
      start = this.find(first, 0, here);
    }
    if (start < 0) return undefined;
    const end = this.find(last, start, Math.min(this.text.lineCount, start + MOST_PROFILE_LINES));
    if (end < 0) return undefined;
    const lines: NumberedLine[] = [];
    for (let line = start; line <= end; line += 1) {
      const place = this.text.linePlace(line);
      lines.push({ bytes: place.chunk.bytes, start: place.start, end: place.end, line: line - here });
    }
    return { lines, ahead };
  }

  /** The first line with this block number from `from` on and before `to`; -1 without. */
  private find(number: number, from: number, to: number): number {
    const { chunks } = this.text;
    if (from >= to) return -1;
    for (let index = this.text.chunkOfLine(from); index < chunks.length; index += 1) {
      const first = this.text.firstLineOfChunk(index);
      if (first >= to) return -1;
      const found = numberedLines(chunks[index])
        .get(number)
        ?.find(line => first + line >= from);
      if (found !== undefined) return first + found < to ? first + found : -1;
    }
    return -1;
  }
}

const known = new Slot<Chunk, ReadonlyMap<number, readonly number[]>>();

/** Lines of a chunk by block number, in order; read once. */
function numberedLines(chunk: Chunk): ReadonlyMap<number, readonly number[]> {
  const before = known.get(chunk);
  if (before !== undefined) return before;
  const lines = new Map<number, number[]>();
  const { bytes, length } = chunk;
  for (let at = 0, line = 0; at < length; line += 1) {
    const number = blockNumber(bytes, at, length);
    if (!Number.isNaN(number)) {
      const same = lines.get(number);
      if (same === undefined) lines.set(number, [line]);
      else same.push(line);
    }
    at = nextLine(bytes, endOfLine(bytes, at, length), length);
  }
  known.set(chunk, lines);
  return lines;
}

const read = new NumberRead();

/** N at the start of a line, NaN without. */
export function blockNumber(bytes: Uint8Array, start: number, limit: number): number {
  let p = start;
  while (p < limit && (bytes[p] === 32 || bytes[p] === 9 || bytes[p] === 47)) p += 1;
  if (p >= limit || (bytes[p] & 0xdf) !== 78) return Number.NaN;
  readNumber(bytes, p + 1, endOfLine(bytes, p, limit), read);
  return read.value;
}
