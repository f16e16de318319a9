import { arcOfBlock, planeOf } from './arc-words.ts';
import type { Block } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import type { Effect } from './codes/shape.ts';
import type { Flat, Segment } from './compensation/element.ts';
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
import { PLANE_AXES, type Plane, pointInPlane } from './geometry/plane.ts';
import type { Machine } from './machine.ts';
import { OpenPath, type PathTag } from './open-path.ts';
import { S } from './state.ts';
import { KIND, RUN, STEP_FLAG } from './steps.ts';
import { readTarget, Target } from './targets.ts';

/** Whether moves are offset now: G41 or G42 on a mill whose program is the part edge, with a known tool. */
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

/** Whether a block holds a code that closes a compensated path. */
export function breaksPath(codes: BlockCodes): boolean {
  return codes.rows.some(row => BREAKS.has(row.effect));
}

/** Sends what a compensated path still holds back. The programmed point stays known for the next block. */
export function closePath(machine: Machine): void {
  const { state } = machine;
  const open = state.pending;
  if (open instanceof OpenCorner) sendCorner(machine, open, undefined);
  if (!(open instanceof OpenPath) || open.path === null) return;
  const path = finishCompensation(open.path, new PathSink(machine, open.plane));
  stand(machine, open.plane, path.at, path.normal);
  state.pending = new OpenPath(open.plane, null, open.x, open.y, open.z);
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
  const old = state.pending instanceof OpenPath ? state.pending : null;
  const from = old ?? { x: v[S.x], y: v[S.y], z: v[S.z] };
  const turn = motion >= 20 ? arcOfBlock(machine, block, motion === 20, from, target) : undefined;
  const { first, second, normal } = PLANE_AXES[plane];
  const path =
    old?.path ?? startCompensation<PathTag>({ first: from[first], second: from[second] }, from[normal]);
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
  const rules = machine.report ? COMPENSATION_RULES.successor : COMPENSATION_RULES.common;
  const left = (v[S.compensation] === 41) !== turnsOver(v, v[S.plane]);
  const offset = { side: left ? 1 : -1, radius_mm: v[S.comp_radius] } as const;
  const next = pushSegment<PathTag>(path, segment, offset, rules, new PathSink(machine, plane));
  stand(machine, plane, next.at, next.normal);
  state.pending = new OpenPath(plane, next, target.x, target.y, target.z);
}

/** The tool centre after the moves sent. */
function stand(machine: Machine, plane: Plane, at: Flat, normal: number): void {
  const { v } = machine.state;
  const point = pointInPlane(plane, at.first, at.second, normal);
  v[S.x] = point.x;
  v[S.y] = point.y;
  v[S.z] = point.z;
}

/** Writes the path of the tool centre to the table, each move with the line and state of its block. */
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

export type { CompensationState };
