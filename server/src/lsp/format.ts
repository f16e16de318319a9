import type { Range, TextEdit } from 'vscode-languageserver';
import { BlockReader } from '../rs274/block-reader.ts';
import type { ProgramText, Settled } from '../rs274/index.ts';
import { type LineToken, lineTokens } from './line-tokens.ts';
import { linesOf } from './text-lines.ts';

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
  const reader = new BlockReader({
    semicolon_ends_block: settled.semicolon_ends_block.value,
    report_rules: settled.dialect.value === 'ngc',
  });
  const reads = (source: string, line: number): boolean => {
    const bytes = Uint8Array.from(source, unit => Math.min(255, unit.charCodeAt(0)));
    reader.problems = [];
    return !reader.read(bytes, 0, bytes.length, line).needs_flow && reader.problems.length === 0;
  };
  for (const { line, source } of linesOf(text)) {
    if (line < first) continue;
    if (line > last || settled.not_cutting !== undefined) break;
    const after = formatLine(source, options, text => reads(text, line));
    if (after === source) continue;
    edits.push({
      range: { start: { line, character: 0 }, end: { line, character: source.length } },
      newText: after,
    });
  }
  return edits;
}

function formatLine(before: string, options: FormatOptions, reads: (text: string) => boolean): string {
  if (before.includes('[') && !before.includes(']')) return before;
  const bare = before.replace(/[ \t]+$/, '');
  if (bare === '' || !reads(bare)) return bare;
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
