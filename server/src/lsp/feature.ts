import type { ServerCapabilities } from 'vscode-languageserver';
import type { Server } from './server.ts';

/** One protocol feature: what it promises to the editor, and how it answers. */
export interface Feature {
  name: string;
  capabilities: ServerCapabilities;
  register(server: Server): void;
}
