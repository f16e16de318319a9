import { isFunctionName } from './expressions/functions.ts';

/** Whether a byte can begin nothing in a block. */
export function isBad(c: number): boolean {
  if (c <= 32 || (c >= 48 && c <= 57)) return false;
  if ((c >= 65 && c <= 90) || (c >= 97 && c <= 122)) return false;
  return c !== 40 && c !== 59 && c !== 35 && c !== 47;
}

/** Whether a letter stands at `at`. */
export function isLetter(bytes: Uint8Array, at: number, end: number): boolean {
  const c = at < end ? bytes[at] & 0xdf : 0;
  return c >= 65 && c <= 90;
}

/** Whether a blank of a form stands at `at`. */
export function isPlaceholder(bytes: Uint8Array, at: number): boolean {
  return bytes[at] === 95 || bytes[at] === 63;
}

/** Skips blanks and control bytes. */
export function skipIgnored(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  while (p < end && bytes[p] <= 32) p += 1;
  return p;
}

/** Whether the `*` at `at` ends a block, alone or with the check sum of a transfer behind it. */
export function isCheckSum(bytes: Uint8Array, at: number, end: number): boolean {
  let p = skipIgnored(bytes, at + 1, end);
  while (p < end && bytes[p] >= 48 && bytes[p] <= 57) p += 1;
  p = skipIgnored(bytes, p, end);
  return p >= end || bytes[p] === 59;
}

/** Position of the next comment or parameter setting, or the end. */
export function skipToNextItem(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  while (p < end && bytes[p] !== 40 && bytes[p] !== 59 && bytes[p] !== 35) p += 1;
  return p;
}

/** Whether a line speaks to the control: `$1` (a path), `$100=250`, `$H`, `!2L1` (wait for the other path). */
export function isDirective(bytes: Uint8Array, at: number, end: number): boolean {
  const digits = skipDigits(bytes, at + 1, end);
  if (bytes[at] === 33) return digits > at + 1;
  if (bytes[at] !== 36) return false;
  const p = skipIgnored(bytes, digits, end);
  return digits > at + 1 ? p >= end || bytes[p] === 61 : isLetter(bytes, p, end);
}

/** Position after the digits that begin at `at`. */
export function skipDigits(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  while (p < end && bytes[p] >= 48 && bytes[p] <= 57) p += 1;
  return p;
}

/** Position after the name in angle brackets that begins at `at`. */
export function nameEnd(bytes: Uint8Array, at: number, end: number): number {
  let p = at + 1;
  while (p < end && bytes[p] !== 62) p += 1;
  return Math.min(end, p + 1);
}

/** Where the comment that begins at `at` ends, where another one begins in it (-1: none), and whether it is closed. */
export function commentEnd(
  bytes: Uint8Array,
  at: number,
  end: number,
): { to: number; nested: number; closed: boolean } {
  let depth = 1;
  let first_close = -1;
  let nested = -1;
  let p = at + 1;
  for (; p < end && depth > 0; p += 1) {
    const c = bytes[p];
    if (c === 40) {
      depth += 1;
      if (nested < 0 && first_close < 0) nested = p;
    } else if (c === 41) {
      depth -= 1;
      if (first_close < 0) first_close = p;
    }
  }
  if (nested >= 0 && depth === 0) return { to: p, nested, closed: true };
  return { to: first_close >= 0 ? first_close + 1 : end, nested: -1, closed: first_close >= 0 };
}

/** Position after the `/` at `at` and the digit of its switch. */
export function switchEnd(bytes: Uint8Array, at: number, end: number): number {
  const p = skipIgnored(bytes, at + 1, end);
  return p < end && bytes[p] >= 49 && bytes[p] <= 57 ? p + 1 : p;
}

/** Position after the characters without meaning that begin at `at`, with the digits behind them: `$1500` is one slip. */
export function skipBad(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  while (p < end && isBad(bytes[p]) && bytes[p] !== 91 && bytes[p] !== 44) p += 1;
  while (p > at && p < end && ((bytes[p] >= 48 && bytes[p] <= 57) || bytes[p] === 46)) p += 1;
  return p;
}

