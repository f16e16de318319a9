import * as vscode from 'vscode';
import {
  type Answer,
  type Choice,
  type CommandParams,
  request,
  type Span,
} from '../../server/src/lsp/protocol.ts';
import { exists } from './files.ts';
import { showPage } from './pages.ts';
import type { Session } from './session.ts';

/** Sends a command to the server and does what its answers say. */
export async function carryOut(session: Session, name: string, args: unknown[]): Promise<void> {
  const params = paramsOf(args);
  if (!params) {
    void vscode.window.showInformationMessage('Open a program first.');
    return;
  }
  const client = await session.client();
  const ask = async (method: string, sent: CommandParams) => {
    const answers = await client.sendRequest<Answer[] | Answer | null>(request.command(method), sent);
    for (const answer of [answers ?? []].flat()) await act(answer);
  };
  const act = async (answer: Answer): Promise<void> => {
    switch (answer.do) {
      case 'say':
        return say(answer);
      case 'edit':
        return edit(answer);
      case 'open':
        return open(answer);
      case 'page':
        return showPage(answer);
      case 'ask': {
        const chosen = await choose(answer);
        if (chosen !== undefined) await ask(answer.request, { ...params, args: [...answer.args, chosen] });
      }
    }
  };
  await ask(name, params);
}

/**
 * The file is the one given (menu, link) or the one in front; the place is that of the cursor.
 * A menu gives the file and then what concerns the editor alone; a link gives its own arguments, the file first if need be.
 */
function paramsOf(args: unknown[]): CommandParams | undefined {
  const editor = vscode.window.activeTextEditor;
  const [first, ...rest] = args;
  const isMenu = first instanceof vscode.Uri;
  const isFile = typeof first === 'string' && /^[a-z][a-z0-9+.-]+:/i.test(first);
  const uri = isMenu ? first : isFile ? vscode.Uri.parse(first) : (editor?.document.uri ?? fileInFront());
  if (!uri) return undefined;
  const inFront = editor?.document.uri.toString() === uri.toString();
  const position = inFront ? editor.selection.active : undefined;
  return {
    uri: uri.toString(),
    ...(position ? { position: { line: position.line, character: position.character } } : {}),
    args: isMenu ? [] : isFile ? rest : args,
  };
}

/** The file of the tab in front: there is no text editor for one that is too large for extensions. */
export function fileInFront(): vscode.Uri | undefined {
  const input = vscode.window.tabGroups.activeTabGroup.activeTab?.input;
  return input instanceof vscode.TabInputText ? input.uri : undefined;
}

async function say(answer: Extract<Answer, { do: 'say' }>): Promise<void> {
  const options = answer.detail ? { detail: answer.detail, modal: true } : {};
  if (answer.severity === 'error') void vscode.window.showErrorMessage(answer.text, options);
  else if (answer.severity === 'warning') void vscode.window.showWarningMessage(answer.text, options);
  else void vscode.window.showInformationMessage(answer.text, options);
}

async function edit(answer: Extract<Answer, { do: 'edit' }>): Promise<void> {
  const change = new vscode.WorkspaceEdit();
  const uri = vscode.Uri.parse(answer.uri);
  const label = { label: answer.label, needsConfirmation: false };
  for (const { range, newText } of answer.edits) change.replace(uri, rangeOf(range), newText, label);
  const before = vscode.workspace.textDocuments.find(document => document.uri.toString() === uri.toString());
  if (answer.create !== undefined && !before && !(await exists(uri))) {
    const made = new vscode.WorkspaceEdit();
    made.createFile(uri, { contents: new TextEncoder().encode(answer.create) }, label);
    if (await vscode.workspace.applyEdit(made)) return;
  } else if (await vscode.workspace.applyEdit(change)) {
    // A file that no one has open would stay changed and unsaved out of sight.
    if (!before) await (await vscode.workspace.openTextDocument(uri)).save();
    return;
  }
  void vscode.window.showWarningMessage(
    `Not changed: ${answer.label}. The file was changed meanwhile or cannot be written.`,
  );
}

async function open(answer: Extract<Answer, { do: 'open' }>): Promise<void> {
  const uri = vscode.Uri.parse(answer.uri);
  const content = (await exists(uri)) ? undefined : answer.content;
  const document = await (content === undefined
    ? vscode.workspace.openTextDocument(uri)
    : openUnsaved(uri, content));
  const selection = answer.range && rangeOf(answer.range);
  await vscode.window.showTextDocument(document, { selection, viewColumn: vscode.ViewColumn.Beside });
}

/** Opens text under the name that it would be saved as; nothing is written until the person saves. */
async function openUnsaved(uri: vscode.Uri, content: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(uri.with({ scheme: 'untitled' }));
  if (document.getText() === '') {
    const fill = new vscode.WorkspaceEdit();
    fill.insert(document.uri, new vscode.Position(0, 0), content);
    await vscode.workspace.applyEdit(fill);
  }
  return document;
}

async function choose(answer: Extract<Answer, { do: 'ask' }>): Promise<unknown> {
  const items = answer.choices.map((choice: Choice) => ({ ...choice, picked: answer.many && choice.picked }));
  const options = {
    title: answer.title,
    placeHolder: answer.title,
    matchOnDescription: true,
    matchOnDetail: true,
  };
  if (!answer.many) return (await vscode.window.showQuickPick(items, options))?.value;
  return (await vscode.window.showQuickPick(items, { ...options, canPickMany: true }))?.map(
    item => item.value,
  );
}

const rangeOf = ({ start, end }: Span): vscode.Range =>
  new vscode.Range(start.line, start.character, end.line, end.character);
