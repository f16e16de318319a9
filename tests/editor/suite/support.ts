import * as vscode from 'vscode';

/** What differs between the hosts that run the cases. */
export interface Host {
  kind: 'node' | 'web';
  /** Where the stand-in editor takes requests for pictures and drawn text; empty in a downloaded editor. */
  url: string | undefined;
  fail: boolean;
}

export const extensionId = 'tapeproof.tapeproof-vscode';

export const pause = (ms: number): Promise<void> => new Promise(done => setTimeout(done, ms));

export function check(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(message);
}

/** Asks again until there is an answer: hints, problems and the drawn page come a moment after the document. */
export async function until<T>(
  what: string,
  probe: () => T | Promise<T>,
  most_ms = 20_000,
): Promise<Exclude<T, false | null | undefined>> {
  for (const end = Date.now() + most_ms; Date.now() < end; await pause(50)) {
    const value = await probe();
    if (value) return value as Exclude<T, false | null | undefined>;
  }
  throw new Error(`${what}: did not come in ${most_ms} ms`);
}

/** Opens a fixture of the workspace in the editor. */
export async function openProgram(name: string): Promise<vscode.TextDocument> {
  const folder = vscode.workspace.workspaceFolders![0].uri;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, name));
  await vscode.window.showTextDocument(document, { preview: false });
  return document;
}

/** The place just before the last character of a text of the document, for a hover or a cursor. */
export function placeOf(document: vscode.TextDocument, text: string): vscode.Position {
  const offset = document.getText().indexOf(text);
  check(offset >= 0, `${JSON.stringify(text)} is not in ${document.fileName}`);
  return document.positionAt(offset + text.length - 1);
}

/** The inlay hints of the whole document, as `line number: text`, lines from 1. */
export async function hintsOf(document: vscode.TextDocument): Promise<string[]> {
  const all = new vscode.Range(0, 0, document.lineCount, 0);
  const hints = await vscode.commands.executeCommand<vscode.InlayHint[] | undefined>(
    'vscode.executeInlayHintProvider',
    document.uri,
    all,
  );
  return (hints ?? []).map(hint => `${hint.position.line + 1}: ${textOf(hint)}`);
}

const textOf = ({ label }: vscode.InlayHint): string =>
  typeof label === 'string' ? label : label.map(part => part.value).join('');

/** The text of the hovers at a place, without the marks of its markdown. */
export async function hoverAt(document: vscode.TextDocument, place: vscode.Position): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    'vscode.executeHoverProvider',
    document.uri,
    place,
  );
  const parts = hovers.flatMap(hover =>
    hover.contents.map(part => (typeof part === 'string' ? part : part.value)),
  );
  return parts
    .join('\n')
    .replaceAll('**', '')
    .replaceAll(/\\(?=[^\w\s])/g, '');
}

/** What the window has drawn in the elements that a selector names; the stand-in editor alone can tell. */
export async function drawn(host: Host, selector: string): Promise<string> {
  const answer = await fetch(`${host.url}/text?selector=${encodeURIComponent(selector)}`);
  check(answer.ok, `text of ${selector}: ${answer.status}`);
  return (await answer.text()).replaceAll('\u00a0', ' ');
}

/** Clicks in the window, as a person does; the stand-in editor alone can do that. */
export async function click(host: Host, selector: string): Promise<void> {
  const answer = await fetch(`${host.url}/click?selector=${encodeURIComponent(selector)}`);
  check(answer.ok, `click on ${selector}: ${answer.status} ${await answer.text()}`);
}

/** Saves a picture of the window, or of a part of it, as `<host>-<name>.png`. */
export async function picture(host: Host, name: string, selector?: string): Promise<void> {
  await pause(1000);
  const part = selector ? `&selector=${encodeURIComponent(selector)}` : '';
  const answer = await fetch(`${host.url}/shot?name=${host.kind}-${name}${part}`);
  check(answer.ok, `picture ${name}: ${answer.status} ${await answer.text()}`);
}

/** Takes back what a case has typed, also one that failed halfway, so that the next starts from the file. */
export async function revert(document: vscode.TextDocument): Promise<void> {
  await vscode.window.showTextDocument(document, { preview: false });
  await vscode.commands.executeCommand('workbench.action.files.revert');
}

/** Changes a setting of the person for the cases that follow. */
export const setting = (key: string, value: unknown): Thenable<void> =>
  vscode.workspace.getConfiguration().update(key, value, vscode.ConfigurationTarget.Global);

const THEMES = {
  'Default Dark Modern': vscode.ColorThemeKind.Dark,
  'Default Light Modern': vscode.ColorThemeKind.Light,
  'Default High Contrast': vscode.ColorThemeKind.HighContrast,
  'Default High Contrast Light': vscode.ColorThemeKind.HighContrastLight,
} as const;
export type Theme = keyof typeof THEMES;

const OTHER_THEME: Readonly<Record<Theme, Theme>> = {
  'Default Dark Modern': 'Default Light Modern',
  'Default Light Modern': 'Default Dark Modern',
  'Default High Contrast': 'Default High Contrast Light',
  'Default High Contrast Light': 'Default High Contrast',
};

/** Changes the colour theme and waits until the window has it: a picture taken before would be of the one before. */
export async function inTheme(theme: Theme): Promise<void> {
  const shown = () => vscode.window.activeColorTheme.kind === THEMES[theme];
  await setting('workbench.colorTheme', theme);
  // A window may begin in another theme than its settings name; only a change of the setting brings it there.
  for (let tries = 0; tries < 5 && !shown(); tries++) {
    await pause(1000);
    if (shown()) break;
    await setting('workbench.colorTheme', OTHER_THEME[theme]);
    await pause(500);
    await setting('workbench.colorTheme', theme);
  }
  await until(`the theme ${theme}`, shown);
}
