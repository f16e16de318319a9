import type { Reading } from '../rs274/index.ts';
import type { Problem } from '../rs274/problems.ts';
import { linesBefore, type Piece, summedInPieces } from './blocks.ts';

/** What the reader found, lines of the program. */
export function problemsOf(reading: Reading): readonly Problem[] {
  return join(piecesOf(reading));
}

const piecesOf = summedInPieces(
  stretches => join([...linesBefore(stretches)].map(({ stretch, by }) => ({ value: stretch.problems, by }))),
  join,
);

function join(pieces: readonly Piece<readonly Problem[]>[]): readonly Problem[] {
  const all: Problem[] = [];
  for (const { value, by } of pieces)
    for (const problem of value) all.push({ ...problem, line: problem.line + by });
  return all;
}
