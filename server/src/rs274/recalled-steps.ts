import type { PackedSteps } from './packed-steps.ts';
import type { Column, StepTable } from './steps.ts';
import { ViewedSteps } from './viewed-steps.ts';

/**
 * The steps of a stretch that are not kept: they follow from its text and the state it begins in, and are made again when
 * somebody looks. Of a long program few are ever looked at; the tables looked at last keep theirs.
 */
export class RecalledSteps extends ViewedSteps implements StepTable {
  readonly count: number;
  readonly runCount: number;
  readonly arcCount: number;
  readonly rotaryCount: number;
  private held: PackedSteps | null = null;

  constructor(
    steps: StepTable,
    readonly runs: Float64Array,
    private readonly recall: () => PackedSteps,
  ) {
    super();
    this.count = steps.count;
    this.runCount = steps.runCount;
    this.arcCount = steps.arcCount;
    this.rotaryCount = steps.rotaryCount;
  }

  get rotary(): Column | null {
    return this.look().rotary;
  }

  get rotaries(): Float64Array {
    return this.look().rotaries;
  }

  get seconds(): ReadonlyMap<number, number> {
    return this.look().seconds;
  }

  get files(): ReadonlyMap<number, string> {
    return this.look().files;
  }

  /** Takes the steps over while they are at hand: somebody is likely to look soon. */
  hold(steps: PackedSteps): void {
    const oldest = looked[looked_next]?.deref();
    if (oldest !== undefined) oldest.held = null;
    looked[looked_next] = new WeakRef(this);
    looked_next = (looked_next + 1) % MOST_LOOKED;
    this.held = steps;
  }

  protected look(): PackedSteps {
    if (this.held === null) this.hold(this.recall());
    return this.held as unknown as PackedSteps;
  }
}

/** So many tables keep their steps: about three megabytes. */
const MOST_LOOKED = 64;
const looked: WeakRef<RecalledSteps>[] = [];
let looked_next = 0;
