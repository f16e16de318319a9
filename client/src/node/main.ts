import type * as vscode from 'vscode';
import { type Api, start } from '../client.ts';

export function activate(context: vscode.ExtensionContext): Api {
  return start(context, 'node', async options => {
    const { LanguageClient, TransportKind } = await import('vscode-languageclient/node');
    const server = {
      module: context.asAbsolutePath('dist/server.node.js'),
      transport: TransportKind.ipc,
      args: [`--compiled=${context.globalStorageUri.fsPath}`],
    };
    return new LanguageClient('tapeproof', 'Tapeproof', server, options);
  });
}
