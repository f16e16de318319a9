import { turnByAngle } from './angle-line.ts';
import { arcOfBlock, planeOf } from './arc-words.ts';
import type { Block } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import type { Effect } from './codes/shape.ts';
import type { Flat, Segment } from './compensation/element.ts';
import { startNoseCompensation, tipShift, tipSink } from './compensation/nose.ts';
import {
  COMPENSATION_RULES,
  type CompensationSink,
  type CompensationState,
  finishCompensation,
  pushSegment,
  startCompensation,
} from './compensation/offset.ts';
import { turnsOver } from './coordinate-change.ts';
import { OpenCorner, sendCorner } from './corner.ts';
import { dropSpline } from './execute-nurbs.ts';
import { PLANE_AXES, type Plane, pointInPlane } from './geometry/plane.ts';
import type { Machine } from './machine.ts';
import { OpenPath, type PathTag } from './open-path.ts';
import { S } from './state.ts';
import { KIND, RUN, STEP_FLAG } from './steps.ts';
import { readTarget, Target } from './targets.ts';

/**
 * Cutter and nose radius compensation as moves. Of a cutter the position is the tool centre; of a lathe tool it is the
 * imaginary tip, the point that the control shows: the path is offset at the nose centre and written at the tip.
 */

/** Whether moves are offset now: G41 or G42 with a known radius, where the program is the part edge. */
export function isCompensated(machine: Machine): boolean {
  const { v } = machine.state;
  return v[S.compensation] !== 40 && v[S.comp_radius] > 0 && v[S.lost] === 0;
}

/** Codes that a compensated path cannot go through: it is closed before them. */
const BREAKS: ReadonlySet<Effect> = new Set<Effect>([
  'compensation-off',
  'reference',
  'second-reference',
  'machine-coordinates',
  'set-position',
  'clamp-or-position',
  'work-offset',
  'extra-work-offset',
  'local-shift',
  'set-data',
  'tool-change',
  'plane',
  'drill-cycle',
  'probe',
  'end',
  'stop',
  'spline',
  'rotation-on',
  'rotation-off',
  'scaling-on',
  'scaling-off',
  'mirror-on',
  'mirror-off',
  'not-followed',
]);

/** Codes after which the programmed point is another one than the closed path ended at. */
const MOVES_POINT: ReadonlySet<Effect> = new Set<Effect>([
  'reference',
  'second-reference',
  'return-from-reference',
  'machine-coordinates',
  'work-offset',
  'extra-work-offset',
  'set-data',
]);

/** Forgets the programmed point of a closed path where a code of the block moved the axes or the work offset. */
export function forgetMovedPoint(machine: Machine, codes: BlockCodes): void {
  if (machine.state.pending !== null && codes.rows.some(row => MOVES_POINT.has(row.effect)))
    leavePath(machine);
}

/** Whether a block holds a code that closes a compensated path. */
export function breaksPath(codes: BlockCodes): boolean {
  return codes.rows.some(row => BREAKS.has(row.effect));
}

/** Sends what a compensated path still holds back. The programmed point stays known for the next block. */
export function closePath(machine: Machine): void {
  const { state } = machine;
  const open = state.pending;
  if (open instanceof OpenCorner) sendCorner(machine, open, undefined);
  dropSpline(machine);
  if (!(open instanceof OpenPath) || open.path === null) return;
  const path = finishCompensation(open.path, sinkOf(machine, open.plane, open.shift));
  stand(machine, open.plane, path.at, path.normal, open.shift);
  state.pending = new OpenPath(open.plane, null, open.x, open.y, open.z);
}

/**
 * Ends a compensated path before moves that are not compensated. An entry that was not begun goes straight to the
 * programmed point; after a path the position is where the tool stands.
 */
export function endPath(machine: Machine): void {
  const { state } = machine;
  const open = state.pending;
  if (open instanceof OpenPath && open.path?.entry !== undefined && open.path.plunges.length === 0) {
    const { segment } = open.path.entry;
    new PathSink(machine, open.plane).line(segment.end, segment.normal, segment.tag);
    [state.v[S.x], state.v[S.y], state.v[S.z]] = [open.x, open.y, open.z];
  } else {
    closePath(machine);
  }
  state.pending = null;
}

/** Forgets the programmed point: an uncompensated move has read it. */
export function leavePath(machine: Machine): void {
  machine.state.pending = null;
}

const target = new Target();

