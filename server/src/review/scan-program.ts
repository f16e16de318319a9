import { S } from '../rs274/state.ts';
import { blocksOf, keptByBlock, type StretchBlock } from './blocks.ts';
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

/** The scan of a program; each block is looked at once. */
export function scanOf(program: Program): ProgramScan {
  let scan = byProgram.get(program);
  if (!scan) {
    const scanBlock = program.kind === 'lathe' ? scanLatheBlock : scanMillBlock;
    scan = joinScans(
      blocksOf(program.reading).map(({ block, first_line }) => ({ scan: scanBlock(block), by: first_line })),
    );
    byProgram.set(program, scan);
  }
  return scan;
}

const scanMillBlock = keptByBlock(block => joinScans(scansOf(block, false)));
const scanLatheBlock = keptByBlock(block => joinScans(scansOf(block, true)));

function* scansOf({ stretches }: StretchBlock, lathe: boolean): Iterable<{ scan: ProgramScan; by: number }> {
  let by = 0;
  for (const { steps, stateIn, lineCount } of stretches) {
    const { v } = stateIn;
    yield { scan: scanTable(steps, { x: v[S.x], y: v[S.y], z: v[S.z] }, lathe), by };
    by += lineCount;
  }
}

function joinScans(scans: Iterable<{ scan: ProgramScan; by: number }>): ProgramScan {
  const holes: Hole[] = [];
  const vias: ViaPoint[] = [];
  const feedsUp: FeedUp[] = [];
  const turnedArcs: TurnedArc[] = [];
  const sideways: Sideways[] = [];
  const axes: Axis[] = [];
  for (const { scan, by } of scans) {
    addPlaced(holes, scan.holes, by, MOST_HOLES);
    addPlaced(vias, scan.vias, by, MOST_PLACES);
    addPlaced(feedsUp, scan.feedsUp, by, MOST_PLACES);
    addPlaced(turnedArcs, scan.turnedArcs, by, MOST_PLACES);
    addPlaced(sideways, scan.sideways, by, MOST_PLACES);
    for (const [axis, part] of scan.axes.entries()) axes[axis] = joinAxes(axes[axis], part, by);
  }
  return { holes, vias, feedsUp, turnedArcs, sideways, axes };
}

function addPlaced<T extends { line: number }>(to: T[], from: readonly T[], by: number, most: number): void {
  for (const item of from) {
    if (to.length >= most) return;
    to.push({ ...item, line: item.line + by });
  }
}

function joinAxes(all: Axis | undefined, part: Axis, by: number): Axis {
  const outliers = part.outliers.map(outlier => ({ ...outlier, line: outlier.line + by }));
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
