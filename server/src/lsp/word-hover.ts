import type { Hover, Position } from 'vscode-languageserver';
import {
  type CodeRow,
  codeFor,
  codeName,
  dialectsOf,
  GROUPS,
  meaningsOf,
  type Reading,
} from '../rs274/index.ts';
import { type LineToken, lineTokens, tokenAt } from './line-tokens.ts';
import { plain } from './markdown.ts';
import { inForce } from './modal-history.ts';
import { placesOf, symbolAt } from './program-symbols.ts';
import { roleOf } from './word-roles.ts';

/** What the word under the cursor does here and now: its meaning in this dialect and block, and what is still in force. */
export function wordHover(reading: Reading, position: Position): Hover | undefined {
  const tokens = lineTokens(reading.text.lineText(position.line));
  const token = tokenAt(tokens, position.character);
  if (token === undefined) return undefined;
  const value = textOf(reading, position, tokens, token);
  if (value === undefined) return undefined;
  const { line } = position;
  const range = { start: { line, character: token.start }, end: { line, character: token.end } };
  return { contents: { kind: 'markdown', value }, range };
}

function textOf(
  reading: Reading,
  position: Position,
  tokens: readonly LineToken[],
  token: LineToken,
): string | undefined {
  if (token.kind === 'parameter') return parameterText(reading, position);
  if (token.kind === 'block-delete')
    return 'Block delete: with the switch on, the control leaves this block out.';
  if (token.kind !== 'word') return undefined;
  if (token.letter === 'G' || token.letter === 'M')
    return Number.isNaN(token.value) ? undefined : codeText(reading, position.line, token);
  return letterText(reading, position.line, tokens, token);
}

function codeText(reading: Reading, line: number, token: LineToken): string {
  const { dialect, kind } = reading.settled;
  const letter = token.letter === 'G' ? 'G' : 'M';
  const row = codeFor(letter, token.value, dialect.value, kind.value);
  if (row === undefined) return strangerText(letter, token.value, dialect.value);
  const parts = [`**${codeName({ letter, number: token.value })}** ${plain(row.means)}`, plain(row.does)];
  if (row.leaves_unchecked !== undefined)
    parts.push(`Not followed. Not checked: ${plain(row.leaves_unchecked)}.`);
  const words = wordsLine(row);
  if (words !== '') parts.push(words);
  parts.push(
    `Modal group ${GROUPS[row.group]} (${row.group})${row.modal ? '' : ', this block only'}. Source: ${plain(row.source)}.`,
  );
  const history = historyText(reading, line);
  if (history !== '') parts.push(history);
  return parts.join('\n\n');
}

function wordsLine({ words }: CodeRow): string {
  const needed = words.required.length > 0 ? `needs ${words.required.join(' ').replaceAll('|', ' or ')}` : '';
  const taken = words.optional.length > 0 ? `takes ${words.optional.join(' ')}` : '';
  const text = [needed, taken].filter(part => part !== '').join('; ');
  return text === '' ? '' : plain(`${text[0].toUpperCase()}${text.slice(1)}.`);
}

function strangerText(letter: 'G' | 'M', number: number, dialect: string): string {
  const name = codeName({ letter, number });
  const others = dialectsOf(letter, number);
  if (others.length === 0) return `**${name}** is not a code that is known here.`;
  const means = meaningsOf(letter, number).map(row => `${plain(row.means)} (${row.dialects.join(', ')})`);
  return `**${name}** is not a code of ${dialect}. Elsewhere: ${means.join('; ')}.`;
}

function letterText(
  reading: Reading,
  line: number,
  tokens: readonly LineToken[],
  token: LineToken,
): string | undefined {
  const { settled } = reading;
  const lathe = settled.kind.value === 'lathe';
  const row = ruling(reading, line, tokens, token.letter);
  const role = roleOf(token.letter, row, lathe);
  if (role === '') return undefined;
  const parts = [
    `**${token.letter}** ${plain(role)}${row === undefined ? '' : `, with ${codeName(row)} (${plain(row.means)})`}`,
  ];
  const written = reading.text.lineText(line).slice(token.start, token.end);
  const least = settled.least_increment_mm;
  if (
    least.value !== 0 &&
    LENGTH_LETTERS.includes(token.letter) &&
    /[1-9]/.test(written) &&
    !written.includes('.')
  ) {
    parts.push(`Without a decimal point this counts steps of ${least.value} mm (${plain(least.why)}).`);
  }
  const history = historyText(reading, line);
  if (history !== '') parts.push(history);
  return parts.join('\n\n');
}

const LENGTH_LETTERS = 'XYZUVWABCIJKR';

/** The code that says what a letter means in this block: one that is written in it, else the motion in force. */
function ruling(
  reading: Reading,
  line: number,
  tokens: readonly LineToken[],
  letter: string,
): CodeRow | undefined {
  const { dialect, kind } = reading.settled;
  const rows = tokens
    .filter(token => (token.letter === 'G' || token.letter === 'M') && !Number.isNaN(token.value))
    .map(token => codeFor(token.letter === 'G' ? 'G' : 'M', token.value, dialect.value, kind.value))
    .filter(row => row !== undefined);
  const takes = (row: CodeRow): boolean =>
    [...row.words.required, ...row.words.optional].some(words => words.split('|').includes(letter));
  const written = rows.find(takes);
  if (written !== undefined) return written;
  const motion = reading.runAt(line, 'motion') / 10;
  const row = Number.isNaN(motion) ? undefined : codeFor('G', motion, dialect.value, kind.value);
  return row !== undefined && takes(row) ? row : undefined;
}

function historyText(reading: Reading, line: number): string {
  const still = inForce(reading, line);
  if (still.length === 0) return '';
  const list = still.map(({ text, means, line: from }) => {
    const name = means === '' ? text : `${text} (${means})`;
    return plain(from === undefined ? name : `${name} from line ${from + 1}`);
  });
  return `Still in force: ${list.join(', ')}.`;
}

function parameterText(reading: Reading, position: Position): string | undefined {
  const symbol = symbolAt(reading, position);
  if (symbol === undefined) return undefined;
  const places = placesOf(reading, symbol);
  const settings = places.filter(place => place.makes);
  const above = settings.filter(({ range }) => range.start.line < position.line).at(-1);
  const name = /^\d+$/.test(symbol.name) ? `#${symbol.name}` : `#<${symbol.name}>`;
  const last =
    above === undefined
      ? 'not set above'
      : `last set above on line ${above.range.start.line + 1}: ${plain(reading.text.lineText(above.range.start.line).trim())}`;
  return `**${plain(name)}** parameter, ${last}. Set in ${settings.length} and used in ${places.length - settings.length} places.`;
}
