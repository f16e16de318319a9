import * as vscode from 'vscode';
import {
  check,
  drawn,
  extensionId,
  type Host,
  hintsOf,
  hoverAt,
  openProgram,
  placeOf,
  revert,
  setting,
  until,
} from './support.ts';

/** The feed of the half inch end mill along the profile. */
export const profileFeed = 'X-.1 Y-.1 F72.';

/** From text to hint, hover, problem and fix, in a real editor, by the editor's own interface alone. */
export function firstThread(host: Host): void {
  let document: vscode.TextDocument;
  suiteSetup(async () => {
    document = await openProgram('bracket/bracket.nc');
  });

  teardown(() => revert(document));

  test('the extension activates in this host, and the program has its language', async () => {
    const extension = vscode.extensions.getExtension(extensionId);
    check(extension, `${extensionId} is not there`);
    const api = await extension.activate();
    check(api.host === host.kind, `activated as ${api.host}`);
    check(document.languageId === 'rs274', document.languageId);
    console.log(`      activation: ${api.activation_ms.toFixed(1)} ms of own time`);
    await api.ready();
  });

  test('hints say chip load and surface speed, short enough for the editor', async () => {
    const hints = await until('hints', async () => {
      const found = await hintsOf(document);
      return found.some(hint => hint.includes('0.0030 in')) && found;
    });
    const tool = hints.find(hint => hint.includes('0.0030 in'))!;
    check(/1047 sfm/.test(tool), tool);
    for (const hint of hints) check(hint.replace(/^\d+: /, '').length <= 43, `too long: ${hint}`);
  });

  test('the hint is drawn in the page', async function () {
    if (!host.url) return this.skip();
    const text = await until('the hint in the page', async () => {
      const lines = await drawn(host, '.editor-instance .view-line');
      return lines.includes('1047 sfm') && lines;
    });
    check(text.includes('0.0030 in'), text);
  });

  test('hover unfolds the sum', async () => {
    const text = await hoverAt(document, placeOf(document, profileFeed));
    for (const part of ['0.0030 in', '1047 sfm', '8000', '72'])
      check(text.includes(part), `${part} is not in:\n${text}`);
  });

  test('a level of hints is one setting: off means none', async () => {
    await setting('tapeproof.hints.level', 'off');
    await until('no hints', async () => (await hintsOf(document)).length === 0);
    await setting('tapeproof.hints.level', 'every');
    const every = await until('hints', async () => (await hintsOf(document)).length);
    await setting('tapeproof.hints.level', 'changes');
    await until('fewer hints', async () => {
      const { length } = await hintsOf(document);
      return length > 0 && length < every;
    });
  });

  test('the command steps through the three levels', async () => {
    const seen = [];
    for (let i = 0; i < 3; i++) seen.push(await vscode.commands.executeCommand('tapeproof.cycleHints'));
    check(seen.join() === 'every,off,changes', seen.join());
  });

  test('a problem appears with the edit that causes it and goes with undo; its fix undoes in one step', async () => {
    const before = document.getText();
    const problems = () => vscode.languages.getDiagnostics(document.uri);
    const edit = new vscode.WorkspaceEdit();
    const at = placeOf(document, profileFeed).translate(0, -3);
    edit.replace(document.uri, new vscode.Range(at, at.translate(0, 4)), 'F400.');
    await vscode.workspace.applyEdit(edit);
    const found = await until('chip-load-high', () =>
      problems().find(problem => codeOf(problem) === 'chip-load-high'),
    );
    check(found.range.start.line === at.line, `at line ${found.range.start.line + 1}`);
    check(found.source === 'tapeproof', String(found.source));

    const broken = document.getText();
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      found.range,
      vscode.CodeActionKind.QuickFix.value,
    );
    const fix = actions.find(action => action.edit?.has(document.uri));
    check(fix?.edit, `no fix: ${actions.map(action => action.title).join(' | ')}`);
    console.log(`      fix: ${fix.title}`);
    await vscode.workspace.applyEdit(fix.edit);
    check(document.getText() !== broken, 'the fix changed nothing');
    await until('the problem to go', () => !problems().some(problem => codeOf(problem) === 'chip-load-high'));
    await vscode.commands.executeCommand('undo');
    check(document.getText() === broken, 'one undo does not take the fix back');
    await vscode.commands.executeCommand('undo');
    check(document.getText() === before, 'undo does not end at the start');
  });

  test('an unsaved program is reviewed, beside another', async () => {
    const content = 'G20\nT2 M6 (1/2 3FL EM)\nS8000 M3\nG1 X1. F72.\nG1 X2. F-1.\nM30\n';
    const unsaved = await vscode.workspace.openTextDocument({ language: 'rs274', content });
    await vscode.window.showTextDocument(unsaved, { preview: false });
    await until('a problem', () =>
      vscode.languages.getDiagnostics(unsaved.uri).some(p => p.range.start.line === 4),
    );
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  });
}

const codeOf = ({ code }: vscode.Diagnostic): unknown => (typeof code === 'object' ? code.value : code);
