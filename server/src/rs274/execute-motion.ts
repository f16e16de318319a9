import { turnByAngle } from './angle-line.ts';
import { arcOfBlock } from './arc-words.ts';
import { type Block, L } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import { cornerOf, OpenCorner, sendCorner } from './corner.ts';
import { closePath, compensatedMove, endPath, isCompensated, leavePath } from './execute-compensation.ts';
import { executeMillCycle } from './execute-cycles.ts';
import { executeLatheCycle, executeLatheMode, isLatheCycle } from './execute-lathe-cycles.ts';
import { closeSpline, collectSpline, dropSpline } from './execute-nurbs.ts';
import { executeSpline } from './execute-spline.ts';
import { executeThread } from './execute-thread.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { KIND } from './steps.ts';
import { arrive, namesAxes, readTarget, Target } from './targets.ts';

const target = new Target();

/** The motion of a block: the code in it or the one in force, with its axis words. */
export function executeMotion(machine: Machine, block: Block, codes: BlockCodes, words_used: boolean): void {
  const { v } = machine.state;
  const at = motionCode(codes);
  const row = at < 0 ? undefined : codes.rows[at];
  if (row !== undefined) {
    const code = Math.round(row.number * 10);
    if (row.effect === 'cycle-cancel') {
      endCycle(machine);
      // Cycles and lines are groups of their own on word-address controls (common practice, no source).
      if (machine.report) v[S.motion] = Number.NaN;
      else if (v[S.motion] >= FIRST_CYCLE) v[S.motion] = v[S.motion_before];
    } else if (row.modal && row.group === 'motion') {
      if (code !== v[S.motion]) v.fill(Number.NaN, S.spline_i, S.spline_j + 1);
      if (code !== v[S.motion] && !(isHole(code) && isHole(v[S.motion]))) endCycle(machine);
      if (code >= FIRST_CYCLE && !(v[S.motion] >= FIRST_CYCLE))
        v[S.motion_before] = v[S.motion] > 10 ? Number.NaN : v[S.motion];
      v[S.motion] = code;
    }
  }
  if (row?.effect === 'spline-list-end') {
    closeSpline(machine, block);
    return;
  }
  if (v[S.motion] !== 52 && machine.state.pending !== null) dropSpline(machine);
  if (words_used) return;
  if (v[S.motion] === 52 && v[S.lost] === 0 && (row !== undefined || namesAxes(block))) {
    if (row !== undefined) endPath(machine);
    collectSpline(machine, block, row !== undefined);
    return;
  }
  for (let i = 0; i < codes.rows.length; i += 1) {
    if (isLatheCycle(codes.rows[i].effect)) {
      endPath(machine);
      executeLatheCycle(machine, block, codes.rows[i]);
      return;
    }
  }
  if (leavesPositionUnknown(codes)) {
    machine.lose();
    return;
  }
  if (codes.has('machine-coordinates')) return;
  const motion = v[S.motion];
  const drilling = isHole(motion) && (row !== undefined || namesAxes(block));
  if (!drilling && !namesAxes(block) && !(row !== undefined && (motion === 20 || motion === 30))) {
    const bare_arc = (motion === 20 || motion === 30) && (block.has(L.I) || block.has(L.J) || block.has(L.K));
    if (!bare_arc) return;
  }
  if (v[S.lost] !== 0) {
    machine.lose();
    return;
  }
  move(machine, block, motion, row?.effect === 'probe' || codes.has('probe'));
}

function move(machine: Machine, block: Block, motion: number, probing: boolean): void {
  const { v } = machine.state;
  // In inverse time F belongs to its block: the next one needs its own (NISTIR 6556 section 3.5.19, from memory).
  if (v[S.feed_mode] === 93 && motion >= 10 && motion <= 30 && !block.has(L.F)) v[S.feed] = Number.NaN;
  if (isCompensated(machine) && motion <= 30 && !probing) {
    compensatedMove(machine, block, motion);
    return;
  }
  const plain = motion <= 30 && !probing;
  if (!plain) endPath(machine);
  else if (!(machine.state.pending instanceof OpenCorner && motion <= 10)) closePath(machine);
  if (probing || (motion >= 382 && motion <= 385)) {
    probe(machine, block);
    return;
  }
  if (isHole(motion)) {
    executeMillCycle(machine, block, motion);
    return;
  }
  switch (motion) {
    case 0:
      line(machine, block, KIND.rapid);
      break;
    case 10:
      line(machine, block, KIND.feed);
      break;
    case 20:
    case 30:
      arc(machine, block, motion === 20);
      break;
    case 50:
    case 51:
      executeSpline(machine, block, motion === 50);
      break;
    case 320:
    case 330:
    case 331:
    case 340:
      executeThread(machine, block, motion);
      break;
    default:
      if (!executeLatheMode(machine, block, motion)) unmoved(machine, block, motion);
  }
}

