import * as vscode from 'vscode';
import type { Answer } from '../../server/src/lsp/protocol.ts';
import { commandId, commands } from './tables/commands.ts';

type Page = Extract<Answer, { do: 'page' }>;
const shown = new Map<string, { panel: vscode.WebviewPanel; html: string; page: Page }>();

/** The view type of our pages, by which the manifest knows that one is in front. */
export const pageView = 'tapeproof.page';

/** Shows a page beside the program; a page of the same title is replaced, not doubled. Pages run no scripts. */
export async function showPage(page: Page): Promise<void> {
  const html = await htmlOf(page);
  const before = shown.get(page.title);
  const panel = before?.panel ?? newPanel(page.title);
  if (before) panel.reveal(undefined, true);
  shown.set(page.title, { panel, html, page });
  panel.webview.html = html;
}

/** Saves the page in front and opens it outside: the editor itself cannot print. A caller that names the place is not asked for it. */
export async function savePage(asked?: unknown): Promise<void> {
  const front = [...shown.values()].find(({ panel }) => panel.active);
  if (!front) return;
  const named = placeIn(asked);
  if (named) return vscode.workspace.fs.writeFile(named, bytesOf(front.html));
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  const defaultUri = folder && vscode.Uri.joinPath(folder, front.page.file ?? `${front.page.title}.html`);
  const chosen = await vscode.window.showSaveDialog({ defaultUri, filters: { Page: ['html'] } });
  if (!chosen) return;
  await vscode.workspace.fs.writeFile(chosen, bytesOf(front.html));
  await vscode.env.openExternal(chosen);
}

function placeIn(asked: unknown): vscode.Uri | undefined {
  const to = typeof asked === 'object' && asked !== null && 'to' in asked ? asked.to : undefined;
  return typeof to === 'string' ? vscode.Uri.parse(to) : undefined;
}

/** Outside the editor no one carries out a link to a command: its words stay. */
const bytesOf = (html: string): Uint8Array =>
  new TextEncoder().encode(html.replaceAll(/<a [^>]*href="command:[^>]*>(.*?)<\/a>/g, '$1'));

function newPanel(title: string): vscode.WebviewPanel {
  const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
  const panel = vscode.window.createWebviewPanel(pageView, title, column, {
    enableFindWidget: true,
    enableCommandUris: [...commands.map(row => commandId(row.name)), 'vscode.open'],
  });
  panel.onDidDispose(() => shown.delete(title));
  return panel;
}

async function htmlOf(page: Page): Promise<string> {
  if (page.format === 'html') return page.content;
  const body =
    page.format === 'markdown'
      ? await vscode.commands.executeCommand<string>('markdown.api.render', page.content)
      : `<pre>${escaped(page.content)}</pre>`;
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>${escaped(page.title)}</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<style>${style}</style></head><body><main>${body}</main></body></html>`;
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** The editor's own colours and fonts; outside the editor, on paper say, the fallbacks. */
const style = `
main { max-width: 60rem; padding: 0.5rem 1rem 3rem; line-height: 1.5; font-size: 1rem; }
body { color: var(--vscode-foreground, #000); font-family: var(--vscode-font-family, sans-serif); }
h1 { font-size: 1.5rem; } h2 { font-size: 1.15rem; margin-top: 1.6rem; }
table { border-collapse: collapse; } th, td { text-align: left; padding: 0.15rem 0.8rem 0.15rem 0; vertical-align: top; }
th { border-bottom: 1px solid var(--vscode-foreground, #000); }
code, pre { font-family: var(--vscode-editor-font-family, monospace); font-size: 0.95em; }
pre { overflow-x: auto; }
a { color: var(--vscode-textLink-foreground, #000); }`;
