import type { Chunk } from '../rs274/chunk.ts';
import type { Reading } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import { linesBefore, type Piece, summedInPieces } from './blocks.ts';

/** Axis words with and without a decimal point. */
export interface PointScan {
  with_point: number;
  /** Words that are not zero and have none. */
  whole: number;
  /** The first of them, columns of the line. */
  places: { line: number; start: number; end: number }[];
}

const PLACES = 60;

/** Counts points of X Y Z U W words outside comments; after an edit only the text that it changed is looked at again. */
export function scanPoints(reading: Reading): PointScan {
  const { text } = reading;
  // Control flow has the whole program read as one stretch.
  if (reading.stretches.length === 1 && reading.stretches[0].chunk === null)
    return join(
      text.chunks.map((chunk, index) => ({ value: scanChunk(chunk), by: text.firstLineOfChunk(index) })),
    );
  return join(piecesOf(reading));
}

const piecesOf = summedInPieces(
  stretches =>
    join(
      [...linesBefore(stretches)].flatMap(({ stretch: { chunk }, by }) =>
        chunk ? [{ value: scanChunk(chunk), by }] : [],
      ),
    ),
  join,
);

function join(pieces: readonly Piece<PointScan>[]): PointScan {
  const all: PointScan = { with_point: 0, whole: 0, places: [] };
  for (const { value, by } of pieces) {
    all.with_point += value.with_point;
    all.whole += value.whole;
    if (all.places.length >= PLACES) continue;
    for (const place of value.places) all.places.push({ ...place, line: place.line + by });
  }
  return all;
}

const byChunk = new Slot<Chunk, PointScan>();

function scanChunk(chunk: Chunk): PointScan {
  if (chunk.plain_points >= 0) return { with_point: chunk.plain_points, whole: 0, places: [] };
  let scan = byChunk.get(chunk);
  if (!scan) {
    scan = scanBytes(chunk.bytes.subarray(0, chunk.length));
    byChunk.set(chunk, scan);
  }
  return scan;
}

function scanBytes(bytes: Uint8Array): PointScan {
  const scan: PointScan = { with_point: 0, whole: 0, places: [] };
  let line = 0;
  let begin = 0;
  let p = 0;
  while (p < bytes.length) {
    const c = bytes[p];
    if (c === 10 || c === 13) {
      if (c === 13 && bytes[p + 1] === 10) p++;
      line++;
      begin = ++p;
    } else if (c === 40 || c === 59) {
      const end = c === 40 ? 41 : 10;
      while (p < bytes.length && bytes[p] !== end && bytes[p] !== 10 && bytes[p] !== 13) p++;
      if (bytes[p] === 41) p++;
    } else if (isAxis(c)) p = word(bytes, p, line, begin, scan);
    else p++;
  }
  return scan;
}

function word(bytes: Uint8Array, at: number, line: number, begin: number, scan: PointScan): number {
  let p = at + 1;
  while (bytes[p] === 32 || bytes[p] === 45 || bytes[p] === 43) p++;
  let point = false;
  let zero = true;
  const digits = p;
  for (; p < bytes.length; p++) {
    const c = bytes[p];
    if (c === 46) point = true;
    else if (c >= 48 && c <= 57) zero &&= c === 48;
    else break;
  }
  if (p === digits) return p;
  if (point) scan.with_point++;
  else if (!zero) {
    scan.whole++;
    if (scan.places.length < PLACES) scan.places.push({ line, start: at - begin, end: p - begin });
  }
  return p;
}

/** X Y Z U W, upper or lower case. */
function isAxis(c: number): boolean {
  const upper = c & 0xdf;
  return c >= 65 && ((upper >= 88 && upper <= 90) || upper === 85 || upper === 87);
}
