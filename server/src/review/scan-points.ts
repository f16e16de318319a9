import { type AxisPoints, axisPointsOf, MOST_POINT_PLACES } from '../rs274/axis-points.ts';
import type { Chunk } from '../rs274/chunk.ts';
import type { Reading } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import { linesBefore, type Piece, summedInPieces } from './blocks.ts';

/** Counts points of X Y Z U W words outside comments; after an edit only the text that it changed is looked at again. */
export function scanPoints(reading: Reading): AxisPoints {
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
      linesBefore(stretches).flatMap(({ stretch: { chunk }, by }) =>
        chunk ? [{ value: scanChunk(chunk), by }] : [],
      ),
    ),
  join,
);

function join(pieces: readonly Piece<AxisPoints>[]): AxisPoints {
  const all: AxisPoints = { with_point: 0, whole: 0, places: [] };
  for (const { value, by } of pieces) {
    all.with_point += value.with_point;
    all.whole += value.whole;
    if (all.places.length >= MOST_POINT_PLACES) continue;
    for (const place of value.places) all.places.push({ ...place, line: place.line + by });
  }
  return all;
}

const byChunk = new Slot<Chunk, AxisPoints>();

function scanChunk(chunk: Chunk): AxisPoints {
  if (chunk.pointed_words >= 0) return { with_point: chunk.pointed_words, whole: 0, places: [] };
  let scan = byChunk.get(chunk);
  if (!scan) {
    scan = axisPointsOf(chunk.bytes, 0, chunk.length);
    byChunk.set(chunk, scan);
  }
  return scan;
}
