import { StepRecorder } from '../rs274/step-recorder.ts';
import { ARC_WIDTH, KIND, RUN_WIDTH, type StepTable } from '../rs274/steps.ts';

/** A step of a table, and the line that the table's lines are counted from. */
export interface StepRef {
  readonly table: StepTable;
  readonly index: number;
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

/** Ends of one stretch. */
export class TableEnds implements Ends {
  constructor(private readonly table: StepTable) {}

  get count(): number {
    return this.table.count;
  }

  lead(by: number): readonly StepRef[] {
    return this.steps(0, Math.min(REACH, this.table.count), by);
  }

  trail(by: number): readonly StepRef[] {
    return this.steps(Math.max(0, this.table.count - REACH), this.table.count, by);
  }

  private steps(from: number, to: number, by: number): StepRef[] {
    const refs: StepRef[] = [];
    for (let index = from; index < to; index++) refs.push({ table: this.table, index, by });
    return refs;
  }
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

function copyTo(to: StepRecorder, { table, index, by }: StepRef): void {
  const { x, y, z } = table;
  const kind = table.kind[index];
  const run = table.run[index] * RUN_WIDTH;
  const row = to.runOf(table.runs.subarray(run, run + RUN_WIDTH));
  const arc = kind === KIND.arc ? table.aux[index] * ARC_WIDTH : -1;
  const { arcs } = table;
  const aux = arc < 0 ? -1 : to.addArc(arcs[arc], arcs[arc + 1], arcs[arc + 2]);
  to.add(table.line[index] + by, kind, table.flags[index], row, x[index], y[index], z[index], aux);
}

function moved(steps: readonly StepRef[], by: number): readonly StepRef[] {
  return by === 0 ? steps : steps.map(step => ({ ...step, by: step.by + by }));
}
