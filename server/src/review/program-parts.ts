import { type Reading, S, type StepTable, type Stretch } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import { linesBefore, type Piece, summedInPieces, whereItStands } from './blocks.ts';
import { fold, joinInOrder, type PlacedParts } from './join-parts.ts';
import { once } from './once.ts';
import type { Part } from './part.ts';
import { partsOf, type Start, type StretchParts } from './parts.ts';
import { sameRun } from './same-run.ts';
import { noteCalls } from './tool-calls.ts';

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

/** Parts of a whole program, lines of the program. They are kept for the next review: nobody may change them. */
export function programParts(reading: Reading): readonly Part[] {
  const pieces = piecesOf(reading);
  const { count, inOrder, folded } = pieces.length === 1 ? pieces[0].value : join(pieces.map(standing));
  return count <= MOST_IN_ORDER ? inOrder() : folded();
}

/** A piece with its parts where they stand in the program. */
function standing({ value, by }: Piece<PieceParts>): Piece<PieceParts> {
  const { inOrder, folded } = value;
  return {
    by: 0,
    value: {
      ...value,
      inOrder: () => placed({ value: inOrder(), by }),
      folded: () => placed({ value: folded(), by }),
    },
  };
}

const placed = whereItStands((parts: readonly Part[], by) =>
  by === 0 ? parts : parts.map(part => part.copy().moved(by)),
);

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

function partsOfBlock(stretches: readonly Stretch[], again: boolean): PieceParts {
  let count = 0;
  let last: Float64Array | undefined;
  let in_order = true;
  const pieces: (PlacedParts & StretchParts)[] = [];
  for (const { stretch, by } of linesBefore(stretches)) {
    const sum = sumOf(stretch, again);
    // Those that stand where they belong are lent, and these may be changed later.
    const parts = again && by === 0 ? sum.parts.map(part => part.copy()) : sum.parts;
    pieces.push({ ...sum, parts, first_line: by, own: !again });
    count += sum.count - (last && sum.first && sameRun(last, sum.first) ? 1 : 0);
    last = sum.last ?? last;
    if (!sum.in_order) in_order = false;
  }
  const first = pieces.find(piece => piece.first)?.first;
  if (in_order && count <= MOST_IN_ORDER) {
    const parts = joinInOrder(pieces);
    return { count, first, last, inOrder: () => parts, folded: once(() => fold([{ first_line: 0, parts }])) };
  }
  const parts = fold(pieces);
  // In order they are wanted of a program with few: what that costs here is paid again then.
  return {
    count,
    first,
    last,
    inOrder: once(() => joinInOrder(ordered(pieces, stretches))),
    folded: () => parts,
  };
}

/** Parts of stretches in order; those that are not, or were changed since, are summed anew. */
function* ordered(pieces: readonly (PlacedParts & StretchParts)[], stretches: readonly Stretch[]) {
  for (const [index, stretch] of stretches.entries()) {
    const piece = pieces[index];
    if (piece.in_order && !piece.own) yield piece;
    else
      yield {
        first_line: piece.first_line,
        parts: partsOf(stretch.steps, startOf(stretch), true).parts,
        own: true,
      };
  }
}

const sums = new Slot<Stretch, StretchParts>();

/** Sums a stretch while its steps are at hand (`steps`: as they were recorded); taken up when its block is summed. */
export function sumParts(stretch: Stretch, steps: StepTable): void {
  const sum = partsOf(steps, startOf(stretch), false, stretch.steps.runs);
  noteCalls(stretch, steps, sum.parts);
  sums.set(stretch, sum);
}

/** What is summed of a stretch; if not `again`, it is the asker's, who may change it. */
function sumOf(stretch: Stretch, again: boolean): StretchParts {
  const held = sums.get(stretch);
  const sum = held ?? partsOf(stretch.steps, startOf(stretch), false);
  if (again !== (held !== undefined)) sums.set(stretch, again ? sum : undefined);
  return sum;
}

function startOf({ stateIn: { v } }: Stretch): Start {
  return { x: v[S.x], y: v[S.y], z: v[S.z] };
}
