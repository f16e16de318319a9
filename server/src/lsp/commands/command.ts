import type { Job } from '../jobs.ts';
import type { Answer, CommandParams } from '../protocol.ts';
import type { Server } from '../server.ts';

/** One command that the server answers, as the request `tapeproof/<name>`. */
export interface ServerCommand {
  name: string;
  /** It writes to a file beside the program: an unsaved program has no such place. */
  needsFolder?: true;
  run(context: CommandContext): Promise<Answer | Answer[]> | Answer | Answer[];
}

/** A command about a file that need not be open. */
export interface FileCommand {
  name: string;
  runFile(server: Server, params: CommandParams): Promise<Answer | Answer[]>;
}

export interface CommandContext {
  server: Server;
  params: CommandParams;
  job: Job;
  /** 0-based line of the cursor; 0 when the command came without one. */
  line: number;
}

export function say(text: string, severity: 'information' | 'warning' | 'error' = 'information'): Answer {
  return { do: 'say', severity, text };
}
