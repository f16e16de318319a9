import type { Connection } from 'vscode-languageserver';
import type { EditorFiles } from './editor-files.ts';
import type { Jobs } from './jobs.ts';
import type { OpenProgram } from './open-program.ts';
import type { Publisher } from './publisher.ts';
import type { SettingsStore } from './settings.ts';

/** What every feature works with. */
export interface Server {
  connection: Connection;
  jobs: Jobs;
  files: EditorFiles;
  settings: SettingsStore;
  publisher: Publisher;
  program(uri: string): OpenProgram | undefined;
}
