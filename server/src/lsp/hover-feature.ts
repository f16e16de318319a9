import { type Hover, MarkupKind } from 'vscode-languageserver';
import { blockHover } from './block-hover.ts';
import type { Feature } from './feature.ts';
import { guard } from './guard.ts';

/** Hover: the block's table with its sums unfolded, and what the word under the cursor does. */
export const hoverFeature: Feature = {
  name: 'hover',
  capabilities: { hoverProvider: true },
  register({ connection, jobs }) {
    connection.onHover(
      guard(connection, 'hover', null as Hover | null, async ({ textDocument, position }) => {
        const job = await jobs.job(textDocument.uri);
        const value = job && blockHover(job.review, position.line);
        return value ? { contents: { kind: MarkupKind.Markdown, value } } : null;
      }),
    );
  },
};
