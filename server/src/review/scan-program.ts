import { S } from '../rs274/state.ts';
import type { Program } from './program.ts';
import type { Axis } from './scan-outliers.ts';
import { type FeedUp, type Hole, scanTable, type TableScan, type ViaPoint } from './scan-table.ts';

/** What one look at all steps gives, with lines of the program. */
export interface ProgramScan {
  holes: readonly Hole[];
  vias: readonly ViaPoint[];
  feedsUp: readonly FeedUp[];
  /** X and Y. */
  axes: readonly Axis[];
}

/** Holes kept of a program. */
const MOST_HOLES = 20_000;

const byTable = new WeakMap<object, TableScan>();
const byProgram = new WeakMap<Program, ProgramScan>();

/** The scan of a program; each stretch is looked at once and kept with its table of steps. */
export function scanOf(program: Program): ProgramScan {
  let scan = byProgram.get(program);
  if (!scan) {
    scan = makeScan(program);
    byProgram.set(program, scan);
  }
  return scan;
}

function makeScan(program: Program): ProgramScan {
  const { reading } = program;
  const holes: Hole[] = [];
  const vias: ViaPoint[] = [];
  const feedsUp: FeedUp[] = [];
  const axes: Axis[] = [];
  for (let index = 0; index < reading.stretches.length; index++) {
    const { steps, stateIn } = reading.stretches[index];
    let scan = byTable.get(steps);
    if (!scan) {
      const { v } = stateIn;
      scan = scanTable(steps, { x: v[S.x], y: v[S.y], z: v[S.z] }, program.kind === 'lathe');
      byTable.set(steps, scan);
    }
    const by = reading.firstLine(index);
    const placed = <T extends { line: number }>(list: readonly T[]): T[] =>
      by === 0 ? [...list] : list.map(item => ({ ...item, line: item.line + by }));
    if (holes.length < MOST_HOLES) holes.push(...placed(scan.holes));
    vias.push(...placed(scan.vias));
    feedsUp.push(...placed(scan.feedsUp));
    for (const [axis, part] of scan.axes.entries()) axes[axis] = joinAxes(axes[axis], part, by);
  }
  return { holes, vias, feedsUp, axes };
}

function joinAxes(all: Axis | undefined, part: Axis, by: number): Axis {
  const outliers = part.outliers.map(outlier => ({ ...outlier, line: outlier.line + by }));
  if (!all) return { ...part, outliers };
  const sizes = [all.most, all.second, part.most, part.second].sort((a, b) => b - a);
  return {
    count: all.count + part.count,
    most: sizes[0],
    second: sizes.find(size => size < sizes[0]) ?? 0,
    outliers: [...all.outliers, ...outliers],
  };
}
