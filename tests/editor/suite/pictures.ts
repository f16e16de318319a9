import * as vscode from 'vscode';
import { profileFeed } from './first-thread.ts';
import {
  check,
  click,
  drawn,
  type Host,
  hintsOf,
  inTheme,
  openProgram,
  picture,
  placeOf,
  type Theme,
  until,
} from './support.ts';

/** Pictures of a mill and a lathe program in the four themes, for a person to look at. */
export function pictures(host: Host): void {
  const four: readonly [name: string, theme: Theme][] = [
    ['dark', 'Default Dark Modern'],
    ['light', 'Default Light Modern'],
    ['high-contrast', 'Default High Contrast'],
    ['high-contrast-light', 'Default High Contrast Light'],
  ];
  // Both hosts draw the same window: one of them in every theme is enough.
  const themes = host.kind === 'web' ? four.slice(0, 1) : four;
  suiteTeardown(() => inTheme('Default Dark Modern'));
  for (const program of ['bracket', 'valve', 'bushing']) {
    for (const [name, theme] of themes) {
      test(`${program}, ${name}`, async function () {
        if (!host.url) return this.skip();
        const document = await openProgram(`${program}/${program}.nc`);
        await inTheme(theme);
        await until('hints', async () => (await hintsOf(document)).length);
        await picture(host, `${program}-${name}`);
      });
    }
  }
  const pages = [
    ['checkBeforeSending', 'main', 'bracket.nc'],
    ['showReport', 'header', 'Review of bracket.nc'],
    ['showProveout', 'header', 'Prove-out of bracket.nc'],
  ];
  for (const [command, part, title] of pages) {
    for (const [name, theme] of themes) {
      test(`${command}, ${name}`, async function () {
        if (!host.url) return this.skip();
        await inTheme(theme);
        await openProgram('bracket/bracket.nc');
        await vscode.commands.executeCommand(`tapeproof.${command}`);
        await until('title and verdict', async () => {
          const text = await drawn(host, part);
          return text.includes(title) && text.includes('No errors found in what was checked.');
        });
        await picture(host, name === 'dark' ? command : `${command}-${name}`);
        await vscode.commands.executeCommand('workbench.action.closeEditorsInOtherGroups');
      });
    }
  }
  test('first steps', async function () {
    if (!host.url) return this.skip();
    await inTheme('Default Dark Modern');
    await vscode.commands.executeCommand('tapeproof.openWalkthrough');
    await until('the four steps', async () => {
      const text = await drawn(host, '.gettingStartedContainer');
      return ['Open a program', 'Read the numbers', 'Tell it the tool', 'Check before sending'].every(step =>
        text.includes(step),
      );
    });
    await picture(host, 'first-steps');
    await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
  });
  test('commands in the palette', async function () {
    if (!host.url) return this.skip();
    await openProgram('bracket/bracket.nc');
    void vscode.commands.executeCommand('workbench.action.quickOpen', '>Tapeproof');
    await until('the list', async () =>
      (await drawn(host, '.quick-input-list')).includes('Check Before Sending'),
    );
    await picture(host, 'palette');
    await vscode.commands.executeCommand('workbench.action.closeQuickOpen');
  });
  test('confirm a tool', async function () {
    if (!host.url) return this.skip();
    const content =
      'G20 G17 G90 G94\nT2 M6 (1/2 FINISHER END MILL)\nS8000 M3\nG0 X0 Y0\nG1 Z-.1 F30.\nX4. F72.\nM30\n';
    const folder = vscode.workspace.workspaceFolders![0].uri;
    const file = vscode.Uri.joinPath(folder, 'plain/plain.nc');
    await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(content));
    const document = await openProgram('plain/plain.nc');
    await until('hints', async () => (await hintsOf(document)).length);
    void vscode.commands.executeCommand('tapeproof.confirmTool', file.toString(), 2);
    await until('the list', async () => (await drawn(host, '.quick-input-list')).includes('3 teeth'));
    await picture(host, 'confirm-list');
    await vscode.commands.executeCommand('workbench.action.closeQuickOpen');
    await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
  });
  test('language status', async function () {
    if (!host.url) return this.skip();
    const document = await openProgram('bracket/bracket.nc');
    await until('hints', async () => (await hintsOf(document)).length);
    await click(host, '.statusbar-item[id*="languageStatus"] a');
    const text = await until('the status', async () => {
      const shown = await drawn(host, '.hover-language-status');
      return shown.includes('hints: changes') && shown.includes('inch') && shown;
    });
    check(text.trim().startsWith('mill, inch'), `the program does not come first: ${text}`);
    await picture(host, 'status');
    await vscode.commands.executeCommand('workbench.action.focusActiveEditorGroup');
  });
  test('hover', async function () {
    if (!host.url) return this.skip();
    const document = await openProgram('bracket/bracket.nc');
    const place = placeOf(document, profileFeed);
    vscode.window.activeTextEditor!.selection = new vscode.Selection(place, place);
    vscode.window.activeTextEditor!.revealRange(
      new vscode.Range(place, place),
      vscode.TextEditorRevealType.InCenter,
    );
    await vscode.commands.executeCommand('editor.action.showHover');
    await picture(host, 'hover');
    await vscode.commands.executeCommand('editor.action.hideHover');
    const change = placeOf(document, 'N20 T2 M6');
    vscode.window.activeTextEditor!.selection = new vscode.Selection(change, change);
    await vscode.commands.executeCommand('editor.action.showHover');
    await picture(host, 'hover-tool');
  });
}
