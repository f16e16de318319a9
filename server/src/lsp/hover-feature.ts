import type { Hover } from 'vscode-languageserver';
import { blockHover } from './block-hover.ts';
import type { Feature } from './feature.ts';
import { guard } from './guard.ts';
import { MarkupKind } from './library.ts';
import { wordHover } from './word-hover.ts';

/** Hover: the block's table with its sums unfolded, and what the word under the cursor does. */
export const hoverFeature: Feature = {
  name: 'hover',
  capabilities: { hoverProvider: true },
  register({ connection, jobs }) {
    connection.onHover(
      guard(connection, 'hover', null as Hover | null, async ({ textDocument, position }) => {
        const job = await jobs.job(textDocument.uri);
        if (!job) return null;
        const word = wordHover(job.review.program.reading, position);
        const sections = [blockHover(job.review, position.line, textDocument.uri), textOf(word)].filter(
          text => text !== undefined,
        );
        if (sections.length === 0) return null;
        const value = sections.join('\n\n---\n\n');
        return {
          contents: { kind: MarkupKind.Markdown, value },
          ...(word?.range ? { range: word.range } : {}),
        };
      }),
    );
  },
};

function textOf(hover: Hover | undefined): string | undefined {
  return hover && typeof hover.contents === 'object' && 'value' in hover.contents
    ? hover.contents.value
    : undefined;
}
