import {
  angleBetween,
  cross,
  distance,
  dot,
  type Element,
  type Flat,
  type Offset,
  offsetSegment,
  POINT_RADIUS_MM,
  type Segment,
} from './element.ts';
import { type EntryStyle, entryArc, entryLine, squareEntry } from './entry.ts';
import { insideCorner, sweepLeft } from './intersect.ts';

/** Where the offset path goes. `corner` marks an arc that compensation put in at an outside corner. */
export interface CompensationSink<T> {
  line(to: Flat, normal: number, tag: T): void;
  arc(
    to: Flat,
    normal: number,
    turn: { readonly centre: Flat; readonly sweep_rad: number },
    tag: T,
    corner: boolean,
  ): void;
  problem(problem: CompensationProblem<T>): void;
}

export type CompensationProblemCode =
  | 'comp-entry-short'
  | 'comp-entry-arc'
  | 'comp-inside-corner'
  | 'comp-concave-corner'
  | 'comp-arc-too-small'
  | 'comp-plane-change';

/** `before` is the tag of the move whose end cannot be reached, when two moves have part in it. */
export interface CompensationProblem<T> {
  readonly code: CompensationProblemCode;
  readonly message: string;
  readonly tag: T;
  readonly before?: T;
}

/** What differs between controls. */
export interface CompensationRules {
  readonly entry: EntryStyle;
  /** An arc may be the first move after G41 or G42. */
  readonly arc_entry: boolean;
  /** Inside corners are cut at the crossing of the offsets; else they are an error of the control. */
  readonly inside_corners: boolean;
  /** An inside arc of the tool's own radius is allowed: the tool turns on the spot. */
  readonly equal_radius: boolean;
  /** Corners that turn by less get no arc. */
  readonly straight_through_rad: number;
  /** Outside corners that turn by no more than this are cut where the offsets, made longer, meet; sharper ones get an arc. */
  readonly extended_rad: number;
}

const QUARTER_TURN = Math.PI / 2 + 1e-6;

/**
 * Rules by reader: report = NISTIR 6556 (tangent entry, no inside corners, arcs must be larger than the tool), successor = the
 * open machine controller after it, common = the other controls, turning = their lathes, where the tip stays on the programmed corner. From memory; common
 * and turning: common practice, no source.
 */
export const COMPENSATION_RULES = {
  report: {
    entry: 'tangent-circle',
    arc_entry: true,
    inside_corners: false,
    equal_radius: false,
    straight_through_rad: 0.05,
    extended_rad: 0,
  },
  successor: {
    entry: 'square-to-entry',
    arc_entry: true,
    inside_corners: true,
    equal_radius: false,
    straight_through_rad: 0.05,
    extended_rad: 0,
  },
  common: {
    entry: 'square-to-next',
    arc_entry: false,
    inside_corners: true,
    equal_radius: true,
    straight_through_rad: 1e-4,
    extended_rad: 0,
  },
  turning: {
    entry: 'square-to-next',
    arc_entry: false,
    inside_corners: true,
    equal_radius: true,
    straight_through_rad: 1e-4,
    extended_rad: QUARTER_TURN,
  },
} as const satisfies Record<string, CompensationRules>;

/** The open end of a compensated path: plain data, small, safe to copy and compare. */
export interface CompensationState<T> {
  /** Tool centre after the last move sent. */
  readonly at: Flat;
  readonly normal: number;
  /** True until the first move in the plane. */
  readonly entering: boolean;
  /** Where the entry move is measured from, when that is not the tool centre. */
  readonly entry_from?: Flat;
  /** An entry whose end waits for the direction of the next move (square-to-next). */
  readonly entry?: { readonly segment: Segment<T>; readonly offset: Offset };
  /** The last move, whose end depends on the next one. */
  readonly pending?: Element<T>;
  /** Tool-axis moves made at the end of `pending`. */
  readonly plunges: readonly { readonly normal: number; readonly tag: T }[];
}

/** Tool-axis moves kept before the corner is closed without the next move. */
export const MOST_PLUNGES = 16;

/** State right after G41 or G42: `at` is where the tool stands. */
export function startCompensation<T>(at: Flat, normal: number): CompensationState<T> {
  return { at, normal, entering: true, plunges: [] };
}

