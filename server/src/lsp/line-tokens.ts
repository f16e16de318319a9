/** A piece of a line as the editor shows and moves it. Offsets are UTF-16 units in the line, end exclusive. */
export interface LineToken {
  kind:
    | 'tape-mark'
    | 'block-delete'
    | 'comment'
    | 'word'
    | 'parameter'
    | 'label'
    | 'keyword'
    | 'number'
    | 'operator'
    | 'bracket'
    | 'other';
  start: number;
  end: number;
  /** Upper-case letter of a word. */
  letter: string;
  /** Number of a word or a parameter; NaN when an expression gives it or there is none. */
  value: number;
  /** Name of a parameter, label of an O-word, keyword in upper case. */
  name: string;
}

const KEYWORDS = [
  'ENDREPEAT',
  'ENDWHILE',
  'CONTINUE',
  'ENDSUB',
  'ELSEIF',
  'RETURN',
  'REPEAT',
  'WHILE',
  'ENDIF',
  'BREAK',
  'DPRNT',
  'BPRNT',
  'POPEN',
  'PCLOS',
  'GOTO',
  'THEN',
  'CALL',
  'ELSE',
  'SUB',
  'END',
  'IF',
  'DO',
];
const OPERATOR_WORDS = ['MOD', 'AND', 'XOR', 'OR', 'EQ', 'NE', 'GT', 'GE', 'LT', 'LE'];
const FUNCTIONS = [
  'EXISTS',
  'ROUND',
  'ACOS',
  'ASIN',
  'ATAN',
  'SQRT',
  'ABS',
  'COS',
  'EXP',
  'FIX',
  'FUP',
  'SIN',
  'TAN',
  'BIN',
  'BCD',
  'POW',
  'ADP',
  'ATN',
  'SQR',
  'RND',
  'LN',
];

/** True for the name of a function, as SIN; false for a word of flow control. */
export const isFunctionName = (name: string): boolean => FUNCTIONS.includes(name);

const NUMBER = /^[ \t]*[+-]?[ \t]*(?:\d[\d \t]*)?(?:\.[\d \t]*)?/;
const LETTERS = /^[A-Za-z]+/;

/** Cuts a line into tokens. Blanks between them are left out; every other character is in exactly one token. */
export function lineTokens(text: string): LineToken[] {
  const tokens: LineToken[] = [];
  let at = 0;
  let depth = 0;
  const add = (kind: LineToken['kind'], end: number, rest: Partial<LineToken> = {}): void => {
    tokens.push({ kind, start: at, end, letter: '', value: Number.NaN, name: '', ...rest });
    at = end;
  };
  while (at < text.length) {
    const c = text[at];
    if (c <= ' ') {
      at += 1;
      continue;
    }
    if (c === '%' && tokens.length === 0) add('tape-mark', text.length);
    else if (c === '(') add('comment', commentEnd(text, at));
    else if (c === ';' || (c === '/' && text[at + 1] === '/')) add('comment', text.length);
    else if (c === '/' && tokens.length === 0)
      add('block-delete', /[1-9]/.test(text[at + 1] ?? '') ? at + 2 : at + 1);
    else if (c === '#') addParameter(text, at, add);
    else if (c === '[' || c === ']') {
      depth = Math.max(0, depth + (c === '[' ? 1 : -1));
      add('bracket', at + 1);
    } else if (/[A-Za-z]/.test(c)) addLetters(text, at, depth > 0, add);
    else if (/[\d.]/.test(c)) {
      const length = /^[\d.]+/.exec(text.slice(at))?.[0].length ?? 1;
      add('number', at + length, { value: Number(text.slice(at, at + length)) });
    } else if ('+-*/='.includes(c)) {
      const end = text.startsWith('**', at) ? at + 2 : at + 1;
      add('operator', end, { name: text.slice(at, end) });
    } else add('other', at + 1);
  }
  return tokens;
}

type Add = (kind: LineToken['kind'], end: number, rest?: Partial<LineToken>) => void;

/** End of a comment: the report's rule, and a nested comment as a whole when it closes. */
function commentEnd(text: string, at: number): number {
  let depth = 0;
  let first = -1;
  for (let p = at; p < text.length; p += 1) {
    if (text[p] === '(') depth += 1;
    else if (text[p] === ')') {
      depth -= 1;
      if (first < 0) first = p + 1;
      if (depth === 0) return p + 1;
    }
  }
  return first < 0 ? text.length : first;
}

function addParameter(text: string, at: number, add: Add): void {
  const named = /^#[ \t]*<([^>]*)>/.exec(text.slice(at));
  if (named) {
    add('parameter', at + named[0].length, { name: named[1].replace(/[ \t]/g, '').toLowerCase() });
    return;
  }
  const numbered = /^#[ \t]*(\d+)/.exec(text.slice(at));
  if (numbered)
    add('parameter', at + numbered[0].length, {
      value: Number(numbered[1]),
      name: String(Number(numbered[1])),
    });
  else add('operator', at + 1);
}

function addLetters(text: string, at: number, inside: boolean, add: Add): void {
  const run = (LETTERS.exec(text.slice(at))?.[0] ?? '').toUpperCase();
  const label = /^O[ \t]*(?:<([^>]*)>|(\d+)(?=[ \t]*[A-Za-z]{2})|(?=[#[]))/i.exec(text.slice(at));
  if (label) {
    const name =
      label[1] === undefined
        ? (label[2] ?? '').replace(/^0+(?=.)/, '')
        : label[1].replace(/[ \t]/g, '').toLowerCase();
    add('label', at + label[0].length, { name });
    return;
  }
  const list = inside ? [...FUNCTIONS, ...OPERATOR_WORDS] : [...KEYWORDS, ...FUNCTIONS, ...OPERATOR_WORDS];
  const word = run.length > 1 ? list.find(name => run.startsWith(name)) : undefined;
  if (word !== undefined) {
    add(OPERATOR_WORDS.includes(word) ? 'operator' : 'keyword', at + word.length, { name: word });
    return;
  }
  if (run.length > 1) {
    const second = text[at + 1];
    if (/[A-Za-z]/.test(second) && !/^[GM]O/i.test(run)) {
      add('other', at + run.length);
      return;
    }
  }
  const number = NUMBER.exec(text.slice(at + 1))?.[0].trimEnd() ?? '';
  const plain = number.replace(/[ \t]/g, '');
  const has_digit = /\d/.test(plain);
  add('word', at + 1 + (has_digit ? number.length : 0), {
    letter: text[at].toUpperCase(),
    value: has_digit ? Number(plain) : Number.NaN,
  });
}

/** The token at a character; of two that touch there, the one that begins. */
export function tokenAt(tokens: readonly LineToken[], character: number): LineToken | undefined {
  return (
    tokens.find(token => token.start <= character && character < token.end) ??
    tokens.find(token => token.end === character)
  );
}
