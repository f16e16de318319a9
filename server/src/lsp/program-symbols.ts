import type { Position, Range } from 'vscode-languageserver';
import { codeFor, type Effect, type Reading, type Settled } from '../rs274/index.ts';
import { type LineToken, lineTokens } from './line-tokens.ts';
import { linesOf } from './text-lines.ts';

/** Something of a program that has a place where it is made and places where it is used. */
export interface ProgramSymbol {
  kind: 'program' | 'subroutine' | 'block' | 'parameter' | 'tool';
  /** Number or name, without leading zeros. */
  name: string;
}

/** One place of a symbol. */
export interface SymbolPlace extends ProgramSymbol {
  range: Range;
  /** It is made or set here; else it is used. */
  makes: boolean;
}

/** Symbols that a line holds, in order. */
export function placesOfLine(source: string, line: number, settled: Settled): SymbolPlace[] {
  const tokens = lineTokens(source);
  const places: SymbolPlace[] = [];
  const context = contextOf(tokens, settled);
  for (let at = 0; at < tokens.length; at += 1) {
    const token = tokens[at];
    const symbol = symbolOf(tokens, at, context);
    if (symbol === undefined) continue;
    const range = { start: { line, character: token.start }, end: { line, character: token.end } };
    places.push({ ...symbol, range });
  }
  return places;
}

/** The symbol at a position of a text. */
export function symbolAt(reading: Reading, position: Position): SymbolPlace | undefined {
  const places = placesOfLine(reading.text.lineText(position.line), position.line, reading.settled);
  const inside = (place: SymbolPlace): boolean =>
    place.range.start.character <= position.character && position.character <= place.range.end.character;
  return places.find(inside);
}

/** All places of a symbol in a text, at most `most`. */
export function placesOf(reading: Reading, symbol: ProgramSymbol, most = 10_000): SymbolPlace[] {
  const found: SymbolPlace[] = [];
  const holds = mentions(symbol);
  for (const { line, source } of linesOf(reading.text, chunk => holds.test(chunk))) {
    if (found.length >= most) break;
    if (!holds.test(source)) continue;
    for (const place of placesOfLine(source, line, reading.settled))
      if (place.kind === symbol.kind && place.name === symbol.name) found.push(place);
  }
  return found;
}

/** What a line that holds a symbol must match; most lines do not. */
function mentions({ kind, name }: ProgramSymbol): RegExp {
  const digits = [...name].join('[ \\t]*');
  switch (kind) {
    case 'program':
      return new RegExp(`[OoPp:][ \\t]*\\d*${digits}`);
    case 'tool':
      return new RegExp(`[Tt][ \\t]*0*${digits}`);
    case 'block':
      return new RegExp(`(?:[NPQnpq]|goto)[ \\t]*0*${digits.replace('.', '\\.')}`, 'i');
    case 'subroutine':
      return /[OoQq]/;
    default:
      return /#/;
  }
}

interface Context {
  calls_program: boolean;
  calls_block: boolean;
  /** P and Q are the first and last block of a profile; in the report's successor Q is its subroutine. */
  profile: boolean;
  ngc: boolean;
  lathe_tool: boolean;
  goes_to: boolean;
}

function contextOf(tokens: readonly LineToken[], settled: Settled): Context {
  const has = (letter: string, ...numbers: number[]): boolean =>
    tokens.some(token => token.letter === letter && numbers.includes(token.value));
  return {
    calls_program: has('M', 98, 198) || has('G', 65, 66),
    calls_block: has('M', 97, 99),
    profile: tokens.some(token => isProfileCycle(token, settled)),
    ngc: settled.dialect.value === 'ngc',
    lathe_tool: tokens.some(token => token.letter === 'T' && token.end - token.start > 3),
    goes_to: tokens.some(({ name }) => name === 'GOTO'),
  };
}

function symbolOf(
  tokens: readonly LineToken[],
  at: number,
  context: Context,
): Omit<SymbolPlace, 'range'> | undefined {
  const token = tokens[at];
  const whole = (kind: ProgramSymbol['kind'], makes: boolean, value = token.value) =>
    Number.isNaN(value) ? undefined : { kind, name: String(value), makes };
  if (token.kind === 'parameter') {
    return { kind: 'parameter', name: token.name, makes: tokens[at + 1]?.name === '=' };
  }
  if (token.kind === 'label' && token.name !== '') return flowLabel(tokens, at);
  if (token.kind === 'number' && tokens[at - 1]?.name === 'GOTO') return whole('block', false);
  if (token.kind !== 'word') return undefined;
  switch (token.letter) {
    case 'O':
      return whole('program', true);
    case 'N':
      return whole('block', true);
    case 'T':
      return whole(
        'tool',
        tokens.some(({ letter, value }) => letter === 'M' && value === 6) || context.lathe_tool,
        toolNumber(token),
      );
    case 'P':
      if (context.calls_program)
        return whole('program', false, token.value > 9999 ? token.value % 10_000 : token.value);
      return context.calls_block || (context.profile && !context.ngc) ? whole('block', false) : undefined;
    case 'Q':
      if (!context.profile) return undefined;
      return whole(context.ngc ? 'subroutine' : 'block', false);
    default:
      return undefined;
  }
}

const PROFILE_CYCLES: readonly Effect[] = [
  'finishing',
  'turning-roughing',
  'facing-roughing',
  'pattern-repeating',
];

function isProfileCycle({ letter, value }: LineToken, settled: Settled): boolean {
  if (letter !== 'G' || Number.isNaN(value)) return false;
  const row = codeFor('G', value, settled.dialect.value, settled.kind.value);
  return row !== undefined && PROFILE_CYCLES.includes(row.effect);
}

/** Tool of a T word: lathes write tool and offset in one number of four digits or more. */
function toolNumber(token: LineToken): number {
  return token.end - token.start > 4 && token.value > 99 ? Math.floor(token.value / 100) : token.value;
}

function flowLabel(tokens: readonly LineToken[], at: number): Omit<SymbolPlace, 'range'> | undefined {
  const word = tokens[at + 1]?.name;
  if (word !== 'SUB' && word !== 'CALL' && word !== 'ENDSUB' && word !== 'RETURN') return undefined;
  return { kind: 'subroutine', name: tokens[at].name, makes: word === 'SUB' };
}