/**
 * Takes the next programmed move and sends all moves that are now certain.
 * Outside corner: arc of the tool radius around the corner, with the tag of the move before it, or both offsets made longer
 * until they meet. Inside corner: both
 * moves end at the crossing of their offsets. Where the tool does not fit a problem is sent and the path stays connected.
 * Source: NISTIR 6556 appendix on cutter compensation (from memory); inside corners: common practice, no source.
 */
export function pushSegment<T>(
  state: CompensationState<T>,
  segment: Segment<T>,
  offset: Offset,
  rules: CompensationRules,
  sink: CompensationSink<T>,
): CompensationState<T> {
  const still = segment.arc === undefined && distance(segment.start, segment.end) < 1e-9;
  if (still) return plunge(state, segment, sink);
  if (state.entering && state.entry === undefined) return enter(state, segment, offset, rules, sink);

  let open = state;
  if (state.entry !== undefined) {
    const target = offsetSegment(segment, offset).start;
    sink.line(target, state.entry.segment.normal, state.entry.segment.tag);
    open = sendPlunges(
      { ...state, at: target, normal: state.entry.segment.normal, entry: undefined },
      target,
      sink,
    );
  }
  const next = offsetSegment(segment, offset);
  checkArc(segment, next, offset, rules, sink);
  if (open.pending === undefined) return { ...open, entering: false, pending: { ...next, begin: open.at } };
  return join(open, open.pending, next, rules, sink);
}

/** Closes the path at G40, at a change of plane or at the end: the last move ends square to itself, sideways by the radius. */
export function finishCompensation<T>(
  state: CompensationState<T>,
  sink: CompensationSink<T>,
): CompensationState<T> {
  let closed = state;
  if (state.entry !== undefined) {
    const element = squareEntry(state.entry.segment, state.entry.offset);
    closed = { ...state, entry: undefined, pending: element };
  }
  if (closed.pending === undefined) return closed;
  const end = closed.pending.end;
  return { ...sendPending(closed, closed.pending, end, sink), pending: undefined };
}

function plunge<T>(
  state: CompensationState<T>,
  segment: Segment<T>,
  sink: CompensationSink<T>,
): CompensationState<T> {
  const move = { normal: segment.normal, tag: segment.tag };
  if (state.pending === undefined && state.entry === undefined) {
    sink.line(state.at, move.normal, move.tag);
    return { ...state, normal: move.normal };
  }
  const waiting = { ...state, plunges: [...state.plunges, move] };
  if (waiting.plunges.length < MOST_PLUNGES) return waiting;
  return { ...finishCompensation(waiting, sink), entering: false };
}

function enter<T>(
  state: CompensationState<T>,
  segment: Segment<T>,
  offset: Offset,
  rules: CompensationRules,
  sink: CompensationSink<T>,
): CompensationState<T> {
  const at = state.entry_from ?? state.at;
  if (segment.arc !== undefined) {
    const target = offsetSegment(segment, offset);
    if (!rules.arc_entry) {
      sink.problem({
        code: 'comp-entry-arc',
        message: 'compensation cannot begin on an arc',
        tag: segment.tag,
      });
    }
    const element = entryArc(at, target);
    const pending = element ?? { ...target, kind: 'jump' as const, begin: state.at };
    if (element === undefined) sink.problem(shortEntry(segment.tag));
    return { ...state, entering: false, pending };
  }
  const unknown = Number.isNaN(at.first + at.second);
  if (rules.entry === 'square-to-next' || unknown) return { ...state, entry: { segment, offset } };
  const element = entryLine(at, segment, offset, rules.entry);
  if (element === undefined) sink.problem(shortEntry(segment.tag));
  const pending = element ?? squareEntry({ ...segment, start: at }, offset);
  return { ...state, entering: false, pending };
}

function shortEntry<T>(tag: T): CompensationProblem<T> {
  return { code: 'comp-entry-short', message: 'the entry move is not longer than the tool radius', tag };
}

function checkArc<T>(
  segment: Segment<T>,
  element: Element<T>,
  offset: Offset,
  rules: CompensationRules,
  sink: CompensationSink<T>,
): void {
  const { arc } = segment;
  if (arc === undefined || Math.sign(arc.sweep_rad) !== offset.side) return;
  const equal = element.kind === 'arc' && element.radius_mm <= POINT_RADIUS_MM;
  if (element.kind !== 'jump' && (!equal || rules.equal_radius)) return;
  const radius = distance(segment.start, arc.centre).toFixed(3);
  const message = `inside arc of radius ${radius} mm, tool radius ${offset.radius_mm.toFixed(3)} mm: the tool does not fit`;
  sink.problem({ code: 'comp-arc-too-small', message, tag: segment.tag });
}

