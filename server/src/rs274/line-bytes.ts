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

const KEYWORDS = ['IF', 'WHILE', 'GOTO', 'DO', 'END', 'THEN', 'POPEN', 'PCLOS', 'DPRNT', 'BPRNT'];
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
