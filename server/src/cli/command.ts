import type { Arguments, OptionRow } from './arguments.ts';

/** Exit codes that scripts rely on. */
export const EXIT = { done: 0, findings: 1, usage: 2, incomplete: 3, interrupted: 130 } as const;

/** One command of the command line. */
export interface Command {
  name: string;
  /** Arguments in the help: `PROGRAM`. */
  takes: string;
  does: string;
  options: readonly OptionRow[];
  run(args: Arguments): Promise<number>;
}
