import type { CodeAction } from 'vscode-languageserver';
import { codeActions } from './code-actions.ts';
import type { Feature } from './feature.ts';
import { guard } from './guard.ts';
import { CodeActionKind } from './library.ts';

/** Fixes and silences at a place. */
export const codeActionFeature: Feature = {
  name: 'code actions',
  capabilities: { codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] } },
  register({ connection, jobs }) {
    connection.onCodeAction(
      guard(connection, 'code actions', [] as CodeAction[], async ({ textDocument, range }) => {
        const job = await jobs.job(textDocument.uri);
        return job ? codeActions(job.review, textDocument.uri, range) : [];
      }),
    );
  },
};
