import { type Reading, S } from '../rs274/index.ts';
import { blocksOf, keptByBlock, type StretchBlock } from './blocks.ts';
import { fold, joinInOrder, type PlacedParts } from './join-parts.ts';
import { NO_LINE, type Part } from './part.ts';
import { partsOf } from './parts.ts';
import { sameRun } from './same-run.ts';

/** So many parts stand in order of the program; a program with more is told by the different runs of each tool. */
const MOST_IN_ORDER = 2000;

/** The parts of one block, lines counted from its first. */
interface BlockParts {
  /** How many there are in order. */
  count: number;
  first: Float64Array | undefined;
  last: Float64Array | undefined;
  /** Absent when there are too many. */
  in_order: readonly Part[] | undefined;
  folded: readonly Part[];
}

/** Parts of a whole program, lines of the program; -1 is no line. */
export function programParts(reading: Reading): Part[] {
  const blocks = blocksOf(reading).map(({ block, first_line }) => ({ first_line, of: partsOfBlock(block) }));
  let count = 0;
  let last: Float64Array | undefined;
  for (const { of } of blocks) {
    count += of.count - (last && of.first && sameRun(last, of.first) ? 1 : 0);
    last = of.last ?? last;
  }
  const parts =
    count <= MOST_IN_ORDER
      ? joinInOrder(blocks.map(({ first_line, of }) => ({ first_line, parts: of.in_order ?? [] })))
      : fold(blocks.map(({ first_line, of }) => ({ first_line, parts: of.folded })));
  for (const part of parts) {
    if (part.first_cut_line === NO_LINE) part.first_cut_line = -1;
    if (part.last_cut_line === NO_LINE) part.last_cut_line = -1;
    if (part.plunge_line === NO_LINE) part.plunge_line = -1;
  }
  return parts;
}

const partsOfBlock = keptByBlock((block): BlockParts => {
  const in_order = joinInOrder(stretchParts(block));
  return {
    count: in_order.length,
    first: in_order[0]?.run,
    last: in_order[in_order.length - 1]?.run,
    in_order: in_order.length > MOST_IN_ORDER ? undefined : in_order,
    folded: fold([{ first_line: 0, parts: in_order }]),
  };
});

function* stretchParts({ stretches }: StretchBlock): Iterable<PlacedParts> {
  let first_line = 0;
  for (const { steps, stateIn, lineCount } of stretches) {
    const { v } = stateIn;
    yield { first_line, parts: partsOf(steps, { x: v[S.x], y: v[S.y], z: v[S.z] }), own: true };
    first_line += lineCount;
  }
}
