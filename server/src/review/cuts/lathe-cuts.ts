import type { StepCursor } from '../../rs274/index.ts';
import type { Collision } from '../../stock/keep-out.ts';
import type { LatheFigures } from '../../stock/lathe-figures.ts';
import type { BarStock } from '../../stock/lathe-profile.ts';
import { LatheRun } from '../../stock/lathe-run.ts';
import type { Program } from '../program.ts';
import { latheCollisions, latheKeepOuts } from './lathe-collisions.ts';
import type { LathePlan } from './lathe-plan.ts';

/** Figures of the steps of a lathe program, as far as they are ready. */
export interface LatheCuts {
  readonly kind: 'lathe';
  readonly assumed: boolean;
  /** Why it is assumed, when not from the program's own cuts. */
  readonly assumed_why?: string;
  readonly left_out: readonly string[];
  /** The bar before the first cut. */
  readonly bar: BarStock;
  /** What a step met; undefined for steps that are not cut or not ready. */
  figures(step: StepCursor): LatheFigures | undefined;
  /** First contacts of a step with chuck, jaws, tailstock or steady rest. */
  collisions(step: StepCursor): readonly Collision[];
  /** Name of a keep-out box at the step's work offset. */
  keepOutName(step: StepCursor, box: number): string;
}

/** Where figures of moves come from: the bar itself, or rows that a worker sent. */
export interface LatheSource {
  readonly done: number;
  at(move: number): LatheFigures | undefined;
}

/** Turns a plan whole, at once. */
export function turnPlan(program: Program, plan: LathePlan): LatheCuts {
  const run = new LatheRun(plan.bar, plan.tools);
  run.append(plan.moves);
  run.finish();
  return latheCuts(program, plan, run);
}

/** Joins a plan with the figures of its moves. */
export function latheCuts(program: Program, plan: LathePlan, source: LatheSource): LatheCuts {
  return {
    kind: 'lathe',
    assumed: plan.assumed,
    ...(plan.assumed_why === undefined ? {} : { assumed_why: plan.assumed_why }),
    left_out: plan.left_out,
    bar: plan.bar,
    figures(step) {
      const row = (step.table && plan.rows.get(step.table)?.[step.index]) ?? -1;
      return row >= 0 && row < source.done ? source.at(row) : undefined;
    },
    collisions: step => latheCollisions(program, step),
    keepOutName: (step, box) => latheKeepOuts(program, step)[box]?.what ?? 'keep-out',
  };
}
