import * as vscode from 'vscode';
import { exists } from './files.ts';

/** Copies the sample job out of the extension, so that it can be changed freely, and opens it; what was changed there is kept. */
export async function openSampleJob(context: vscode.ExtensionContext): Promise<void> {
  const from = vscode.Uri.joinPath(context.extensionUri, 'dist/sample');
  const to = vscode.Uri.joinPath(context.globalStorageUri, 'sample');
  const names = ['bracket.nc', 'bracket.setup.json'];
  await vscode.workspace.fs.createDirectory(to);
  for (const name of names) await copyOnce(vscode.Uri.joinPath(from, name), vscode.Uri.joinPath(to, name));
  await vscode.window.showTextDocument(vscode.Uri.joinPath(to, names[0]), { preview: false });
}

export async function openWalkthrough(context: vscode.ExtensionContext): Promise<void> {
  await vscode.commands.executeCommand(
    'workbench.action.openWalkthrough',
    `${context.extension.id}#firstSteps`,
    false,
  );
}

async function copyOnce(from: vscode.Uri, to: vscode.Uri): Promise<void> {
  if (await exists(to)) return;
  // Read and written, not copied: the extension may lie in another file system than its storage.
  await vscode.workspace.fs.writeFile(to, await vscode.workspace.fs.readFile(from));
}
