import type { FlowProgram, ProgramPart } from './program.ts';

/** One level of calls. */
export interface Frame {
  program: FlowProgram;
  part: ProgramPart;
  /** Next line to execute. */
  next: number;
  how: 'main' | 'sub' | 'program' | 'block' | 'macro';
  /** Line that the call begins at, for repeats. */
  entry: number;
  /** Times that it still runs after this one. */
  repeats: number;
  /** Arguments of a level with its own local parameters. */
  args: ReadonlyMap<number, number> | undefined;
  /** Turns left of REPEAT loops by line. */
  turns: Map<number, number>;
  /** Modes that M70 or M73 saved here; M73 restores them at the return. */
  saved?: { modes: Float64Array; on_return: boolean };
  /** It was called by a modal macro call. */
  modal: boolean;
}
