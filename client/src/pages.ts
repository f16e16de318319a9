import * as vscode from 'vscode';
import type { Answer } from './protocol.ts';

type Page = Extract<Answer, { do: 'page' }>;
const scheme = 'tapeproof-page';
const texts = new Map<string, string>();
const changed = new vscode.EventEmitter<vscode.Uri>();
const shown = new Map<string, { panel: vscode.WebviewPanel; page: Page }>();

/** The view type of our pages, by which the manifest knows that one is in front. */
export const pageView = 'tapeproof.page';

/** Serves the text of shown pages to the editor for as long as the extension runs. */
export function keepPages(): vscode.Disposable {
  return vscode.workspace.registerTextDocumentContentProvider(scheme, {
    onDidChange: changed.event,
    provideTextDocumentContent: uri => texts.get(uri.path) ?? 'This page is gone: run its command again.',
  });
}

/** Shows a page beside the program; a page of the same title is replaced, not doubled. */
export async function showPage(page: Page): Promise<void> {
  if (page.format === 'html') return showHtml(page);
  const name = page.title.replaceAll(/[\\/:*?"<>|#%]/g, ' ');
  const uri = vscode.Uri.from({ scheme, path: `/${name}${page.format === 'markdown' ? '.md' : '.txt'}` });
  texts.set(uri.path, page.content);
  changed.fire(uri);
  if (page.format === 'markdown') await vscode.commands.executeCommand('markdown.showPreviewToSide', uri);
  else await vscode.window.showTextDocument(uri, { viewColumn: vscode.ViewColumn.Beside, preview: true });
}

/** Saves the page in front and opens it outside: the editor itself cannot print. */
export async function savePage(): Promise<void> {
  const front = [...shown.values()].find(({ panel }) => panel.active);
  if (!front) return;
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  const defaultUri = folder && vscode.Uri.joinPath(folder, front.page.file ?? `${front.page.title}.html`);
  const chosen = await vscode.window.showSaveDialog({ defaultUri, filters: { Page: ['html'] } });
  if (!chosen) return;
  await vscode.workspace.fs.writeFile(chosen, new TextEncoder().encode(front.page.content));
  await vscode.env.openExternal(chosen);
}

/** Pages run no scripts. */
function showHtml(page: Page): void {
  const before = shown.get(page.title);
  const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
  const panel =
    before?.panel ??
    vscode.window.createWebviewPanel(pageView, page.title, column, { enableFindWidget: true });
  if (before) panel.reveal(undefined, true);
  else panel.onDidDispose(() => shown.delete(page.title));
  shown.set(page.title, { panel, page });
  panel.webview.html = page.content;
}
