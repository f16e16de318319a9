import * as vscode from 'vscode';
import { type Api, start } from '../client.ts';

export function activate(context: vscode.ExtensionContext): Api {
  return start(context, 'web', async options => {
    const { LanguageClient } = await import('vscode-languageclient/browser');
    const file = vscode.Uri.joinPath(context.extensionUri, 'dist/server.browser.js');
    return new LanguageClient('tapeproof', 'Tapeproof', options, new Worker(file.toString(true)));
  });
}