/** One move of G0 to G3 under compensation. */
export function compensatedMove(machine: Machine, block: Block, motion: number): void {
  const { state } = machine;
  const { v } = state;
  const plane = planeOf(v);
  if (state.pending instanceof OpenCorner) closePath(machine);
  if (block.comma_c >= 0 || block.comma_r >= 0) {
    machine.problem('not-followed', 0, block.length, 'a corner word under compensation is not followed');
  }
  readTarget(machine, block, target);
  const lost = motion === 10 ? turnByAngle(machine, block, target) : 0;
  if (lost !== 0) {
    endPath(machine);
    machine.forget(lost);
    return;
  }
  const old = state.pending instanceof OpenPath ? state.pending : null;
  const from = old ?? { x: v[S.x], y: v[S.y], z: v[S.z] };
  const turn = motion >= 20 ? arcOfBlock(machine, block, motion === 20, from, target) : undefined;
  const { first, second, normal } = PLANE_AXES[plane];
  const radius = v[S.comp_radius];
  const shift = plane === 'zx' ? (tipShift(v[S.comp_tip], radius) ?? null) : null;
  const path =
    old?.path ?? startPath({ first: from[first], second: from[second] }, from[normal], machine, shift);
  const tag: PathTag = {
    line: machine.line,
    length: block.length,
    kind: motion === 0 ? KIND.rapid : KIND.feed,
    flags: machine.flags,
    run: machine.runValues(),
  };
  const segment: Segment<PathTag> = {
    start: { first: from[first], second: from[second] },
    end: { first: target[first], second: target[second] },
    normal: target[normal],
    tag,
    ...(turn === undefined
      ? {}
      : {
          arc: {
            centre: { first: turn.centre_first, second: turn.centre_second },
            sweep_rad: turn.sweep_rad,
          },
        }),
  };
  const common = shift === null ? COMPENSATION_RULES.common : COMPENSATION_RULES.turning;
  const rules = machine.report ? COMPENSATION_RULES.successor : common;
  const left = (v[S.compensation] === 41) !== turnsOver(v, v[S.plane]);
  const offset = { side: left ? 1 : -1, radius_mm: radius } as const;
  const next = pushSegment<PathTag>(path, segment, offset, rules, sinkOf(machine, plane, shift));
  stand(machine, plane, next.at, next.normal, shift);
  state.pending = new OpenPath(plane, next, target.x, target.y, target.z, shift);
}

function startPath(
  at: Flat,
  normal: number,
  machine: Machine,
  shift: Flat | null,
): CompensationState<PathTag> {
  return shift === null
    ? startCompensation<PathTag>(at, normal)
    : startNoseCompensation<PathTag>(at, normal, shift, machine.report);
}

function sinkOf(machine: Machine, plane: Plane, shift: Flat | null): CompensationSink<PathTag> {
  const sink = new PathSink(machine, plane);
  return shift === null ? sink : tipSink(sink, shift);
}

/** The tool centre, or the tip of a lathe tool, after the moves sent. */
function stand(machine: Machine, plane: Plane, at: Flat, normal: number, shift: Flat | null): void {
  const { v } = machine.state;
  const point = pointInPlane(plane, at.first + (shift?.first ?? 0), at.second + (shift?.second ?? 0), normal);
  v[S.x] = point.x;
  v[S.y] = point.y;
  v[S.z] = point.z;
}

/** Writes a path to the table, each move with the line and state of its block. */
class PathSink implements CompensationSink<PathTag> {
  constructor(
    private readonly machine: Machine,
    private readonly plane: Plane,
  ) {}

  line(to: Flat, normal: number, tag: PathTag): void {
    this.add(tag.kind, STEP_FLAG.compensated, to, normal, tag, -1);
  }

  arc(
    to: Flat,
    normal: number,
    turn: { centre: Flat; sweep_rad: number },
    tag: PathTag,
    corner: boolean,
  ): void {
    const aux = this.machine.table.addArc(turn.centre.first, turn.centre.second, turn.sweep_rad);
    const flags = STEP_FLAG.compensated | (corner ? STEP_FLAG.corner : 0);
    this.add(KIND.arc, flags, to, normal, tag, aux);
  }

  problem(problem: { code: string; message: string; tag: PathTag }): void {
    const { line, length } = problem.tag;
    this.machine.problems.push({ code: problem.code, line, start: 0, end: length, message: problem.message });
  }

  private add(kind: number, flags: number, to: Flat, normal: number, tag: PathTag, aux: number): void {
    const { table } = this.machine;
    const at = pointInPlane(this.plane, to.first, to.second, normal);
    table.add(tag.line, kind, tag.flags | flags, table.runOf(tag.run), at.x, at.y, at.z, aux);
    if (tag.run[RUN.feed_mode] === 93 && kind !== KIND.rapid && tag.run[RUN.feed] > 0) {
      table.seconds.set(table.count - 1, 60 / tag.run[RUN.feed]);
    }
  }
}
