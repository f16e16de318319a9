import { isDigit, isLetter } from '../expressions/bytes.ts';

/** Kinds of flow statements: of word-address macros and of O-words. */
export const FLOW_KINDS = [
  // Word-address macros.
  'if',
  'goto',
  'while',
  'do',
  'end',
  'output',
  // Newer controls: IF [..] THEN over several lines.
  'else-line',
  'end-if',
  // O-words.
  'sub',
  'endsub',
  'call',
  'return',
  'o-if',
  'elseif',
  'else',
  'endif',
  'o-while',
  'endwhile',
  'o-do',
  'repeat',
  'endrepeat',
  'break',
  'continue',
] as const;
export type FlowKind = (typeof FLOW_KINDS)[number];

/** One flow statement and where its parts stand in the line (offsets from its start). */
export interface Statement {
  kind: FlowKind;
  line: number;
  /** Start of the keyword or of the O. */
  start: number;
  /** After the keyword: arguments or the condition begin here. */
  rest: number;
  /** O-word label: digits or a name in lower case; empty when it must be worked out. */
  label: string;
  /** Where a computed label's value begins; -1 without. */
  computed: number;
  /** Line of the partner: where the construct ends, goes on or begins; -1 until matched. */
  partner: number;
  /** For the end of a loop and the branches of an IF: line where the construct begins. */
  opener: number;
}

const MACRO_WORDS: readonly (readonly [string, FlowKind])[] = [
  ['WHILE', 'while'],
  ['GOTO', 'goto'],
  ['ENDIF', 'end-if'],
  ['ELSE', 'else-line'],
  ['END', 'end'],
  ['DPRNT', 'output'],
  ['BPRNT', 'output'],
  ['POPEN', 'output'],
  ['PCLOS', 'output'],
  ['SETVN', 'output'],
  ['IF', 'if'],
  ['DO', 'do'],
];

const O_WORDS: readonly (readonly [string, FlowKind])[] = [
  ['ENDREPEAT', 'endrepeat'],
  ['ENDWHILE', 'endwhile'],
  ['CONTINUE', 'continue'],
  ['ENDSUB', 'endsub'],
  ['ELSEIF', 'elseif'],
  ['RETURN', 'return'],
  ['REPEAT', 'repeat'],
  ['ENDIF', 'endif'],
  ['WHILE', 'o-while'],
  ['BREAK', 'break'],
  ['CALL', 'call'],
  ['ELSE', 'else'],
  ['SUB', 'sub'],
  ['IF', 'o-if'],
  ['DO', 'o-do'],
];

/**
 * Reads the flow statement that a line begins with, after block delete and N; undefined when there is none.
 * `start` and `end` are the line's bytes. Assignments and calls by M and G codes are no statements: the block reader has them.
 */
export function readStatement(
  bytes: Uint8Array,
  start: number,
  end: number,
  line: number,
): Statement | undefined {
  const at = afterNumber(bytes, start, end);
  if (at >= end || !isLetter(bytes[at])) return undefined;
  const upper = bytes[at] & 0xdf;
  if (upper === 79) return readOWord(bytes, start, at, end, line);
  if (
    upper !== 73 &&
    upper !== 87 &&
    upper !== 71 &&
    upper !== 68 &&
    upper !== 69 &&
    upper !== 66 &&
    upper !== 80 &&
    upper !== 83
  )
    return undefined;
  const found = keyword(bytes, at, end, MACRO_WORDS);
  if (found === undefined) return undefined;
  return {
    kind: found.kind,
    line,
    start: at - start,
    rest: found.end - start,
    label: '',
    computed: -1,
    partner: -1,
    opener: -1,
  };
}

/** Whether a line has block delete, before or behind its number. */
export function isBlockDeleted(bytes: Uint8Array, start: number, end: number): boolean {
  let p = skip(bytes, start, end);
  if (p < end && (bytes[p] & 0xdf) === 78) {
    p = skip(bytes, p + 1, end);
    while (p < end && (isDigit(bytes[p]) || bytes[p] === 46)) p += 1;
    p = skip(bytes, p, end);
  }
  return p < end && bytes[p] === 47;
}

/** Offset after block delete and block number. */
function afterNumber(bytes: Uint8Array, start: number, end: number): number {
  let p = skip(bytes, start, end);
  if (p < end && bytes[p] === 47) {
    p = skip(bytes, p + 1, end);
    if (p < end && isDigit(bytes[p])) p = skip(bytes, p + 1, end);
  }
  if (p < end && (bytes[p] & 0xdf) === 78) {
    const digits = skip(bytes, p + 1, end);
    if (digits < end && isDigit(bytes[digits])) {
      p = digits;
      while (p < end && (isDigit(bytes[p]) || bytes[p] === 46)) p += 1;
      p = skip(bytes, p, end);
      if (p < end && bytes[p] === 47) p = skip(bytes, p + 1, end);
    }
  }
  return p;
}

function readOWord(
  bytes: Uint8Array,
  start: number,
  at: number,
  end: number,
  line: number,
): Statement | undefined {
  let p = skip(bytes, at + 1, end);
  let label = '';
  let computed = -1;
  const c = p < end ? bytes[p] : 0;
  if (c === 60) {
    for (p += 1; p < end && bytes[p] !== 62; p += 1)
      if (bytes[p] > 32) label += String.fromCharCode(bytes[p]).toLowerCase();
    p += 1;
  } else if (c === 35 || c === 91) {
    computed = p - start;
    p = afterValue(bytes, p, end);
  } else {
    for (; p < end && isDigit(bytes[p]); p += 1) label += String.fromCharCode(bytes[p]);
    label = label.replace(/^0+(?=.)/, '');
  }
  if (label === '' && computed < 0) return undefined;
  const found = keyword(bytes, skip(bytes, p, end), end, O_WORDS);
  if (found === undefined) return undefined;
  return {
    kind: found.kind,
    line,
    start: at - start,
    rest: found.end - start,
    label,
    computed,
    partner: -1,
    opener: -1,
  };
}

function keyword(
  bytes: Uint8Array,
  at: number,
  end: number,
  words: readonly (readonly [string, FlowKind])[],
): { kind: FlowKind; end: number } | undefined {
  for (const [word, kind] of words) {
    let p = at;
    let i = 0;
    for (; i < word.length && p < end; p += 1) {
      if (bytes[p] === 32 || bytes[p] === 9) continue;
      if ((bytes[p] & 0xdf) !== word.charCodeAt(i) || !isLetter(bytes[p])) break;
      i += 1;
    }
    if (i === word.length && !(p < end && isLetter(bytes[p]) && word !== 'IF' && word !== 'GOTO'))
      return { kind, end: p };
  }
  return undefined;
}

/** Offset after `#...` or `[...]`, without working it out. */
function afterValue(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  let depth = 0;
  for (; p < end; p += 1) {
    const c = bytes[p];
    if (c === 91) depth += 1;
    else if (c === 93) {
      depth -= 1;
      if (depth <= 0) return p + 1;
    } else if (depth === 0 && c === 60) {
      while (p < end && bytes[p] !== 62) p += 1;
    } else if (depth === 0 && c !== 35 && !isDigit(c)) return p;
  }
  return p;
}

/** Offset of the first byte that is no blank. */
export function skip(bytes: Uint8Array, at: number, end: number): number {
  let p = at;
  while (p < end && bytes[p] <= 32) p += 1;
  return p;
}
