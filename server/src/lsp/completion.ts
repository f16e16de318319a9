import type { CompletionItem, Position } from 'vscode-languageserver';
import {
  CODES,
  type CodeRow,
  codeFor,
  codeName,
  type Dialect,
  type MachineKind,
  type Reading,
} from '../rs274/index.ts';
import { CompletionItemKind } from './library.ts';
import { type LineToken, lineTokens } from './line-tokens.ts';
import { sectionsOf } from './outline.ts';
import { roleOf } from './word-roles.ts';

/**
 * What can stand at a position: after G or M the codes of this dialect whose modal group the block does not use yet; else
 * the words that the block's code takes, needed ones first; after `P` of a call the programs of the file.
 */
export function completions(reading: Reading, position: Position): CompletionItem[] {
  const source = reading.text.lineText(position.line).slice(0, position.character);
  const tokens = lineTokens(source);
  const last = tokens[tokens.length - 1];
  if (last?.kind === 'comment') return [];
  const typed = /([A-Za-z])([\d.]*)$/.exec(source);
  const before = typed === null ? tokens : tokens.filter(token => token.end <= typed.index);
  const letter = typed?.[1].toUpperCase();
  const start = { line: position.line, character: typed === null ? position.character : typed.index };
  const range = { start, end: position };
  if (letter === 'G' || letter === 'M') return codeItems(reading, before, letter, range);
  if (letter === 'P' && callsProgram(before)) return programItems(reading, range);
  if (letter !== undefined && typed !== null && typed[2] !== '') return [];
  return [
    ...wordItems(reading, position.line, before, range),
    ...(letter === undefined ? codeItems(reading, before, 'G', range) : []),
  ];
}

type Range = { start: Position; end: Position };

function codeItems(
  reading: Reading,
  before: readonly LineToken[],
  letter: 'G' | 'M',
  range: Range,
): CompletionItem[] {
  const { dialect, kind } = reading.settled;
  const used = new Set(rowsOf(before, dialect.value, kind.value).map(row => row.group));
  return CODES.filter(
    row =>
      row.letter === letter &&
      row.through === undefined &&
      fits(row, dialect.value, kind.value) &&
      !(row.modal && used.has(row.group)),
  ).map(row => ({
    label: codeName(row),
    kind: CompletionItemKind.Keyword,
    detail: row.means,
    documentation: `${row.does}\n\nExample: ${row.example}`,
    sortText: sortKey(row.motion === 'moves' ? 1 : row.effect === 'not-followed' ? 3 : 2, row.number),
    textEdit: { range, newText: codeName(row) },
  }));
}

function fits(row: CodeRow, dialect: Dialect, kind: MachineKind): boolean {
  return codeFor(row.letter, row.number, dialect, kind) === row;
}

function wordItems(
  reading: Reading,
  line: number,
  before: readonly LineToken[],
  range: Range,
): CompletionItem[] {
  const { dialect, kind } = reading.settled;
  const rows = rowsOf(before, dialect.value, kind.value);
  if (rows.every(row => row.group !== 'motion' && row.effect !== 'macro-call')) {
    const motion = reading.runAt(Math.max(0, line - 1), 'motion') / 10;
    const row = Number.isNaN(motion) ? undefined : codeFor('G', motion, dialect.value, kind.value);
    if (row !== undefined) rows.push(row);
  }
  const have = new Set(before.map(token => token.letter));
  const items = new Map<string, CompletionItem>();
  for (const row of rows) {
    const needed = row.words.required.flatMap(word => word.split('|'));
    for (const letter of [...needed, ...row.words.optional]) {
      if (have.has(letter) || items.has(letter)) continue;
      items.set(letter, {
        label: letter,
        kind: CompletionItemKind.Field,
        detail: roleOf(letter.replace(',', ''), row, kind.value === 'lathe'),
        documentation: `With ${codeName(row)} (${row.means})${needed.includes(letter) ? '; needed' : ''}.`,
        sortText: sortKey(needed.includes(letter) ? 0 : 1, items.size),
        textEdit: { range, newText: letter },
      });
    }
  }
  return [...items.values()];
}

function programItems(reading: Reading, range: Range): CompletionItem[] {
  return sectionsOf(reading)
    .filter(({ kind, name }) => kind === 'program' && /^O\d+$/.test(name))
    .map(({ name, detail }) => ({
      label: `P${name.slice(1)}`,
      kind: CompletionItemKind.Function,
      detail,
      textEdit: { range, newText: `P${name.slice(1)}` },
    }));
}

function callsProgram(tokens: readonly LineToken[]): boolean {
  return tokens.some(
    ({ letter, value }) =>
      (letter === 'M' && (value === 98 || value === 198)) ||
      (letter === 'G' && (value === 65 || value === 66)),
  );
}

function rowsOf(tokens: readonly LineToken[], dialect: Dialect, kind: MachineKind): CodeRow[] {
  return tokens
    .filter(token => (token.letter === 'G' || token.letter === 'M') && !Number.isNaN(token.value))
    .map(token => codeFor(token.letter === 'G' ? 'G' : 'M', token.value, dialect, kind))
    .filter(row => row !== undefined);
}

const sortKey = (first: number, second: number): string =>
  `${first}${String(Math.round(second * 10)).padStart(6, '0')}`;
