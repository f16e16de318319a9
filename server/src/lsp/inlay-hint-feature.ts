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
    position: { line: hint.line, character: endOfBlock(text, hint.line) },
    label,
    paddingLeft: true,
    ...(hint.means ? { tooltip: hint.means } : {}),
  };
}

/** Column behind the last character of a line that is no blank; the line is not made a string for that. */
function endOfBlock(text: ProgramText, line: number): number {
  const { chunk, start, end } = text.linePlace(line);
  let at = end;
  while (at > start && isBlank(chunk.bytes[at - 1])) at--;
  return at - start;
}

const NO_BREAK_SPACE = 0xa0;
const isBlank = (byte: number) => byte <= 32 || byte === NO_BREAK_SPACE;
