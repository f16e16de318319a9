import { closePath } from '../execute-compensation.ts';
import { readOffset } from '../execute-compensation-mode.ts';
import { expandRequest } from '../execute-report-profile.ts';
import type { ProfileRequest } from '../profile-request.ts';
import { S } from '../state.ts';
import { StepRecorder } from '../step-recorder.ts';
import type { FlowRun } from './run.ts';

/**
 * Runs the subroutine of a G70 to G72.2 with its control flow, keeps its moves apart and writes those of the cycle. Nose radius
 * compensation acts in finishing, not in roughing (common practice, no source).
 */
export function runProfile(run: FlowRun, request: ProfileRequest, length: number): void {
  const { machine } = run;
  const target = run.library.sub(request.sub, run.frame.program);
  if (target === undefined) {
    const message = `There is no subroutine ${request.sub} here; positions after this cycle are not known.`;
    run.report('cycle-profile-missing', 0, length, message);
    machine.forget(5);
    return;
  }
  const { table, state } = machine;
  const before = state.clone();
  machine.table = new StepRecorder(64);
  machine.ignores_compensation = !request.finishing;
  if (!request.finishing) state.v[S.comp_radius] = Number.NaN;
  state.v[S.motion] = Number.NaN;
  [state.v[S.x], state.v[S.z]] = [request.x, request.z];
  const returned = run.runToReturn(target);
  closePath(machine);
  const steps = machine.table;
  const { v } = state;
  const after = { feed: v[S.feed], spindle: v[S.spindle], compensation: v[S.compensation] };
  machine.table = table;
  machine.ignores_compensation = false;
  state.copyFrom(before);
  machine.line = request.line;
  if (!returned) return;
  expandRequest(machine, length, request, steps);
  if (!request.finishing) return;
  v[S.feed] = after.feed;
  v[S.spindle] = after.spindle;
  v[S.compensation] = after.compensation;
  if (after.compensation !== 40) readOffset(machine);
}