function unmoved(machine: Machine, block: Block, motion: number): void {
  readTarget(machine, block, target);
  const { v } = machine.state;
  if (Number.isNaN(motion) && (machine.report || v[S.motion_told] === 0)) {
    v[S.motion_told] = 1;
    machine.problem('no-motion-code', 0, block.length, 'axis words, but no motion code is in force');
  }
  machine.forget(target.named);
}

function motionCode(codes: BlockCodes): number {
  let cancel = -1;
  for (let i = codes.rows.length - 1; i >= 0; i -= 1) {
    if (codes.rows[i].group !== 'motion') continue;
    if (codes.rows[i].effect !== 'cycle-cancel') return i;
    cancel = i;
  }
  return cancel;
}

function leavesPositionUnknown(codes: BlockCodes): boolean {
  for (const row of codes.rows) {
    if (row.effect === 'not-followed' && row.motion !== 'none') return true;
  }
  return false;
}

function isHole(motion: number): boolean {
  return HOLES.has(motion);
}

/** Codes of cycles begin here, times ten. */
const FIRST_CYCLE = 700;

/** Mill cycles by ten times their number; on lathes 83 to 89 only (front and side drilling). */
const HOLES: ReadonlySet<number> = new Set([
  730, 740, 760, 810, 820, 830, 840, 842, 843, 850, 860, 870, 880, 890,
]);

function endCycle(machine: Machine): void {
  const { v } = machine.state;
  v.fill(Number.NaN, S.cycle, S.cycle_k + 1);
  v.fill(Number.NaN, S.simple_x, S.simple_start_z + 1);
}

function line(machine: Machine, block: Block, kind: number): void {
  readTarget(machine, block, target);
  const lost = kind === KIND.feed ? turnByAngle(machine, block, target) : 0;
  if (lost !== 0) {
    closePath(machine);
    leavePath(machine);
    machine.forget(lost);
    return;
  }
  const { pending } = machine.state;
  if (pending instanceof OpenCorner) sendCorner(machine, pending, [target.x, target.y, target.z]);
  leavePath(machine);
  const corner = kind === KIND.feed ? cornerOf(machine, block) : undefined;
  if (corner !== undefined && target.others === 0) {
    holdCorner(machine, block, corner);
    return;
  }
  const turn_min = kind === KIND.feed && target.others !== 0 ? minutesWithoutXyz(machine) : Number.NaN;
  arrive(machine, target);
  const step = machine.step(kind);
  if (turn_min > 0) machine.table.seconds.set(step, 60 * turn_min);
  finish(machine, step, kind);
}

/**
 * Minutes of a move that leaves X Y Z where they are: F along U V W, else degrees a minute of A B C (NISTIR 6556 section
 * 2.1.2.5, from memory). NaN for other moves and where a start is not known.
 */
function minutesWithoutXyz(machine: Machine): number {
  const { v } = machine.state;
  if (v[S.feed_mode] !== 94) return Number.NaN;
  if (target.x !== v[S.x] || target.y !== v[S.y] || target.z !== v[S.z]) return Number.NaN;
  const along = (from: number, to: readonly number[]) =>
    Math.hypot(...to.map((value, i) => (Number.isNaN(value) ? 0 : value - v[from + i])));
  const straight = along(S.u, [target.u, target.v, target.w]);
  if (straight !== 0) return straight / v[S.feed];
  return (along(S.a, [target.a, target.b, target.c]) * machine.unit) / v[S.feed];
}

/** Keeps a line with a corner word until the next one is known; the tool stands where it is. */
function holdCorner(machine: Machine, block: Block, corner: { size_mm: number; round: boolean }): void {
  const { v } = machine.state;
  const tag = {
    line: machine.line,
    length: block.length,
    kind: KIND.feed,
    flags: machine.flags,
    run: machine.runValues(),
  };
  const { size_mm, round } = corner;
  machine.state.pending = new OpenCorner(v[S.plane], size_mm, round, target.x, target.y, target.z, tag);
}

function probe(machine: Machine, block: Block): void {
  readTarget(machine, block, target);
  arrive(machine, target);
  finish(machine, machine.step(KIND.probe), KIND.probe);
  machine.forget(target.linear);
}

/** Rotary end point and inverse time of a step just made. */
function finish(machine: Machine, step: number, kind: number): void {
  if (target.others !== 0) machine.rotaries(step);
  const { v } = machine.state;
  if (kind !== KIND.rapid && v[S.feed_mode] === 93 && v[S.feed] > 0)
    machine.table.seconds.set(step, 60 / v[S.feed]);
}

function arc(machine: Machine, block: Block, clockwise: boolean): void {
  const { v } = machine.state;
  readTarget(machine, block, target);
  leavePath(machine);
  const found = arcOfBlock(machine, block, clockwise, { x: v[S.x], y: v[S.y], z: v[S.z] }, target);
  arrive(machine, target);
  if (found === undefined) {
    finish(machine, machine.step(KIND.feed), KIND.feed);
    return;
  }
  const aux = machine.table.addArc(found.centre_first, found.centre_second, found.sweep_rad);
  finish(machine, machine.step(KIND.arc, 0, aux), KIND.arc);
}
