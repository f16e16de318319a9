import type { Range, SemanticTokensLegend } from 'vscode-languageserver';
import type { ProgramText } from '../rs274/index.ts';
import { isFunctionName, type LineToken, lineTokens } from './line-tokens.ts';

/** Standard token types, so that every colour theme has them. */
export const SEMANTIC_LEGEND: SemanticTokensLegend = {
  tokenTypes: [
    'comment',
    'keyword',
    'macro',
    'type',
    'function',
    'enumMember',
    'parameter',
    'property',
    'number',
    'operator',
    'label',
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
    for (const [start, end, type] of typedPieces(text.lineText(line))) {
      data.push(
        line - last_line,
        line === last_line ? start - last_start : start,
        end - start,
        TYPE[type],
        0,
      );
      last_line = line;
      last_start = start;
    }
  }
  return data;
}

/** The coloured pieces of a line; of a word that is an axis or a plain letter the number is a piece of its own. */
function* typedPieces(source: string): Generator<[start: number, end: number, type: string]> {
  for (const token of lineTokens(source)) {
    const type = typeOf(token);
    if (type === undefined) continue;
    if (token.kind !== 'word' || type !== 'property' || token.end === token.start + 1) {
      yield [token.start, token.end, type];
      continue;
    }
    yield [token.start, token.start + 1, type];
    const blanks = /^[ \t]*/.exec(source.slice(token.start + 1))?.[0].length ?? 0;
    yield [token.start + 1 + blanks, token.end, 'number'];
  }
}

function typeOf(token: LineToken): string | undefined {
  switch (token.kind) {
    case 'comment':
    case 'label':
    case 'operator':
    case 'number':
    case 'parameter':
      return token.kind;
    case 'keyword':
      return isFunctionName(token.name) ? 'function' : 'macro';
    case 'tape-mark':
    case 'block-delete':
      return 'operator';
    case 'word':
      return wordType(token);
    default:
      return undefined;
  }
}

/** Motion, tool and spindle, feed, and what is set stand apart; `M6` goes with the tool, `M3` to `M5` with the spindle. */
function wordType({ letter, value }: LineToken): string {
  if (letter === 'G') return MOTION.has(value) ? 'keyword' : 'enumMember';
  if (letter === 'M') return TOOL_AND_SPINDLE.has(value) ? 'type' : 'enumMember';
  if (letter === 'N' || letter === 'O') return 'label';
  if ('THDS'.includes(letter)) return 'type';
  return letter === 'F' ? 'function' : 'property';
}

const MOTION: ReadonlySet<number> = new Set([
  0, 1, 2, 3, 32, 33, 73, 74, 76, 81, 82, 83, 84, 85, 86, 87, 88, 89,
]);
const TOOL_AND_SPINDLE: ReadonlySet<number> = new Set([3, 4, 5, 6]);
