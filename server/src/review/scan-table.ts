import { KIND, RUN, RUN_WIDTH, STEP_FLAG, type StepTable } from '../rs274/steps.ts';
import { turnsBack } from './scan-arcs.ts';
import { type Axis, axisOf } from './scan-outliers.ts';

// Taken out of the table once: the loops below run over every step.
const {
  feed: FEED,
  arc: ARC,
  tap: TAP,
  dwell: DWELL,
  home: HOME,
  rapid: RAPID,
  toolchange: TOOLCHANGE,
} = KIND;

/** A hole along Z: made by a cycle, or by a straight feed down. Lines of the stretch; lengths mm. */
export interface Hole {
  line: number;
  /** The run it was made in. */
  run: Float64Array;
  x: number;
  y: number;
  /** Where feed begins and where it ends. */
  top: number;
  bottom: number;
  /** Greatest depth fed in one go. */
  stroke_mm: number;
  strokes: number;
  /** Longest dwell in it, s. */
  dwell_s: number;
  /** Made by a cycle. */
  cycle: boolean;
}

/** A rapid to an intermediate point on the way to the reference position. */
export interface ViaPoint {
  line: number;
  run: Float64Array;
  from_z: number;
  z: number;
}

/** A straight feed up right after a rapid down, followed by a cut at that height. */
export interface FeedUp {
  line: number;
  from_z: number;
  z: number;
}

/** An arc that would run on smoothly at both ends if it turned the other way. */
export interface TurnedArc {
  line: number;
}

/** The first feed move of a tool that goes sideways. */
export interface Sideways {
  line: number;
  tool: number;
  z: number;
}

/** What one look at all steps of a stretch gives to the rules. */
export interface TableScan {
  holes: readonly Hole[];
  vias: readonly ViaPoint[];
  feedsUp: readonly FeedUp[];
  turnedArcs: readonly TurnedArc[];
  sideways: readonly Sideways[];
  axes: readonly Axis[];
}

/** Holes kept of one stretch. */
const MOST_HOLES = 5000;
const MOST_PLACES = 50;
const SAME_MM = 1e-6;

/** Looks once at every step of a stretch that starts at a position. */
export function scanTable(
  table: StepTable,
  start: { x: number; y: number; z: number },
  lathe: boolean,
): TableScan {
  const { kind, flags, line, run, x: xs, y: ys, z: zs, count } = table;
  const holes: Hole[] = [];
  const vias: ViaPoint[] = [];
  const feedsUp: FeedUp[] = [];
  const turnedArcs: TurnedArc[] = [];
  const sideways: Sideways[] = [];
  let sidewaysRun = -1;
  const runAt = (i: number) => table.runs.subarray(run[i] * RUN_WIDTH, (run[i] + 1) * RUN_WIDTH);
  let hole: Hole | undefined;
  // The plus signs keep these as bare numbers through the loop; without them every step makes objects of them.
  let x = +start.x;
  let y = +start.y;
  let z = +start.z;
  for (let i = 0; i < count; i++) {
    const k = kind[i];
    const nx = xs[i];
    const ny = ys[i];
    const nz = zs[i];
    if (run[i] !== sidewaysRun && (k === ARC || (k === FEED && (nx !== x || ny !== y)))) {
      if (k === ARC || !stays(nx, x, ny, y)) {
        sidewaysRun = run[i];
        const tool = table.runs[sidewaysRun * RUN_WIDTH + RUN.tool];
        if (sideways.length < MOST_PLACES && !sideways.some(each => each.tool === tool))
          sideways.push({ line: line[i], tool, z: nz });
      }
    }
    // Most moves of a long program go sideways and are none of what is looked for.
    if (k === FEED && Math.abs(nx - x) + Math.abs(ny - y) > 2 * SAME_MM) {
      x = nx;
      y = ny;
      z = nz;
      continue;
    }
    const straight = nx === x && ny === y;
    const inCycle = (flags[i] & STEP_FLAG.cycle) !== 0;
    if ((k === FEED || k === TAP) && nz < z && (straight || stays(nx, x, ny, y))) {
      const onAxis = lathe && nx === 0;
      const same = hole !== undefined && at(hole, nx, ny) && (inCycle ? hole.line === line[i] : onAxis);
      if (hole && same) {
        hole.bottom = Math.min(hole.bottom, nz);
        hole.stroke_mm = Math.max(hole.stroke_mm, z - nz);
        hole.strokes++;
      } else if ((inCycle || !lathe || onAxis) && holes.length < MOST_HOLES) {
        hole = {
          line: line[i],
          run: runAt(i),
          x: nx,
          y: ny,
          top: z,
          bottom: nz,
          stroke_mm: z - nz,
          strokes: 1,
          dwell_s: 0,
          cycle: inCycle,
        };
        holes.push(hole);
      }
    } else if (k === DWELL && hole) {
      hole.dwell_s = Math.max(hole.dwell_s, table.seconds.get(i) ?? 0);
    } else if (k === HOME && i > 0 && kind[i - 1] === RAPID && line[i - 1] === line[i]) {
      const before = i > 1 ? zs[i - 2] : start.z;
      if (vias.length < MOST_PLACES)
        vias.push({ line: line[i], run: runAt(i), from_z: before, z: zs[i - 1] });
    } else if (k === FEED && !lathe && !inCycle && nz > z && straight && feedsUp.length < MOST_PLACES) {
      if (cameDown(table, i, start.z) && cutsLevel(table, i))
        feedsUp.push({ line: line[i], from_z: z, z: nz });
    }
    if (k === ARC && turnedArcs.length < MOST_PLACES && turnsBack(table, i, x, y, z))
      turnedArcs.push({ line: line[i] });
    if (k === TOOLCHANGE) hole = undefined;
    x = nx;
    y = ny;
    z = nz;
  }
  return {
    holes,
    vias,
    feedsUp,
    turnedArcs,
    sideways,
    axes: lathe ? [] : [axisOf(table, xs, start.x), axisOf(table, ys, start.y)],
  };
}

function at(hole: Hole, x: number, y: number): boolean {
  return stays(x, hole.x, y, hole.y);
}

function stays(x: number, x0: number, y: number, y0: number): boolean {
  const near = (a: number, b: number) => Math.abs(a - b) < SAME_MM || (Number.isNaN(a) && Number.isNaN(b));
  return near(x, x0) && near(y, y0);
}

function cameDown(table: StepTable, i: number, startZ: number): boolean {
  if (i === 0 || table.kind[i - 1] !== RAPID) return false;
  const from = i > 1 ? table.z[i - 2] : startZ;
  return table.z[i - 1] < from;
}

function cutsLevel(table: StepTable, i: number): boolean {
  const next = i + 1;
  if (next >= table.count || table.z[next] !== table.z[i]) return false;
  return table.kind[next] === FEED || table.kind[next] === ARC;
}

/** Number of the cycle or motion code a hole was made with, as G83 is 83. */
export function holeCode(hole: Hole): number {
  return hole.run[RUN.motion] / 10;
}
