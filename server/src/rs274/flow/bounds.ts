import type { Machine } from '../machine.ts';

/** Bounds of a run; when one bites, the run ends with one finding. */
export interface FlowBounds {
  /** Blocks that may be executed. */
  blocks: number;
  /** Steps that may be made. */
  steps: number;
  /** Levels of calls. */
  depth: number;
  /** Asked from time to time: true when the time is up. */
  late?: () => boolean;
}

export const USUAL_BOUNDS: FlowBounds = { blocks: 1_000_000, steps: 1_000_000, depth: 20 };

/** Counts what a run has used of its bounds. */
export class Budget {
  private blocks = 0;

  constructor(
    private readonly bounds: FlowBounds,
    private readonly machine: Machine,
  ) {}

  /** Counts one block; gives the problem's code and message when a bound bites. */
  block(): readonly [code: string, message: string] | undefined {
    this.blocks += 1;
    const { bounds } = this;
    if (this.blocks > bounds.blocks) {
      return ['run-too-long', `More than ${bounds.blocks} blocks were executed; the review ends here.`];
    }
    if (this.machine.table.count > bounds.steps) {
      return ['run-too-long', `More than ${bounds.steps} moves were made; the review ends here.`];
    }
    if ((this.blocks & 1023) === 0 && bounds.late?.() === true) {
      return ['run-too-slow', 'The time for running this program is up; the review ends here.'];
    }
    return undefined;
  }
}
