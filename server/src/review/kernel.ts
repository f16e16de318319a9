import { kernelOf, type RunNotes } from '../rs274/kernel.ts';
import { RUN, RUN_WIDTH, type StepTable } from '../rs274/steps.ts';
import * as plain from './kernel/index.ts';

/** What looks at all steps of one table: see the files of `kernel/`. Good until the next table is asked for. */
export interface TableLook extends Pick<typeof plain, 'addCuts' | 'lookAlong' | 'nextToSee' | 'turnsBack'> {
  /** Numbers that go in and come out: see `kernel/box.ts` here and in rs274. */
  readonly box: Float64Array;
  /** Notes on the runs of the table; their planes are filled in, none is seen. */
  readonly runs: RunNotes;
}

/** The compiled form where the table stands in its memory, else the plain one out of the same source. */
export function lookAt(table: StepTable): TableLook {
  const { box, runs, exports } = kernelOf(table);
  for (let row = 0; row < table.runCount; row++) {
    runs.planes[row] = table.runs[row * RUN_WIDTH + RUN.plane];
    runs.seen[row] = 0;
  }
  const { addCuts, lookAlong, nextToSee, turnsBack } = (exports as unknown as typeof plain) ?? plain;
  return { box, runs, addCuts, lookAlong, nextToSee, turnsBack };
}
