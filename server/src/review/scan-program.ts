import { S, type Stretch } from '../rs274/index.ts';
import { linesBefore, type Piece, summedInPieces } from './blocks.ts';
import type { Program } from './program.ts';
import type { Axis } from './scan-outliers.ts';
import {
  type FeedUp,
  type Hole,
  type Sideways,
  scanTable,
  type TurnedArc,
  type ViaPoint,
} from './scan-table.ts';

/** What one look at all steps gives, with lines of the program. */
export interface ProgramScan {
  holes: readonly Hole[];
  vias: readonly ViaPoint[];
  feedsUp: readonly FeedUp[];
  turnedArcs: readonly TurnedArc[];
  sideways: readonly Sideways[];
  /** X and Y. */
  axes: readonly Axis[];
}

/** Holes kept of a program. */
const MOST_HOLES = 20_000;
/** Other places kept of a program. */
const MOST_PLACES = 20_000;

const byProgram = new WeakMap<Program, ProgramScan>();

/** The scan of a program; each piece is looked at once. */
export function scanOf(program: Program): ProgramScan {
  let scan = byProgram.get(program);
  if (!scan) {
    const pieces = program.kind === 'lathe' ? lathePieces(program.reading) : millPieces(program.reading);
    scan = join(pieces.map(({ value, by }) => ({ value: placed(value, by), by: 0 })));
    byProgram.set(program, scan);
  }
  return scan;
}

const millPieces = summedInPieces(stretches => scanBlock(stretches, false), join);
const lathePieces = summedInPieces(stretches => scanBlock(stretches, true), join);

function scanBlock(stretches: readonly Stretch[], lathe: boolean): ProgramScan {
  return join(
    [...linesBefore(stretches)].map(({ stretch: { steps, stateIn }, by }) => {
      const { v } = stateIn;
      return { value: scanTable(steps, { x: v[S.x], y: v[S.y], z: v[S.z] }, lathe), by };
    }),
  );
}

/** Where each piece stood last: an edit that moves no lines finds all others placed already. */
const standing = new WeakMap<ProgramScan, { by: number; scan: ProgramScan }>();

function placed(scan: ProgramScan, by: number): ProgramScan {
  let found = standing.get(scan);
  if (found?.by !== by) {
    found = { by, scan: join([{ value: scan, by }]) };
    standing.set(scan, found);
  }
  return found.scan;
}

function join(scans: readonly Piece<ProgramScan>[]): ProgramScan {
  const holes: Hole[] = [];
  const vias: ViaPoint[] = [];
  const feedsUp: FeedUp[] = [];
  const turnedArcs: TurnedArc[] = [];
  const sideways: Sideways[] = [];
  const axes: Axis[] = [];
  for (const { value, by } of scans) {
    addPlaced(holes, value.holes, by, MOST_HOLES);
    addPlaced(vias, value.vias, by, MOST_PLACES);
    addPlaced(feedsUp, value.feedsUp, by, MOST_PLACES);
    addPlaced(turnedArcs, value.turnedArcs, by, MOST_PLACES);
    addPlaced(sideways, value.sideways, by, MOST_PLACES);
    for (const [axis, part] of value.axes.entries()) axes[axis] = joinAxes(axes[axis], part, by);
  }
  return { holes, vias, feedsUp, turnedArcs, sideways, axes };
}

function addPlaced<T extends { line: number }>(to: T[], from: readonly T[], by: number, most: number): void {
  for (const item of from) {
    if (to.length >= most) return;
    to.push(by === 0 ? item : { ...item, line: item.line + by });
  }
}

function joinAxes(all: Axis | undefined, part: Axis, by: number): Axis {
  const outliers =
    by === 0 ? part.outliers : part.outliers.map(outlier => ({ ...outlier, line: outlier.line + by }));
  if (!all) return { ...part, outliers };
  const most = Math.max(all.most, part.most);
  const low = Math.min(all.most, part.most);
  return {
    count: all.count + part.count,
    most,
    second: Math.max(low < most ? low : 0, all.second, part.second),
    outliers: outliers.length === 0 ? all.outliers : [...all.outliers, ...outliers],
  };
}
