import type { Range, TextEdit } from 'vscode-languageserver';
import { blockAt, type ProgramText, type Settled } from '../rs274/index.ts';
import { type LineToken, lineTokens } from './line-tokens.ts';

/** How blocks are to be written. */
export interface FormatOptions {
  /** Letters in upper case. */
  upper_case: boolean;
  /** One blank between words; otherwise none. */
  blanks: boolean;
}

export const USUAL_FORMAT: FormatOptions = { upper_case: true, blanks: true };

/**
 * Edits that tidy blocks: blanks between words and inside them, letters in upper case, no blanks at the end of a line.
 * Numbers, comments, names, expressions and lines that cannot be read without a problem stay as they are, so the
 * meaning does too.
 */
export function formatEdits(
  text: ProgramText,
  settled: Settled,
  range?: Range,
  options: FormatOptions = USUAL_FORMAT,
): TextEdit[] {
  const edits: TextEdit[] = [];
  const first = Math.max(range?.start.line ?? 0, settled.leader_lines);
  const last = Math.min(range?.end.line ?? text.lineCount - 1, text.lineCount - 1);
  for (let line = first; line <= last; line += 1) {
    const before = text.lineText(line);
    const after = formatLine(text, settled, line, before, options);
    if (after === before) continue;
    edits.push({
      range: { start: { line, character: 0 }, end: { line, character: before.length } },
      newText: after,
    });
  }
  return edits;
}

function formatLine(
  text: ProgramText,
  settled: Settled,
  line: number,
  before: string,
  options: FormatOptions,
): string {
  const bare = before.replace(/[ \t]+$/, '');
  if (bare === '' || settled.not_cutting !== undefined) return bare;
  if (before.includes('[') && !before.includes(']')) return before;
  const block = blockAt(text, line, settled);
  if (block.flow || block.problems.length > 0) return bare;
  const tokens = lineTokens(bare);
  if (!tokens.every(token => TIDY.has(token.kind))) return bare;
  return tokens.map((token, at) => gap(tokens, at, options) + written(bare, token, options)).join('');
}

const TIDY: ReadonlySet<LineToken['kind']> = new Set<LineToken['kind']>([
  'tape-mark',
  'block-delete',
  'comment',
  'word',
]);

function gap(tokens: readonly LineToken[], at: number, { blanks }: FormatOptions): string {
  if (at === 0 || tokens[at - 1].kind === 'block-delete') return '';
  return blanks || tokens[at].kind === 'comment' ? ' ' : '';
}

function written(line: string, token: LineToken, { upper_case }: FormatOptions): string {
  const text = line.slice(token.start, token.end);
  if (token.kind !== 'word') return text;
  const close = text.replace(/[ \t]+/g, '');
  return upper_case ? close.toUpperCase() : close;
}
