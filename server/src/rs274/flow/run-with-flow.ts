import type { MachineSettings } from '../machine.ts';
import type { MachineState } from '../state.ts';
import type { ProgramText } from '../text.ts';
import { type FlowBounds, USUAL_BOUNDS } from './bounds.ts';
import type { ResolveFile } from './library.ts';
import { type FlowResult, FlowRun } from './run.ts';

/**
 * Runs a whole program with its control flow: O-words, word-address macros, subprogram and macro calls, several programs
 * in a file. Never throws and always ends: an endless loop, or a bound that bites, gives one problem and what ran.
 */
export function runWithFlow(
  text: ProgramText,
  settings: MachineSettings & { semicolon_ends_block: boolean },
  stateIn: MachineState,
  options: {
    resolveFile?: ResolveFile;
    bounds?: FlowBounds;
    first_line?: number;
    /** End after the first time that this line of the main file has run. */
    until_line?: number;
  } = {},
): FlowResult {
  const run = new FlowRun(
    text,
    settings,
    stateIn,
    options.resolveFile ?? (() => undefined),
    options.bounds ?? USUAL_BOUNDS,
  );
  run.until_line = options.until_line ?? -1;
  return run.whole(options.first_line ?? 0);
}
