import * as vscode from 'vscode';
import { commandCases } from './commands.ts';
import { cribCases } from './crib.ts';
import { firstThread } from './first-thread.ts';
import { largeCases } from './large.ts';
import { pictures } from './pictures.ts';
import { check, type Host } from './support.ts';
import { twoPrograms } from './two-programs.ts';

/** All cases, the same for every host: they use the editor's own interface alone. */
export function define(host: Host): void {
  const title = `${host.kind} extension host, VS Code ${vscode.version}`;
  suite(`${title}: first thread`, () => firstThread(host));
  suite(`${title}: commands`, () => commandCases(host));
  suite(`${title}: crib`, () => cribCases(host));
  suite(`${title}: two programs`, () => twoPrograms(host));
  if (host.kind === 'node') suite(`${title}: large programs`, () => largeCases(host));
  suite(`${title}: pictures`, () => pictures(host));
  if (host.fail) test('fails on purpose', () => check(false, 'as asked'));
}

/** The line that the one command of the project adds up. */
export const countLine = (passed: number, failed: number, skipped: number): string =>
  `${passed} passed, ${failed} failed, ${skipped} skipped`;

/** What `run.mjs` was told by its environment; it comes as settings, since the worker host has no environment. */
export function readOptions(): { fail: boolean; grep: string } {
  const options = vscode.workspace.getConfiguration('tapeproofTests');
  const grep = options.get('grep', '');
  if (grep) console.log(`only cases with ${JSON.stringify(grep)} in their title`);
  return { fail: options.get('fail', false), grep };
}
