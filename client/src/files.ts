import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type ListFolderParams,
  type ReadFileParams,
  type ReadFileResult,
  request,
} from '../../server/src/lsp/protocol.ts';

/** Answers the server's questions about files; only reads, and only what the server names. */
export function answerFileRequests(client: BaseLanguageClient): void {
  client.onRequest(request.readFile, (params: ReadFileParams) => readFile(params));
  client.onRequest(request.listFolder, (params: ListFolderParams) => listFolder(params));
}

async function readFile({ uri, most_bytes }: ReadFileParams): Promise<ReadFileResult> {
  const at = vscode.Uri.parse(uri);
  try {
    const { size, mtime } = await vscode.workspace.fs.stat(at);
    if (size > most_bytes) return { missing: 'too large', detail: `${size} bytes, at most ${most_bytes}` };
    const bytes = await vscode.workspace.fs.readFile(at);
    return { text: new TextDecoder().decode(bytes), modified: mtime };
  } catch (error) {
    return isNotThere(error) ? { missing: 'not there' } : { missing: 'not readable', detail: String(error) };
  }
}

async function listFolder({ uri }: ListFolderParams): Promise<string[]> {
  try {
    const entries = await vscode.workspace.fs.readDirectory(vscode.Uri.parse(uri));
    return entries.map(([name, type]) => (type & vscode.FileType.Directory ? `${name}/` : name));
  } catch (error) {
    if (error instanceof vscode.FileSystemError) return [];
    throw error;
  }
}

export async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch (error) {
    if (isNotThere(error)) return false;
    throw error;
  }
}

const isNotThere = (error: unknown): boolean =>
  error instanceof vscode.FileSystemError && error.code === 'FileNotFound';
