import { isDigit, isLetter } from '../expressions/bytes.ts';

/**
 * Whether some line between `start` and `end` can only be executed with control flow: parameters, expressions, IF,
 * WHILE, GOTO, O-words, calls. One pass over the bytes, comments left out; M99 alone does not count.
 */
export function needsFlow(bytes: Uint8Array, start: number, end: number): boolean {
  for (let p = start; p < end; p += 1) {
    const c = bytes[p];
    if (c === 40 || c === 59) {
      while (p < end && bytes[p] !== 10 && bytes[p] !== 13 && (c === 59 || bytes[p] !== 41)) p += 1;
    } else if (c === 35) return true;
    else if (c === 91) {
      if (closes(bytes, p, end)) return true;
    } else if (isLetter(c)) {
      if (call(bytes, p, end)) return true;
      if (word(bytes, p, end)) return true;
      // A word of letters is looked at once.
      while (p + 1 < end && isLetter(bytes[p + 1]) && !isDigit(bytes[p])) p += 1;
    }
  }
  return false;
}

function closes(bytes: Uint8Array, at: number, end: number): boolean {
  for (let p = at; p < end && bytes[p] !== 10 && bytes[p] !== 13; p += 1) if (bytes[p] === 93) return true;
  return false;
}

const CALLS: ReadonlySet<string> = new Set(['M97', 'M98', 'M198', 'G65', 'G66', 'G67']);

function call(bytes: Uint8Array, at: number, end: number): boolean {
  const letter = bytes[at] & 0xdf;
  if (letter !== 71 && letter !== 77) return false;
  let name = String.fromCharCode(letter);
  for (let p = at + 1; p < end && p < at + 6 && (isDigit(bytes[p]) || bytes[p] === 32); p += 1)
    if (bytes[p] !== 32) name += String.fromCharCode(bytes[p]);
  name = name.replace(/^([GM])0+(?=\d)/, '$1');
  return CALLS.has(name) || (name === 'M99' && jumps(bytes, at + 1, end));
}

/** Whether a P follows M99 on its line. */
function jumps(bytes: Uint8Array, at: number, end: number): boolean {
  for (
    let p = at;
    p < end && bytes[p] !== 10 && bytes[p] !== 13 && bytes[p] !== 40 && bytes[p] !== 59;
    p += 1
  )
    if ((bytes[p] & 0xdf) === 80) return true;
  return false;
}

const WORDS: ReadonlySet<string> = new Set([
  'GOTO',
  'WHILE',
  'DO',
  'END',
  'IF',
  'SUB',
  'ENDSUB',
  'CALL',
  'RETURN',
  'REPEAT',
]);

function word(bytes: Uint8Array, at: number, end: number): boolean {
  let text = '';
  for (let p = at; p < end && text.length < 8 && isLetter(bytes[p]); p += 1)
    text += String.fromCharCode(bytes[p] & 0xdf);
  if (text.length === 1 && (text === 'O' || text === 'o')) {
    let p = at + 1;
    while (p < end && bytes[p] === 32) p += 1;
    return p < end && bytes[p] === 60 && bytes[p - 1] !== 10;
  }
  return WORDS.has(text);
}
