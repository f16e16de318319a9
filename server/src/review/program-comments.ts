import { comments, commentsOfChunk, type PlacedComment, type Reading, type Stretch } from '../rs274/index.ts';
import { joinLists, type Piece, summedInPieces, whereItStands } from './blocks.ts';

/** All comments of a program in order; at most `most`. While lines stay where they are they are the same objects. */
export function commentsOf(reading: Reading, most = Number.POSITIVE_INFINITY): readonly PlacedComment[] {
  if (reading.needs_flow) return [...comments(reading.text, most)];
  const all = joinLists(piecesOf(reading).map(placed));
  return all.length > most ? all.slice(0, most) : all;
}

const piecesOf = summedInPieces(commentsOfBlock, join);
const placed = whereItStands((value: readonly PlacedComment[], by) => join([{ value, by }]));

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
    for (const comment of value) all.push(by === 0 ? comment : { ...comment, line: comment.line + by });
  return all;
}
