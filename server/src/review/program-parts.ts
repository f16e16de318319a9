import { type Reading, S, type Stretch } from '../rs274/index.ts';
import { linesBefore, type Piece, summedInPieces } from './blocks.ts';
import { fold, joinInOrder } from './join-parts.ts';
import { once } from './once.ts';
import { NO_LINE, type Part } from './part.ts';
import { partsOf } from './parts.ts';
import { sameRun } from './same-run.ts';

/** So many parts stand in order of the program; a program with more is told by the different runs of each tool. */
const MOST_IN_ORDER = 1000;

/** The parts of a piece of the program, lines counted from its first. */
interface PieceParts {
  /** How many there are in order, and the runs of the first and the last. */
  count: number;
  first: Float64Array | undefined;
  last: Float64Array | undefined;
  inOrder: () => readonly Part[];
  folded: () => readonly Part[];
}

/** Parts of a whole program, lines of the program; -1 is no line. */
export function programParts(reading: Reading): readonly Part[] {
  const { count, inOrder, folded } = join(piecesOf(reading));
  const parts = count <= MOST_IN_ORDER ? inOrder() : folded();
  for (const part of parts) {
    if (part.first_cut_line === NO_LINE) part.first_cut_line = -1;
    if (part.last_cut_line === NO_LINE) part.last_cut_line = -1;
    if (part.plunge_line === NO_LINE) part.plunge_line = -1;
  }
  return parts;
}

const piecesOf = summedInPieces(partsOfBlock, join);

function join(pieces: readonly Piece<PieceParts>[]): PieceParts {
  let count = 0;
  let first: Float64Array | undefined;
  let last: Float64Array | undefined;
  for (const { value } of pieces) {
    count += value.count - (last && value.first && sameRun(last, value.first) ? 1 : 0);
    first ??= value.first;
    last = value.last ?? last;
  }
  return {
    count,
    first,
    last,
    inOrder: once(() =>
      joinInOrder(pieces.map(({ value, by }) => ({ first_line: by, parts: value.inOrder() }))),
    ),
    folded: once(() => fold(pieces.map(({ value, by }) => ({ first_line: by, parts: value.folded() })))),
  };
}

function partsOfBlock(stretches: readonly Stretch[]): PieceParts {
  const parts = joinInOrder(stretchParts(stretches));
  const folded = once(() => fold([{ first_line: 0, parts }]));
  // Of a piece with too many parts only the folded ones are kept.
  const kept = parts.length > MOST_IN_ORDER ? folded() : parts;
  return {
    count: parts.length,
    first: parts[0]?.run,
    last: parts[parts.length - 1]?.run,
    inOrder: () => kept,
    folded,
  };
}

function* stretchParts(stretches: readonly Stretch[]) {
  for (const { stretch, by } of linesBefore(stretches)) {
    const { v } = stretch.stateIn;
    yield {
      first_line: by,
      parts: partsOf(stretch.steps, { x: v[S.x], y: v[S.y], z: v[S.z] }),
      own: true,
    };
  }
}
