import { boxX, boxY, boxZ } from '../rs274/kernel/box.ts';
import { KIND, RUN, RUN_WIDTH, STEP_FLAG, type StepTable } from '../rs274/steps.ts';
import { lookAt } from './kernel.ts';
import { TableEnds } from './scan-ends.ts';
import { feedsUpAt } from './scan-feeds-up.ts';
import { TableHoles } from './scan-holes.ts';
import {
  addPlace,
  addSideways,
  type FeedUp,
  type Hole,
  MOST_HOLES,
  NO_HOLE,
  SAME_MM,
  type Scan,
  type Sideways,
  stays,
  type TurnedArc,
  UNTOUCHED,
  type ViaPoint,
} from './scan-marks.ts';
import { axisOf } from './scan-outliers.ts';

// Taken out of the table once: the loop below runs over every step.
const {
  feed: FEED,
  arc: ARC,
  tap: TAP,
  dwell: DWELL,
  home: HOME,
  rapid: RAPID,
  toolchange: TOOLCHANGE,
} = KIND;

/**
 * Looks once at every step of a stretch that starts at a position; lines are those of the stretch. `kept` is the table to
 * hold on to where `table` is only lent. What needs the neighbours of the stretch is left to where pieces are joined.
 */
export function scanTable(
  table: StepTable,
  start: { x: number; y: number; z: number },
  lathe: boolean,
  kept: StepTable = table,
): Scan {
  const { kind, flags, line, run, x: xs, y: ys, z: zs, count } = table;
  const { runs } = kept;
  const look = lookAt(table);
  const { box } = look;
  const holes: Hole[] = [];
  const vias: ViaPoint[] = [];
  const feedsUp: FeedUp[] = [];
  const turnedArcs: TurnedArc[] = [];
  const sideways: Sideways[] = [];
  let hole: Hole | undefined;
  let open = UNTOUCHED;
  let lead_dwell_s = 0;
  let goes_on = false;
  let marked = false;
  // The plus signs keep these as bare numbers through the loop; without them every step makes objects of them.
  let x = +start.x;
  let y = +start.y;
  let z = +start.z;
  for (let i = 0; i < count; i++) {
    box[boxX] = x;
    box[boxY] = y;
    box[boxZ] = z;
    // Most moves of a long program are none of what is looked for.
    i = look.nextToSee(i, count, lathe);
    if (i >= count) break;
    x = box[boxX];
    y = box[boxY];
    z = box[boxZ];
    const k = kind[i];
    const nx = xs[i];
    const ny = ys[i];
    const nz = zs[i];
    const arc = k === ARC;
    const across = k === FEED && Math.abs(nx - x) + Math.abs(ny - y) > 2 * SAME_MM;
    if (look.runs.seen[run[i]] === 0 && (arc || across || (k === FEED && !stays(nx, x, ny, y)))) {
      look.runs.seen[run[i]] = 1;
      addSideways(sideways, { line: line[i], tool: runs[run[i] * RUN_WIDTH + RUN.tool], z: nz });
    }
    if (across || arc) {
      if (arc) {
        if (i < 2 || i === count - 1) marked = true;
        else if (look.turnsBack(i, count)) addPlace(turnedArcs, { line: line[i] });
      }
      x = nx;
      y = ny;
      z = nz;
      continue;
    }
    const straight = nx === x && ny === y;
    const in_cycle = (flags[i] & STEP_FLAG.cycle) !== 0;
    if ((k === FEED || k === TAP) && nz < z && (straight || stays(nx, x, ny, y))) {
      const on_axis = lathe && nx === 0;
      const same =
        hole !== undefined && stays(nx, hole.x, ny, hole.y) && (in_cycle ? hole.line === line[i] : on_axis);
      if (hole && same) {
        hole.bottom = Math.min(hole.bottom, nz);
        hole.stroke_mm = Math.max(hole.stroke_mm, z - nz);
        hole.strokes++;
      } else if (holes.length >= MOST_HOLES) {
        hole = undefined;
        open = NO_HOLE;
      } else if (in_cycle || !lathe || on_axis) {
        if (open === UNTOUCHED) goes_on = on_axis && !in_cycle;
        hole = {
          line: line[i],
          run: runs.subarray(run[i] * RUN_WIDTH, (run[i] + 1) * RUN_WIDTH),
          x: nx,
          y: ny,
          top: z,
          bottom: nz,
          stroke_mm: z - nz,
          strokes: 1,
          dwell_s: 0,
          cycle: in_cycle,
        };
        open = holes.length;
        holes.push(hole);
      }
    } else if (k === DWELL) {
      const seconds = table.seconds.get(i) ?? 0;
      if (hole) hole.dwell_s = Math.max(hole.dwell_s, seconds);
      else if (open === UNTOUCHED) lead_dwell_s = Math.max(lead_dwell_s, seconds);
    } else if (k === HOME && i > 0 && kind[i - 1] === RAPID && line[i - 1] === line[i]) {
      const before = i > 1 ? zs[i - 2] : start.z;
      const at = run[i] * RUN_WIDTH;
      addPlace(vias, { line: line[i], run: runs.subarray(at, at + RUN_WIDTH), from_z: before, z: zs[i - 1] });
    } else if (k === FEED && nz > z && straight && !lathe) {
      if (i < 2 || i === count - 1) marked = true;
      else if (feedsUpAt(table, i)) addPlace(feedsUp, { line: line[i], from_z: z, z: nz });
    }
    if (k === TOOLCHANGE) {
      hole = undefined;
      open = NO_HOLE;
    }
    x = nx;
    y = ny;
    z = nz;
  }
  return {
    holes: new TableHoles(holes, open, lead_dwell_s, goes_on),
    vias,
    feedsUp,
    turnedArcs,
    sideways,
    axes: lathe ? NO_AXES : [axisOf(look, false, start.x, count), axisOf(look, true, start.y, count)],
    marked,
    ends: new TableEnds(table, runs),
  };
}

const NO_AXES: Scan['axes'] = [];

/** Number of the cycle or motion code a hole was made with, as G83 is 83. */
export function holeCode(hole: Hole): number {
  return hole.run[RUN.motion] / 10;
}
