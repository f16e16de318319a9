import { type Block, L } from './block.ts';
import { splineChords } from './geometry/nurbs.ts';
import type { Machine } from './machine.ts';
import { OpenSpline } from './open-spline.ts';
import { S } from './state.ts';
import { KIND } from './steps.ts';
import { AXIS, readTarget, Target } from './targets.ts';

/** How far the chords of a spline may stand off it, mm. */
const CHORD_MM = 0.001;
/** Control points that one list may have, and the highest order. */
const MOST_POINTS = 1000;
const MOST_ORDER = 20;

const target = new Target();

/**
 * G5.2 and the blocks after it: control points X Y with weight P (1 without); L is the order (3 without). The first point is
 * where the tool stands. Source: the report's successor, from memory.
 */
export function collectSpline(machine: Machine, block: Block, opens: boolean): void {
  const { state } = machine;
  const { v } = state;
  const open = state.pending instanceof OpenSpline ? state.pending : undefined;
  readTarget(machine, block, target);
  const weight = block.has(L.P) ? block.number(L.P) : 1;
  const placed = (target.named & (AXIS.x | AXIS.y)) !== 0;
  const other = (target.named & ~(AXIS.x | AXIS.y)) !== 0 || v[S.plane] !== 17;
  if (other || !(weight > 0) || (open?.points.length ?? 0) >= MOST_POINTS) {
    machine.problem(
      'not-followed',
      0,
      block.length,
      'a spline list is only followed in XY, with weights over 0',
    );
    state.pending = null;
    v[S.motion] = Number.NaN;
    machine.lose();
    return;
  }
  const order = opens && block.has(L.L) ? Math.round(block.number(L.L)) : (open?.order ?? 3);
  const first = { x: v[S.x], y: v[S.y], weight: opens && !placed ? weight : 1 };
  const points = open?.points ?? [first];
  const next = placed ? [...points, { x: target.x, y: target.y, weight }] : points;
  state.pending = new OpenSpline(next, order, v[S.z]);
}

/** G5.3: the moves along the list, as chords; all on the line of this block. */
export function closeSpline(machine: Machine, block: Block): void {
  const { state } = machine;
  const { v } = state;
  const open = state.pending;
  v[S.motion] = Number.NaN;
  if (!(open instanceof OpenSpline)) {
    machine.problem('spline-word-missing', 0, block.length, 'G5.3 closes a list that G5.2 has not opened');
    return;
  }
  state.pending = null;
  const { points, order } = open;
  const last = points[points.length - 1];
  if (order < 2 || order > MOST_ORDER || points.length < order) {
    const text = `a spline list of order ${order} needs at least as many points; it has ${points.length}`;
    machine.problem('spline-word-missing', 0, block.length, text);
    machine.lose();
    [v[S.x], v[S.y], v[S.z]] = [last.x, last.y, open.z];
    machine.place();
    return;
  }
  const known = !Number.isNaN(points[0].x + points[0].y);
  for (const at of known ? splineChords(points, order, CHORD_MM) : [last]) {
    [v[S.x], v[S.y]] = [at.x, at.y];
    machine.step(KIND.feed);
  }
  [v[S.x], v[S.y]] = [last.x, last.y];
}

/** A list that another motion, or the end, comes before G5.3 of: its moves are not made. */
export function dropSpline(machine: Machine): void {
  const { state } = machine;
  if (!(state.pending instanceof OpenSpline)) return;
  state.pending = null;
  machine.problem('spline-word-missing', 0, 0, 'the spline list before this is not closed by G5.3');
  machine.lose();
}
