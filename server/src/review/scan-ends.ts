import { StepRecorder } from '../rs274/step-recorder.ts';
import { ARC_WIDTH, KIND, RUN_WIDTH, type StepTable } from '../rs274/steps.ts';

/** A step copied from a table, and the line that the table's lines are counted from. */
export interface StepRef {
  readonly values: Float64Array;
  /** Index of its first value. */
  readonly at: number;
  readonly runs: Float64Array;
  readonly by: number;
}

/** The first and the last steps of a piece of a program: what stands there may belong with its neighbours. */
export interface Ends {
  /** Steps of the piece. */
  readonly count: number;
  lead(by: number): readonly StepRef[];
  trail(by: number): readonly StepRef[];
}

/** So many steps at each end: a mark looks at two before it and one after. */
export const REACH = 3;

/** Values of a step: line, kind, flags, run, end point, and the arc's where it is one. */
const WIDTH = 10;

/** Ends of one stretch, copied out of its table while that is at hand. `runs` are the table's, to be held on to. */
export class TableEnds implements Ends {
  readonly count: number;
  private readonly values: Float64Array;

  constructor(
    table: StepTable,
    private readonly runs: Float64Array,
  ) {
    const { count } = table;
    this.count = count;
    const copied = Math.min(count, 2 * REACH);
    this.values = new Float64Array(WIDTH * copied);
    for (let i = 0; i < copied; i++)
      copyStep(table, i < REACH ? i : count - copied + i, this.values, i * WIDTH);
  }

  lead(by: number): readonly StepRef[] {
    return this.steps(0, Math.min(REACH, this.count), by);
  }

  trail(by: number): readonly StepRef[] {
    const copied = this.values.length / WIDTH;
    return this.steps(Math.max(0, copied - REACH), copied, by);
  }

  private steps(from: number, to: number, by: number): StepRef[] {
    const { values, runs } = this;
    const refs: StepRef[] = [];
    for (let i = from; i < to; i++) refs.push({ values, at: i * WIDTH, runs, by });
    return refs;
  }
}

function copyStep(table: StepTable, index: number, to: Float64Array, at: number): void {
  const kind = table.kind[index];
  to[at] = table.line[index];
  to[at + 1] = kind;
  to[at + 2] = table.flags[index];
  to[at + 3] = table.run[index];
  to[at + 4] = table.x[index];
  to[at + 5] = table.y[index];
  to[at + 6] = table.z[index];
  if (kind !== KIND.arc) return;
  const arc = table.aux[index] * ARC_WIDTH;
  for (let i = 0; i < ARC_WIDTH; i++) to[at + 7 + i] = table.arcs[arc + i];
}

/** Ends of several pieces together. */
export class JoinedEnds implements Ends {
  constructor(
    readonly count: number,
    private readonly first: readonly StepRef[],
    private readonly last: readonly StepRef[],
  ) {}

  lead(by: number): readonly StepRef[] {
    return moved(this.first, by);
  }

  trail(by: number): readonly StepRef[] {
    return moved(this.last, by);
  }
}

/** The first steps of some that stand in order. */
export function firstOf(steps: readonly StepRef[], more: readonly StepRef[]): readonly StepRef[] {
  return steps.length >= REACH ? steps : [...steps, ...more].slice(0, REACH);
}

/** The last steps of some that stand in order. */
export function lastOf(steps: readonly StepRef[], more: readonly StepRef[]): readonly StepRef[] {
  return more.length >= REACH ? more : [...steps, ...more].slice(-REACH);
}

const across = new StepRecorder(2 * REACH);

/**
 * Calls `look` for the steps at a border that nobody could judge before, because they look across it: with a small table
 * of the steps around it, the step's place there, and its line.
 */
export function lookAcross(
  trail: readonly StepRef[],
  lead: readonly StepRef[],
  look: (table: StepTable, index: number, line: number) => void,
): void {
  across.clear();
  for (const step of trail) copyTo(across, step);
  for (const step of lead) copyTo(across, step);
  for (let i = Math.max(2, trail.length - 1); i < trail.length + 2 && i + 1 < across.count; i++)
    look(across, i, across.line[i]);
}

function copyTo(to: StepRecorder, { values, at, runs, by }: StepRef): void {
  const [line, kind, flags, run, x, y, z, first, second, sweep] = values.subarray(at, at + WIDTH);
  const row = to.runOf(runs.subarray(run * RUN_WIDTH, (run + 1) * RUN_WIDTH));
  const aux = kind === KIND.arc ? to.addArc(first, second, sweep) : -1;
  to.add(line + by, kind, flags, row, x, y, z, aux);
}

function moved(steps: readonly StepRef[], by: number): readonly StepRef[] {
  return by === 0 ? steps : steps.map(step => ({ ...step, by: step.by + by }));
}
