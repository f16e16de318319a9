import * as vscode from 'vscode';
import { commandId, commands } from '../../../client/src/tables/commands.ts';
import { profileFeed } from './first-thread.ts';
import { check, extensionId, type Host, openProgram, pause, placeOf, until } from './support.ts';

/** Every command of the table is there, and those that show something show it. */
export function commandCases(_host: Host): void {
  suiteSetup(() => vscode.extensions.getExtension(extensionId)!.activate());
  teardown(() => vscode.commands.executeCommand('workbench.action.closeEditorsInOtherGroups'));

  test('every command of the table is registered', async () => {
    const known = new Set(await vscode.commands.getCommands(true));
    const missing = commands.map(row => commandId(row.name)).filter(id => !known.has(id));
    check(missing.length === 0, `not registered: ${missing.join()}`);
  });

  test('the sample job opens from a copy, with its setup sheet beside it', async () => {
    await vscode.commands.executeCommand('tapeproof.openSampleJob');
    const { document } = await until('the sample', () => {
      const editor = vscode.window.activeTextEditor;
      return editor?.document.uri.path.endsWith('/sample/bracket.nc') && editor;
    });
    check(document.languageId === 'rs274', document.languageId);
    check(vscode.workspace.fs.isWritableFileSystem(document.uri.scheme), 'the copy cannot be changed');
    const folder = vscode.Uri.joinPath(document.uri, '..');
    const names = (await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name);
    check(names.includes('bracket.setup.json'), names.join());
    await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
  });

  test('the setup sheet opens beside the program', async () => {
    const document = await openProgram('bracket/bracket.nc');
    await vscode.commands.executeCommand('tapeproof.openSetupSheet');
    const sheet = await until('the sheet', () =>
      vscode.window.visibleTextEditors.find(editor =>
        editor.document.uri.path.endsWith('bracket.setup.json'),
      ),
    );
    check(sheet.document.languageId === 'jsonc', sheet.document.languageId);
    check(
      sheet.document.uri.path.startsWith(document.uri.path.replace('bracket.nc', '')),
      sheet.document.uri.path,
    );
  });

  for (const name of ['checkBeforeSending', 'showReport', 'showProveout', 'explain'] as const) {
    test(`${commandId(name)} shows a page`, async () => {
      const { uri } = await openProgram('bracket/bracket.nc');
      const asked = name === 'explain' ? ['chip-load-low'] : [];
      await vscode.commands.executeCommand(commandId(name), uri.toString(), ...asked);
      await until('a second tab', () =>
        vscode.window.tabGroups.all.flatMap(group => group.tabs).some(isPage),
      );
    });
  }

  test('the page in front is saved where it is asked for, without links that only the editor follows', async () => {
    const { uri } = await openProgram('bracket/bracket.nc');
    await vscode.commands.executeCommand('tapeproof.checkBeforeSending', uri.toString());
    await until('the page', () => vscode.window.tabGroups.all.flatMap(group => group.tabs).some(isPage));
    await vscode.commands.executeCommand('workbench.action.focusSecondEditorGroup');
    const to = vscode.Uri.joinPath(uri, '../saved.html');
    const html = await until('the saved page', async () => {
      await vscode.commands.executeCommand('tapeproof.savePage', { to: to.toString() });
      const names = (await vscode.workspace.fs.readDirectory(vscode.Uri.joinPath(to, '..'))).map(
        ([name]) => name,
      );
      return names.includes('saved.html') && new TextDecoder().decode(await vscode.workspace.fs.readFile(to));
    });
    await vscode.workspace.fs.delete(to);
    await vscode.commands.executeCommand('workbench.action.focusFirstEditorGroup');
    check(html.startsWith('<!DOCTYPE html>'), html.slice(0, 80));
    check(html.includes('No errors found in what was checked'), html.slice(0, 2000));
    check(!html.includes('command:'), 'a link to a command is left');
  });

  test('an unknown key of a setup sheet is told once, in plain words', async () => {
    const folder = vscode.workspace.workspaceFolders![0].uri;
    const sheet = vscode.Uri.joinPath(folder, 'odd/odd.setup.json');
    const text = '{ "units": "inch", "toolz": {}, "machine": { "kind": "mil" } }\n';
    await vscode.workspace.fs.writeFile(sheet, new TextEncoder().encode(text));
    await openProgram('odd/odd.setup.json');
    const problems = () => vscode.languages.getDiagnostics(sheet);
    await until('our problems', () => problems().length >= 2);
    // Time for whoever else reads the file to say so too.
    await pause(1500);
    const told = problems().map(({ message, source }) => `${source}: ${message}`);
    await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
    await vscode.workspace.fs.delete(vscode.Uri.joinPath(sheet, '..'), { recursive: true });
    check(told.length === 2 && told.every(words => words.startsWith('tapeproof: ')), told.join(' | '));
  });

  test('a restart brings hints back', async () => {
    const document = await openProgram('bracket/bracket.nc');
    await vscode.commands.executeCommand('tapeproof.restartServer');
    const editor = vscode.window.activeTextEditor!;
    editor.selection = new vscode.Selection(placeOf(document, profileFeed), placeOf(document, profileFeed));
    await until('hints', async () => {
      const all = new vscode.Range(0, 0, document.lineCount, 0);
      const hints = await vscode.commands.executeCommand<unknown[]>(
        'vscode.executeInlayHintProvider',
        document.uri,
        all,
      );
      return hints?.length;
    });
  });
}

const isPage = ({ input }: vscode.Tab): boolean => input instanceof vscode.TabInputWebview;