function join<T>(
  state: CompensationState<T>,
  before: Element<T>,
  after: Element<T>,
  rules: CompensationRules,
  sink: CompensationSink<T>,
): CompensationState<T> {
  const { side } = after;
  const turned = Math.atan2(cross(before.out, after.into), dot(before.out, after.into));
  const changed = before.side !== side || before.offset_mm !== after.offset_mm;
  const through = changed || after.offset_mm === 0 || Math.abs(turned) <= rules.straight_through_rad;
  const reversal = Math.PI - Math.abs(turned) < 1e-9;
  if (through) {
    const open = sendPending(state, before, before.end, sink);
    return { ...open, pending: { ...after, begin: open.at } };
  }
  if (turned * side > 0 && !reversal) {
    if (!rules.inside_corners) {
      sink.problem({
        code: 'comp-concave-corner',
        message: 'an inside corner needs an arc larger than the tool on this control',
        tag: after.tag,
        before: before.tag,
      });
    }
    const crossing = insideCorner(before, after);
    if (crossing !== undefined) {
      return { ...sendPending(state, before, crossing, sink), pending: { ...after, begin: crossing } };
    }
    if (before.kind !== 'jump' && after.kind !== 'jump') {
      sink.problem({
        code: 'comp-inside-corner',
        message: 'the tool does not fit into the inside corner and cuts into the part',
        tag: after.tag,
        before: before.tag,
      });
    }
    const open = sendPending(state, before, before.end, sink);
    if (distance(open.at, after.start) > 1e-9) sink.line(after.start, open.normal, before.tag);
    return { ...open, at: after.start, pending: after };
  }
  if (Math.abs(turned) <= rules.extended_rad) return extend(state, before, after, Math.abs(turned), sink);
  const open = sendPending(state, before, before.end, sink);
  const centre = before.vertex;
  const sweep_rad = -side * Math.abs(reversal ? Math.PI : angleBetween(centre, before.end, after.start));
  sink.arc(after.start, open.normal, { centre, sweep_rad }, before.tag, true);
  return { ...open, at: after.start, pending: after };
}

/** Outside corner at the point where both offsets, made longer along their tangents, meet. */
function extend<T>(
  state: CompensationState<T>,
  before: Element<T>,
  after: Element<T>,
  turned_rad: number,
  sink: CompensationSink<T>,
): CompensationState<T> {
  const more = before.offset_mm * Math.tan(turned_rad / 2);
  const meet = {
    first: before.end.first + more * before.out.first,
    second: before.end.second + more * before.out.second,
  };
  const open = sendPending(state, before, before.kind === 'line' ? meet : before.end, sink);
  if (before.kind !== 'line') sink.line(meet, open.normal, before.tag);
  if (after.kind === 'line') return { ...open, at: meet, pending: { ...after, begin: meet } };
  sink.line(after.start, open.normal, before.tag);
  return { ...open, at: after.start, pending: after };
}

/** Sends the open move up to `end` and the tool-axis moves that wait there. */
function sendPending<T>(
  state: CompensationState<T>,
  element: Element<T>,
  end: Flat,
  sink: CompensationSink<T>,
): CompensationState<T> {
  if (element.kind !== 'arc' || element.radius_mm < POINT_RADIUS_MM) {
    const moves = !(distance(state.at, end) < 1e-9) || element.normal !== state.normal;
    if (moves) sink.line(end, element.normal, element.tag);
  } else {
    const sweep_rad = sweepLeft(element, element.begin, end);
    sink.arc(end, element.normal, { centre: element.centre, sweep_rad }, element.tag, false);
  }
  return sendPlunges({ ...state, at: end, normal: element.normal }, end, sink);
}

function sendPlunges<T>(
  state: CompensationState<T>,
  at: Flat,
  sink: CompensationSink<T>,
): CompensationState<T> {
  for (const move of state.plunges) sink.line(at, move.normal, move.tag);
  const normal = state.plunges.at(-1)?.normal ?? state.normal;
  return { ...state, normal, plunges: [] };
}
