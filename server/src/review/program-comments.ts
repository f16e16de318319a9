import { comments, commentsOfChunk, type PlacedComment, type Reading, type Stretch } from '../rs274/index.ts';
import { type Piece, summedInPieces } from './blocks.ts';

/** All comments of a program in order; at most `most`. */
export function commentsOf(reading: Reading, most = Number.POSITIVE_INFINITY): readonly PlacedComment[] {
  if (reading.needs_flow) return [...comments(reading.text, most)];
  const all = join(piecesOf(reading));
  return all.length > most ? all.slice(0, most) : all;
}

const piecesOf = summedInPieces(commentsOfBlock, join);

function commentsOfBlock(stretches: readonly Stretch[]): readonly PlacedComment[] {
  const all: PlacedComment[] = [];
  let by = 0;
  for (const { chunk, lineCount } of stretches) {
    if (chunk)
      for (const comment of commentsOfChunk(chunk)) all.push({ ...comment, line: comment.line + by });
    by += lineCount;
  }
  return all;
}

function join(pieces: readonly Piece<readonly PlacedComment[]>[]): readonly PlacedComment[] {
  const all: PlacedComment[] = [];
  for (const { value, by } of pieces)
    for (const comment of value) all.push({ ...comment, line: comment.line + by });
  return all;
}
