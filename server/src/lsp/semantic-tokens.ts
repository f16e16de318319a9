import type { Range, SemanticTokensLegend } from 'vscode-languageserver';
import type { ProgramText } from '../rs274/index.ts';
import { type LineToken, lineTokens } from './line-tokens.ts';

/** Standard token types, so that every colour theme has them. */
export const SEMANTIC_LEGEND: SemanticTokensLegend = {
  tokenTypes: [
    'comment',
    'keyword',
    'function',
    'property',
    'number',
    'variable',
    'operator',
    'label',
    'macro',
    'enumMember',
  ],
  tokenModifiers: [],
};

const TYPE = Object.fromEntries(SEMANTIC_LEGEND.tokenTypes.map((name, index) => [name, index]));
const MOST_LINES = 2000;

/** Encoded semantic tokens of the lines in a range (five numbers a token, relative to the one before). */
export function semanticTokens(text: ProgramText, range: Range): number[] {
  const data: number[] = [];
  let last_line = 0;
  let last_start = 0;
  const end = Math.min(range.end.line, text.lineCount - 1, range.start.line + MOST_LINES);
  for (let line = range.start.line; line <= end; line += 1) {
    for (const token of lineTokens(text.lineText(line))) {
      const type = typeOf(token);
      if (type === undefined) continue;
      const start = line === last_line ? token.start - last_start : token.start;
      data.push(line - last_line, start, token.end - token.start, TYPE[type], 0);
      last_line = line;
      last_start = token.start;
    }
  }
  return data;
}

function typeOf(token: LineToken): string | undefined {
  switch (token.kind) {
    case 'comment':
    case 'keyword':
    case 'label':
    case 'operator':
    case 'number':
      return token.kind;
    case 'parameter':
      return 'variable';
    case 'tape-mark':
    case 'block-delete':
      return 'macro';
    case 'word':
      return wordType(token.letter);
    default:
      return undefined;
  }
}

function wordType(letter: string): string {
  if (letter === 'G' || letter === 'M') return 'keyword';
  if (letter === 'N' || letter === 'O') return 'label';
  if (letter === 'T' || letter === 'H' || letter === 'D') return 'enumMember';
  return letter === 'F' || letter === 'S' ? 'number' : 'property';
}
