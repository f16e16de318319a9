import type { InlayHint } from 'vscode-languageserver';
import type { ProgramText } from '../rs274/index.ts';
import type { Feature } from './feature.ts';
import { guard } from './guard.ts';
import { HINT_REACH, hintLines, type LineHint } from './hint-lines.ts';

/** Inlay hints at the ends of blocks, for the range that the editor asks for. */
export const inlayHintFeature: Feature = {
  name: 'inlay hints',
  capabilities: { inlayHintProvider: true },
  register({ connection, jobs, settings }) {
    connection.languages.inlayHint.on(
      guard(connection, 'inlay hints', [] as InlayHint[], async ({ textDocument, range }, token) => {
        const { uri } = textDocument;
        const to = range.end.line;
        const job = await jobs.jobUpTo(uri, to + HINT_REACH, () => token.isCancellationRequested);
        if (!job) return [];
        const { level } = await settings.of(uri);
        const { text } = job.program;
        return hintLines(job.review, level, range.start.line, to, job.right_lines).map(hint =>
          inlayHint(hint, text, uri),
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
