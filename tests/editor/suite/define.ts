import * as vscode from 'vscode';
import { commandCases } from './commands.ts';
import { firstThread, pictures } from './first-thread.ts';
import { check, type Host } from './support.ts';

/** All cases, the same for every host: they use the editor's own interface alone. */
export function define(host: Host): void {
  const title = `${host.kind} extension host, VS Code ${vscode.version}`;
  suite(`${title}: first thread`, () => firstThread(host));
  suite(`${title}: commands`, () => commandCases(host));
  suite(`${title}: pictures`, () => pictures(host));
  if (host.fail) test('fails on purpose', () => check(false, 'as asked'));
}

/** The line that the one command of the project adds up. */
export const countLine = (passed: number, failed: number, skipped: number): string =>
  `${passed} passed, ${failed} failed, ${skipped} skipped`;
