import * as vscode from 'vscode';
import type { LanguageClientOptions } from 'vscode-languageclient';
import { type InitializationOptions, notification, type Status } from '../../server/src/lsp/protocol.ts';
import { carryOut } from './answers.ts';
import { answerFileRequests } from './files.ts';
import { cycleHints } from './hints.ts';
import { savePage } from './pages.ts';
import { openSampleJob, openWalkthrough } from './sample.ts';
import { type MakeClient, Session } from './session.ts';
import { StatusItems } from './status.ts';
import { type CommandName, commandId, commands } from './tables/commands.ts';

/** What the extension hands to its tests and to other extensions. */
export interface Api {
  host: 'node' | 'web';
  /** Own time from the call of `activate` to its end. */
  activation_ms: number;
  /** Resolves when the language server has answered. */
  ready: () => Promise<void>;
}

/**
 * Starts the extension: commands at once, the language server with the first program or setup sheet.
 * Nothing is read and nothing is started before that.
 */
export function start(context: vscode.ExtensionContext, host: Api['host'], makeClient: MakeClient): Api {
  const began = performance.now();
  const status = new StatusItems();
  const session = new Session(makeClient, clientOptions, client => {
    client.onNotification(notification.status, (message: Status) => status.take(message));
    answerFileRequests(client);
  });
  session.onFailure(reason => status.fail(reason));
  context.subscriptions.push(status, session);

  const byClient: Partial<Record<CommandName, (...args: unknown[]) => unknown>> = {
    cycleHints: () => cycleHints(),
    openSampleJob: () => openSampleJob(context),
    openWalkthrough: () => openWalkthrough(context),
    savePage,
    restartServer: async () => {
      status.clear();
      await session.restart();
    },
  };
  for (const row of commands) {
    const run = byClient[row.name] ?? ((...args: unknown[]) => carryOut(session, row.name, args));
    context.subscriptions.push(vscode.commands.registerCommand(commandId(row.name), run));
  }

  const wake = (document: vscode.TextDocument) => {
    if (isOurs(document)) session.wake();
  };
  context.subscriptions.push(
    vscode.workspace.onDidOpenTextDocument(wake),
    vscode.window.onDidChangeWindowState(state => {
      if (state.focused) session.tell(notification.recheckFiles, {});
    }),
  );
  vscode.workspace.textDocuments.forEach(wake);
  return { host, activation_ms: performance.now() - began, ready: async () => void (await session.client()) };
}

const isOurs = (document: vscode.TextDocument): boolean =>
  document.languageId === 'rs274' || /(\.setup|\/crib)\.json$/.test(document.uri.path);

/** By language and name, never by scheme: a program may be unsaved, remote, or in the browser's own files. */
const clientOptions = (): LanguageClientOptions => ({
  documentSelector: [{ language: 'rs274' }, { pattern: '**/*.setup.json' }, { pattern: '**/crib.json' }],
  synchronize: {
    configurationSection: 'tapeproof',
    fileEvents: vscode.workspace.createFileSystemWatcher('**/{*.setup.json,crib.json,proven.jsonl}'),
  },
  markdown: { isTrusted: { enabledCommands: commands.map(row => commandId(row.name)) }, supportHtml: false },
  initializationOptions: { commands: true } satisfies InitializationOptions,
});
