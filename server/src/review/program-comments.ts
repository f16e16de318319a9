import { type Comment, comments, commentsOfChunk, type Reading } from '../rs274/index.ts';
import { linesBefore, type Piece, summedInPieces } from './blocks.ts';

/** A comment with its line, 0-based. */
export type PlacedComment = Comment & { line: number };

/** All comments of a program in order; at most `most`. */
export function commentsOf(reading: Reading, most = Number.POSITIVE_INFINITY): readonly PlacedComment[] {
  if (reading.needs_flow) return [...comments(reading.text, most)];
  const all = join(piecesOf(reading));
  return all.length > most ? all.slice(0, most) : all;
}

const piecesOf = summedInPieces(
  stretches =>
    join(
      [...linesBefore(stretches)].map(({ stretch, by }) => ({
        value: stretch.chunk ? commentsOfChunk(stretch.chunk) : [],
        by,
      })),
    ),
  join,
);

function join(pieces: readonly Piece<readonly PlacedComment[]>[]): readonly PlacedComment[] {
  const all: PlacedComment[] = [];
  for (const { value, by } of pieces)
    for (const comment of value) all.push({ ...comment, line: comment.line + by });
  return all;
}
