import type { Dialect, MachineKind } from '../../../../server/src/rs274/codes/shape.ts';
import type { FlowBounds } from '../../../../server/src/rs274/flow/bounds.ts';
import type { FlowResult } from '../../../../server/src/rs274/flow/run.ts';
import { runWithFlow } from '../../../../server/src/rs274/flow/run-with-flow.ts';
import { startState } from '../../../../server/src/rs274/state.ts';
import { STEP_KINDS, type StepTable } from '../../../../server/src/rs274/steps.ts';
import { ProgramText } from '../../../../server/src/rs274/text.ts';

export interface RunOptions {
  kind?: MachineKind;
  skip_deleted?: boolean;
  least_increment_mm?: number;
  files?: Record<string, string>;
  bounds?: FlowBounds;
}

/** Runs a program in mm with its control flow. */
export function runProgram(text: string, dialect: Dialect, options: RunOptions = {}): FlowResult {
  const kind = options.kind ?? (dialect.startsWith('lathe') ? 'lathe' : 'mill');
  const settings = {
    dialect,
    kind,
    least_increment_mm: options.least_increment_mm ?? 0,
    least_increment_inch: 0,
    dwell_ms: dialect !== 'ngc',
    skip_deleted: options.skip_deleted ?? false,
    semicolon_ends_block: false,
  };
  const files = options.files ?? {};
  return runWithFlow(
    ProgramText.fromString(text),
    settings,
    startState({ inch: false, diameter: kind === 'lathe', plane: kind === 'lathe' ? 18 : 17, feed_mode: 94 }),
    {
      resolveFile: name => (files[name] === undefined ? undefined : ProgramText.fromString(files[name])),
      ...(options.bounds === undefined ? {} : { bounds: options.bounds }),
    },
  );
}

/** End X of the moves in order, `?` where it is not known; `stop` and `end` as such. */
export function pathOf(steps: StepTable): string {
  const parts: string[] = [];
  for (let at = 0; at < steps.count; at += 1) {
    const kind = STEP_KINDS[steps.kind[at]];
    if (kind === 'place') continue;
    if (kind === 'stop' || kind === 'end') parts.push(kind);
    else parts.push(Number.isNaN(steps.x[at]) ? '?' : String(Math.round(steps.x[at] * 1e6) / 1e6));
  }
  return parts.join(' ');
}
