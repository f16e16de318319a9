import { type Comment, comments, commentsOfChunk, type Reading } from '../rs274/index.ts';
import { blocksOf, keptByBlock } from './blocks.ts';

/** A comment with its line, 0-based. */
export type PlacedComment = Comment & { line: number };

/** All comments of a program in order; at most `most`. */
export function commentsOf(reading: Reading, most = Number.POSITIVE_INFINITY): PlacedComment[] {
  if (reading.needs_flow) return [...comments(reading.text, most)];
  const all: PlacedComment[] = [];
  for (const { block, first_line } of blocksOf(reading)) {
    for (const comment of commentsOfBlock(block)) {
      if (all.length >= most) return all;
      all.push({ ...comment, line: comment.line + first_line });
    }
  }
  return all;
}

const commentsOfBlock = keptByBlock(({ stretches }): readonly PlacedComment[] => {
  const all: PlacedComment[] = [];
  let first_line = 0;
  for (const { chunk, lineCount } of stretches) {
    if (chunk)
      for (const comment of commentsOfChunk(chunk)) all.push({ ...comment, line: comment.line + first_line });
    first_line += lineCount;
  }
  return all;
});
