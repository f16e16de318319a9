import type { InlayHint } from 'vscode-languageserver';
import type { ProgramText } from '../rs274/index.ts';
import type { Feature } from './feature.ts';
import { guard } from './guard.ts';
import { hintLines, type LineHint } from './hint-lines.ts';

/** Inlay hints at the ends of blocks, for the range that the editor asks for. */
export const inlayHintFeature: Feature = {
  name: 'inlay hints',
  capabilities: { inlayHintProvider: true },
  register({ connection, jobs, settings }) {
    connection.languages.inlayHint.on(
      guard(connection, 'inlay hints', [] as InlayHint[], async ({ textDocument, range }) => {
        const job = await jobs.job(textDocument.uri);
        if (!job) return [];
        const { level } = await settings.of(textDocument.uri);
        const { text } = job.program;
        return hintLines(job.review, level, range.start.line, range.end.line).map(hint =>
          inlayHint(hint, text, textDocument.uri),
        );
      }),
    );
  },
};

function inlayHint(hint: LineHint, text: ProgramText, uri: string): InlayHint {
  const end = text.lineText(hint.line).trimEnd().length;
  const label = hint.ask
    ? [
        {
          value: hint.text,
          tooltip: hint.ask.title,
          command: { title: hint.ask.title, command: hint.ask.command, arguments: [uri, ...hint.ask.args] },
        },
      ]
    : hint.text;
  return {
    position: { line: hint.line, character: end },
    label,
    paddingLeft: true,
    ...(hint.means ? { tooltip: hint.means } : {}),
  };
}
