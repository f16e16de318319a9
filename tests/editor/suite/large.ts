import * as vscode from 'vscode';
import { check, click, drawn, type Host, hintsOf, picture, setting, until } from './support.ts';

/**
 * Limits of the editor that these cases run in, as its text model states them: colouring, folding and wrapping stop
 * above 300 * 1000 lines or 20 * 1024 * 1024 characters; nothing is sent to extensions above 50 * 1024 * 1024.
 */
const LINES = 310_000;

const CHARACTERS = 50 * 1024 * 1024;

const HEAD = 'G21 G17 G40 G49 G80 G90 G94\nT1 M6\nS8000 M3\nG54 G0 X0 Y0\nG43 H1 Z5.\nG1 Z-1. F500.\n';
/** The arc's end is not on its circle. */
const FAULT = 'G1 X0 Y0\nG2 X10. Y0 I1. J0\n';
const TAIL = 'G0 Z50.\nM5\nM30\n';

async function write(name: string, text: string): Promise<vscode.Uri> {
  const uri = vscode.Uri.joinPath(vscode.workspace.workspaceFolders![0].uri, name);
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  return uri;
}

/** Opens the list behind the braces of the status bar and waits for words in it. */
async function statusSays(host: Host, words: string): Promise<string> {
  let shown = '';
  return until(`the status ${JSON.stringify(words)}`, async () => {
    await click(host, '.statusbar-item[id*="languageStatus"] a');
    shown = await drawn(host, '.hover-language-status');
    return shown.includes(words) && shown;
  }).catch(error => {
    throw new Error(`${error.message}; the last was ${JSON.stringify(shown)}`);
  });
}

/** Programs over the editor's own limits. */
export function largeCases(host: Host): void {
  test('310,000 lines: hints and problems stay, and the status says what the editor leaves out', async function () {
    if (!host.url) return this.skip();
    const moves = 'G1 X1.\nX0\n'.repeat((LINES - 12) / 2);
    const uri = await write('large/long.nc', HEAD + moves + FAULT + TAIL);
    const document = await vscode.workspace.openTextDocument(uri);
    check(document.lineCount > 300_000, `${document.lineCount} lines`);
    await vscode.window.showTextDocument(document, { preview: false });
    const problem = await until('the fault near the end', () =>
      vscode.languages.getDiagnostics(uri).find(({ range }) => range.start.line > LINES - 20),
    );
    check(problem.message.includes('off the circle'), problem.message);
    check((await hintsOf(document)).length > 0, 'no hints');
    await statusSays(host, 'over 300,000 lines');
    await picture(host, 'long-program');
  });

  test('over 50 Mi characters: the status says why and offers the review from disk', async function () {
    if (!host.url) return this.skip();
    const move = `G1 X1. Y1. (${'-'.repeat(80)})\nX0 Y0\n`;
    const text = HEAD + move.repeat(Math.ceil(CHARACTERS / move.length)) + FAULT + TAIL;
    const uri = await write('large/huge.nc', text);
    // In a browser the editor asks before it shows 50 MB; on a desktop it asks at 1024 MB.
    await setting('workbench.editorLargeFileConfirmation', 1024);
    await vscode.commands.executeCommand('vscode.open', uri, { preview: false });
    await until('the tab in front', () => {
      const input = vscode.window.tabGroups.activeTabGroup.activeTab?.input;
      return input instanceof vscode.TabInputText && input.uri.toString() === uri.toString();
    });
    await until('the reason in the status bar', async () =>
      (await drawn(host, '.statusbar')).includes('over 50 million characters'),
    );
    check(
      !vscode.workspace.textDocuments.some(document => document.uri.toString() === uri.toString()),
      'the editor gave the program to extensions',
    );
    await picture(host, 'huge-program');
    await click(host, '.statusbar-item[id*="tooLarge"] a');
    const label = await until('the report', () => {
      const tab = vscode.window.tabGroups.all
        .flatMap(group => group.tabs)
        .find(one => one.label.startsWith('Review:'));
      return tab?.label;
    });
    check(label === 'Review: huge.nc', label);
    await picture(host, 'huge-report');
    await setting('workbench.editorLargeFileConfirmation', undefined);
  });
}
