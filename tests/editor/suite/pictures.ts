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
  const themes: readonly [name: string, theme: Theme][] = [
    ['dark', 'Default Dark Modern'],
    ['light', 'Default Light Modern'],
    ['high-contrast', 'Default High Contrast'],
    ['high-contrast-light', 'Default High Contrast Light'],
  ];
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
    test(command, async function () {
      if (!host.url) return this.skip();
      await inTheme('Default Dark Modern');
      await openProgram('bracket/bracket.nc');
      await vscode.commands.executeCommand(`tapeproof.${command}`);
      await until('title and verdict', async () => {
        const text = await drawn(host, part);
        return text.includes(title) && text.includes('No errors found in what was checked.');
      });
      await picture(host, command);
      await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
    });
  }
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
  });
}