/** Whether a parameter stands behind the `#` at `at`. */
export function isParameter(bytes: Uint8Array, at: number, end: number): boolean {
  const c = at + 1 < end ? bytes[at + 1] : 0;
  return c === 35 || c === 60 || c === 91 || (c >= 48 && c <= 57);
}

/** Whether the `[` at `at` has its `]` on the line. */
export function closes(bytes: Uint8Array, at: number, end: number): boolean {
  for (let p = at; p < end; p += 1) if (bytes[p] === 93) return true;
  return false;
}

/** Position after the expression or parameter that begins at `at`. */
export function skipExpression(bytes: Uint8Array, at: number, end: number): number {
  let depth = 0;
  let p = at;
  for (; p < end; p += 1) {
    const c = bytes[p];
    if (c === 91) depth += 1;
    else if (c === 93) depth -= 1;
    else if (depth === 0 && c !== 35 && c !== 45 && c !== 43 && c > 32 && !(c >= 48 && c <= 57)) break;
    if (depth < 0) break;
  }
  return Math.max(p, at + 1);
}

const KEYWORDS = ['IF', 'WHILE', 'GOTO', 'DO', 'END', 'THEN', 'POPEN', 'PCLOS', 'DPRNT', 'BPRNT', 'SETVN'];
const FLOW_WORDS = [
  'SUB',
  'ENDSUB',
  'CALL',
  'RETURN',
  'IF',
  'ELSE',
  'ELSEIF',
  'ENDIF',
  'WHILE',
  'ENDWHILE',
  'DO',
  'REPEAT',
  'ENDREPEAT',
  'BREAK',
  'CONTINUE',
];

/** Whether a word of word-address macros begins at `at`. */
export function isKeyword(bytes: Uint8Array, at: number, end: number): boolean {
  const word = wordAt(bytes, at, end);
  return KEYWORDS.includes(word);
}

/** Whether a word of O-word flow control begins at `at`. */
export function isFlowWord(bytes: Uint8Array, at: number, end: number): boolean {
  return FLOW_WORDS.includes(wordAt(bytes, at, end));
}

function wordAt(bytes: Uint8Array, at: number, end: number): string {
  let word = '';
  for (let p = at; p < end && word.length < 12 && isLetter(bytes, p, end); p += 1) {
    word += String.fromCharCode(bytes[p] & 0xdf);
  }
  return word;
}

/** Whether a function of an expression begins at `at`: its name and a bracket. */
export function isFunction(bytes: Uint8Array, at: number, end: number): boolean {
  const name = wordAt(bytes, at, end);
  return isFunctionName(name) && bytes[skipIgnored(bytes, at + name.length, end)] === 91;
}

/** Whether the comment from `at` to `to` ends the program: `(ABORT, text)`. */
export function isAbort(bytes: Uint8Array, at: number, to: number): boolean {
  const from = skipIgnored(bytes, at + 1, to);
  return wordAt(bytes, from, to) === 'ABORT' && bytes[skipIgnored(bytes, from + 5, to)] === 44;
}

/** Position after text that is no block, up to a comment. */
export function textEnd(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  while (p < end && bytes[p] !== 40 && bytes[p] !== 59) p += 1;
  while (p > at && bytes[p - 1] <= 32) p -= 1;
  return p;
}

/** Position after the character without meaning at `at`, what follows it and the digits behind; a quote takes the line. */
export function badEnd(bytes: Uint8Array, at: number, end: number): number {
  if (bytes[at] === 34 || bytes[at] === 39) return end;
  let p = at + 1;
  while (p < end && isBad(bytes[p])) p += 1;
  // The digits behind it belong to it: `$1500` is one slip.
  while (p < end && ((bytes[p] >= 48 && bytes[p] <= 57) || bytes[p] === 46)) p += 1;
  return p;
}

/** Text of some bytes. */
export function textOf(bytes: Uint8Array, from: number, to: number): string {
  let text = '';
  for (let at = from; at < to; at += 8192) {
    text += String.fromCharCode.apply(
      null,
      bytes.subarray(at, Math.min(to, at + 8192)) as unknown as number[],
    );
  }
  return text;
}
