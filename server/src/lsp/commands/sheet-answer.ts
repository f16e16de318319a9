import { TextDocument } from 'vscode-languageserver-textdocument';
import { sheetName } from '../../job/job-files.ts';
import { programFacts } from '../../job/program-facts.ts';
import { applyTextEdits, type EditResult, newSheet } from '../../setup/index.ts';
import type { Answer } from '../protocol.ts';
import type { CommandContext } from './command.ts';
import { say } from './command.ts';

/** The URI of the setup sheet of a program. */
export function sheetUri({ server, params }: CommandContext): string {
  const folder = server.files.parent(params.uri);
  return server.files.join(folder ?? params.uri, sheetName(fileName(params.uri)));
}

/** Text of the setup sheet, or a new one that holds no tools but those named: a tool that no one confirmed stays unconfirmed. */
export function sheetText(
  context: CommandContext,
  uri: string,
  tools: readonly number[],
): Promise<{ text: string; isNew: boolean }> {
  const facts = programFacts(context.job.review, fileName(context.params.uri));
  const chosen = facts.tools.filter(tool => tools.includes(tool.number));
  return textOf(context, uri, () => newSheet({ ...facts, tools: chosen }));
}

/** The last part of an address, as a person writes it. */
export const fileName = (uri: string): string => decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));

/** Text of a sheet or crib as it stands, or as it would begin. */
export async function textOf(
  context: CommandContext,
  uri: string,
  begin: () => string,
): Promise<{ text: string; isNew: boolean }> {
  const text = await context.server.files.text(uri);
  return text === undefined ? { text: begin(), isNew: true } : { text, isNew: false };
}

/** Edits of a JSON file as an answer; a file that is not there yet is made whole. */
export function editAnswer(
  uri: string,
  text: string,
  isNew: boolean,
  result: EditResult,
  label: string,
): Answer {
  if ('why' in result) return say(`${label}: not done, ${result.why}.`, 'warning');
  if (result.edits.length === 0 && !isNew) return say(`${label}: it says so already.`);
  const document = TextDocument.create(uri, 'jsonc', 0, text);
  return {
    do: 'edit',
    label,
    uri,
    edits: result.edits.map(edit => ({
      range: { start: document.positionAt(edit.offset), end: document.positionAt(edit.offset + edit.length) },
      newText: edit.text,
    })),
    ...(isNew ? { create: applyTextEdits(text, result.edits) } : {}),
  };
}
