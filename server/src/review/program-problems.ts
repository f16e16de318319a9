import type { Reading } from '../rs274/index.ts';
import type { Problem } from '../rs274/problems.ts';
import { joinLists, linesBefore, type Piece, summedInPieces, whereItStands } from './blocks.ts';

/** What the reader found, lines of the program. While lines stay where they are they are the same objects. */
export function problemsOf(reading: Reading): readonly Problem[] {
  const pieces = piecesOf(reading);
  return pieces.length === 1 ? placed(pieces[0]) : joinLists(pieces.map(placed));
}

type Problems = { readonly list: readonly Problem[] };

const piecesOf = summedInPieces(
  stretches =>
    join(linesBefore(stretches).map(({ stretch, by }) => ({ value: { list: stretch.problems }, by }))),
  join,
);

function join(pieces: readonly Piece<Problems>[]): Problems {
  const list: Problem[] = [];
  for (const { value, by } of pieces)
    for (const problem of value.list) list.push(by === 0 ? problem : { ...problem, line: problem.line + by });
  return { list };
}

const placed = whereItStands((value: Problems, by): readonly Problem[] => join([{ value, by }]).list);
