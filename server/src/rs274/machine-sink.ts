import type { Block } from './block.ts';
import type { ArcTurn, CycleAssumption, CycleProblem, CycleSink, SpindleChange } from './cycles/emit.ts';
import type { Point } from './geometry/plane.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { KIND, STEP_FLAG } from './steps.ts';

/** Feed and speed of one block of a finishing profile. */
export interface SegmentData {
  readonly feed: number;
  readonly spindle: number;
  /** Flags of the step, beside that of the cycle. */
  readonly flags: number;
}

/** Writes the moves of a cycle to a machine's table. */
export class MachineSink implements CycleSink {
  constructor(
    private readonly machine: Machine,
    /** Feed and speed by segment, where the moves of a profile keep their own. */
    private readonly segments: readonly SegmentData[] = [],
  ) {}

  rapid(to: Point, segment?: number): void {
    this.go(to, segment);
    this.machine.step(KIND.rapid, this.flags(segment));
  }

  feed(to: Point, segment?: number): void {
    this.go(to, segment);
    this.machine.step(KIND.feed, this.flags(segment));
  }

  arc(to: Point, turn: ArcTurn, segment?: number): void {
    const aux = this.machine.table.addArc(turn.centre_first, turn.centre_second, turn.sweep_rad);
    this.go(to, segment);
    this.machine.step(KIND.arc, this.flags(segment), aux);
  }

  thread(to: Point, lead_mm: number): void {
    this.go(to);
    this.machine.step(KIND.thread, STEP_FLAG.cycle | STEP_FLAG.locked, -1, lead_mm);
  }

  tap(to: Point, lead_mm: number): void {
    this.go(to);
    this.machine.step(KIND.tap, STEP_FLAG.cycle | STEP_FLAG.locked, -1, lead_mm);
  }

  dwell(seconds: number): void {
    const step = this.machine.step(KIND.dwell, STEP_FLAG.cycle);
    this.machine.table.seconds.set(step, seconds);
  }

  spindle(_change: SpindleChange): void {
    // The spindle is back in its old state when the cycle ends; the state in force is kept throughout.
  }

  stop(): void {
    this.machine.step(KIND.stop, STEP_FLAG.cycle);
  }

  private flags(segment?: number): number {
    return STEP_FLAG.cycle | (segment === undefined ? 0 : (this.segments[segment]?.flags ?? 0));
  }

  private go(to: Point, segment?: number): void {
    const { v } = this.machine.state;
    v[S.x] = to.x;
    v[S.y] = to.y;
    v[S.z] = to.z;
    if (segment === undefined || segment >= this.segments.length) return;
    v[S.feed] = this.segments[segment].feed;
    v[S.spindle] = this.segments[segment].spindle;
  }
}

/** Takes over what a cycle has to say. */
export function report(
  machine: Machine,
  block: Pick<Block, 'length'>,
  result: { readonly problems: readonly CycleProblem[]; readonly assumptions: readonly CycleAssumption[] },
): void {
  for (const problem of result.problems) machine.problem(problem.code, 0, block.length, problem.message);
  for (const assumed of result.assumptions) machine.assume(assumed.code, assumed.message);
}
