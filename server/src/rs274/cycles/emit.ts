import type { Plane, Point } from '../geometry/plane.ts';

/** What a cycle does with the spindle. */
export type SpindleChange = 'stop' | 'start' | 'reverse' | 'orient';

/**
 * Where a cycle sends its moves. Positions are complete, in mm, lathe X as radius; NaN = not known.
 * `segment` is the index in the finishing profile of the block that a move belongs to, so that its own F and S count.
 */
export interface CycleSink {
  rapid(to: Point, segment?: number): void;
  feed(to: Point, segment?: number): void;
  /** Arc at feed; centre on the plane's first and second axis, sweep counter-clockwise positive about its normal. */
  arc(to: Point, turn: ArcTurn, segment?: number): void;
  /** Spindle-locked move along a thread; lead in mm a revolution, depth = radial depth below the crest. */
  thread(to: Point, lead_mm: number, depth_mm?: number): void;
  /** Spindle-locked move of a tap; lead NaN when feed or speed is not known. */
  tap(to: Point, lead_mm: number): void;
  dwell(seconds: number): void;
  spindle(change: SpindleChange): void;
  /** Program stop for the operator. */
  stop(): void;
}

/** The turning part of an arc move. */
export interface ArcTurn {
  readonly plane: Plane;
  readonly centre_first: number;
  readonly centre_second: number;
  readonly sweep_rad: number;
}

/** Something wrong in a cycle block. `error`: this kind of control stops here; `warning`: it goes on. */
export interface CycleProblem {
  readonly code: CycleProblemCode;
  readonly severity: 'error' | 'warning';
  readonly message: string;
}

export type CycleProblemCode =
  | 'cycle-word-missing'
  | 'cycle-word-negative'
  | 'cycle-r-below-z'
  | 'cycle-repeat-zero'
  | 'cycle-repeat-bad'
  | 'cycle-no-axis-word'
  | 'cycle-rotary-word'
  | 'cycle-inverse-time'
  | 'cycle-compensation-on'
  | 'cycle-spindle-off'
  | 'cycle-spindle-direction'
  | 'cycle-words-inherited'
  | 'cycle-position-unknown'
  | 'cycle-too-long'
  | 'cycle-profile-missing'
  | 'cycle-profile-not-monotone'
  | 'cycle-depth-bad';

/** A value or habit that is a parameter of the control and not in the program. */
export interface CycleAssumption {
  readonly code: string;
  readonly message: string;
  readonly value_mm?: number;
}

/** Collects what a cycle has to say. */
export class CycleNotes {
  readonly problems: CycleProblem[] = [];
  readonly assumptions: CycleAssumption[] = [];

  error(code: CycleProblemCode, message: string): void {
    this.problems.push({ code, severity: 'error', message });
  }

  warn(code: CycleProblemCode, message: string): void {
    this.problems.push({ code, severity: 'warning', message });
  }

  assume(code: string, message: string, value_mm?: number): void {
    if (this.assumptions.some(known => known.code === code)) return;
    this.assumptions.push(value_mm === undefined ? { code, message } : { code, message, value_mm });
  }
}

/** What became of a cycle block. */
export interface CycleResult {
  /** Where the tool stands. */
  readonly position: Point;
  /** False when no or not all moves could be worked out: the position after the block is not known. */
  readonly expanded: boolean;
  readonly problems: readonly CycleProblem[];
  readonly assumptions: readonly CycleAssumption[];
}

/** Runs `body` with a writer and gathers what it did. `body` returns false when it could not work out the moves. */
export function runCycle(
  sink: CycleSink,
  position: Point,
  body: (writer: CycleWriter, notes: CycleNotes) => boolean,
): CycleResult {
  const writer = new CycleWriter(sink, position);
  const notes = new CycleNotes();
  const understood = body(writer, notes);
  if (writer.spent)
    notes.error('cycle-too-long', 'the cycle makes too many moves; the rest was not followed');
  return {
    position: writer.position,
    expanded: understood && !writer.spent,
    problems: notes.problems,
    assumptions: notes.assumptions,
  };
}

/** Whether X and Z of the start of a lathe cycle are known; says so when not. */
export function startIsKnown(position: Point, notes: CycleNotes): boolean {
  if (!Number.isNaN(position.x + position.z)) return true;
  notes.error('cycle-position-unknown', 'the place where the cycle starts is not known');
  return false;
}

/** Moves that one cycle block may make. */
export const MOST_CYCLE_MOVES = 100_000;

/**
 * Tracks the position, leaves out moves of no length and stops after `limit` moves.
 * Cycles write through it; `spent` tells them to give up.
 */
export class CycleWriter {
  private left: number;

  constructor(
    private readonly sink: CycleSink,
    private at: Point,
    limit = MOST_CYCLE_MOVES,
  ) {
    this.left = limit;
  }

  get position(): Point {
    return this.at;
  }

  get spent(): boolean {
    return this.left <= 0;
  }

  rapid(to: Point, segment?: number): void {
    if (this.moves(to)) this.sink.rapid(to, segment);
  }

  feed(to: Point, segment?: number): void {
    if (this.moves(to)) this.sink.feed(to, segment);
  }

  arc(to: Point, turn: ArcTurn, segment?: number): void {
    if (this.spent) return;
    this.left -= 1;
    this.at = to;
    this.sink.arc(to, turn, segment);
  }

  thread(to: Point, lead_mm: number, depth_mm?: number): void {
    if (this.moves(to)) this.sink.thread(to, lead_mm, depth_mm);
  }

  tap(to: Point, lead_mm: number): void {
    if (this.moves(to)) this.sink.tap(to, lead_mm);
  }

  dwell(seconds: number): void {
    if (seconds > 0) this.sink.dwell(seconds);
  }

  spindle(change: SpindleChange): void {
    this.sink.spindle(change);
  }

  stop(): void {
    this.sink.stop();
  }

  private moves(to: Point): boolean {
    if (this.spent) return false;
    if (same(to.x, this.at.x) && same(to.y, this.at.y) && same(to.z, this.at.z)) return false;
    this.left -= 1;
    this.at = to;
    return true;
  }
}

/** Equal within rounding, or both unknown (an axis that the cycle leaves alone). */
function same(a: number, b: number): boolean {
  return Math.abs(a - b) < 1e-9 || (Number.isNaN(a) && Number.isNaN(b));
}
