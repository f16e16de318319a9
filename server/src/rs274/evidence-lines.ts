import { type Chunk, endOfLine, isLineEnd, nextLine } from './chunk.ts';
import type { Evidence } from './evidence.ts';
import * as at from './kernel/box.ts';
import {
  axes,
  letterF,
  letterG,
  letterI,
  letterJ,
  letterK,
  letterN,
  letterR,
  letterX,
  letterY,
  letterZ,
} from './kernel/letters.ts';
import { type TextKernel, textKernel } from './kernel.ts';
import { NumberRead, readNumber } from './read-number.ts';

/** Adds up what the lines of a chunk tell. */
export function countChunk(chunk: Chunk, evidence: Evidence): void {
  const { bytes } = chunk;
  const plain = new PlainLines(chunk);
  let pos = 0;
  while (pos < bytes.length) {
    pos = plain.count(pos, evidence);
    if (pos >= bytes.length) break;
    const end = endOfLine(bytes, pos, bytes.length);
    countLine(bytes, pos, end, evidence);
    evidence.lines += 1;
    pos = nextLine(bytes, end, bytes.length);
  }
}

/** Letters by number from A, and their bits. */
const BY_LETTER = (
  [
    ['F', letterF],
    ['G', letterG],
    ['I', letterI],
    ['J', letterJ],
    ['K', letterK],
    ['N', letterN],
    ['R', letterR],
    ['X', letterX],
    ['Y', letterY],
    ['Z', letterZ],
  ] as const
).map(([letter, what]) => [letter.charCodeAt(0) - 65, 1 << what] as const);

/** Passes over the plain lines of a chunk, which are most of a long program; the others go the long way. */
class PlainLines {
  private readonly kernel: TextKernel;
  /** After the last line end. */
  private readonly limit: number;

  constructor({ bytes }: Chunk) {
    this.kernel = textKernel(bytes);
    let limit = bytes.length;
    while (limit > 0 && !isLineEnd(bytes[limit - 1])) limit -= 1;
    this.limit = limit;
  }

  /** Counts from a line on; gives the first line that is not plain. */
  count(start: number, e: Evidence): number {
    const { box } = this.kernel;
    const end = this.kernel.countLines(start, this.limit);
    if (end === start) return end;
    e.lines += box[at.boxLines];
    e.filled_lines += box[at.boxFilled];
    e.block_lines += box[at.boxFilled];
    const letters = box[at.boxSeen];
    if (box[at.boxPointed] !== 0) e.axis_with_point = true;
    for (const [letter, bit] of BY_LETTER) if ((letters & bit) !== 0) e.letters[letter] = 1;
    for (let code = 0; code < 4; code += 1) if (((box[at.boxCodes] >> code) & 1) !== 0) e.g.add(10 * code);
    if ((letters & axes) !== 0 && e.first_unit === 0) e.motion_before_unit = true;
    return end;
  }
}

const AXES = new Set([...'XYZUVWIJKR'].map(letter => letter.charCodeAt(0)));
const DWELL_CODES = new Set([40, 820, 860, 880, 890]);
const number = new NumberRead();

function countLine(bytes: Uint8Array, start: number, end: number, e: Evidence): void {
  let p = start;
  let words = 0;
  let axes = 0;
  let has_s = false;
  let p_word = Number.NaN;
  let p_whole = false;
  let has_q = false;
  const g: number[] = [];
  let has_d = false;
  while (p < end && bytes[p] <= 32) {
    if (bytes[p] !== 32 && bytes[p] !== 9) e.control_bytes += 1;
    p += 1;
  }
  if (p >= end) return;
  e.filled_lines += 1;
  if (bytes[p] === 37) e.percent_lines += 1;
  e.signs.look(bytes, p, end, e.lines);
  while (p < end) {
    const c = bytes[p];
    if (c === 40) {
      while (p < end && bytes[p] !== 41) p += 1;
      p += 1;
      continue;
    }
    if (c === 59) {
      let q = p + 1;
      while (q < end && bytes[q] <= 32) q += 1;
      if (q >= end && words > 0) e.semicolon_ends += 1;
      else if (q < end) e.semicolon_comments += 1;
      break;
    }
    if (c === 35) {
      e.parameters += 1;
      if (p + 1 < end && bytes[p + 1] === 60) e.named_parameters += 1;
      p += 1;
      continue;
    }
    const upper = c & 0xdf;
    if (c < 65 || upper < 65 || upper > 90) {
      if (c < 32 && c !== 9) e.control_bytes += 1;
      p += 1;
      continue;
    }
    const next = p + 1 < end ? bytes[p + 1] & 0xdf : 0;
    if (next >= 65 && next <= 90) {
      p = flowWord(bytes, p, end, e);
      continue;
    }
    if (upper === 79) oWord(bytes, p, end, e);
    readNumber(bytes, p + 1, end, number);
    if (number.digits === 0) {
      p += 1;
      continue;
    }
    p = Math.max(number.end, p + 1);
    words += 1;
    const value = number.value;
    e.letters[upper - 65] = 1;
    if (upper === 71) {
      const ten = Math.round(value * 10);
      e.g.add(ten);
      g.push(ten);
    } else if (upper === 77) {
      const ten = Math.round(value * 10);
      e.m.set(ten, (e.m.get(ten) ?? 0) + 1);
    } else if (AXES.has(upper)) {
      if (upper >= 85) axes += 1;
      if (number.point) e.axis_with_point = true;
      else if (value !== 0) {
        e.axis_whole += 1;
        if (number.digits >= 3) e.axis_whole_long += 1;
        if (Math.abs(value) > e.axis_largest) e.axis_largest = Math.abs(value);
      }
    } else if (upper === 84 && number.digits >= 4) e.long_tools += 1;
    else if (upper === 83) has_s = true;
    else if (upper === 68) has_d = true;
    else if (upper === 81) has_q = true;
    else if (upper === 80) {
      p_word = value;
      p_whole = !number.point;
    }
  }
  if (words > 0) e.block_lines += 1;
  judgeLine(e, g, axes, has_s, has_d, has_q, p_word, p_whole);
}

function judgeLine(
  e: Evidence,
  g: readonly number[],
  axes: number,
  has_s: boolean,
  has_d: boolean,
  has_q: boolean,
  p_word: number,
  p_whole: boolean,
): void {
  for (const code of g) {
    const unit =
      code === 200 || code === 210 || ((code === 700 || code === 710) && axes === 0 && Number.isNaN(p_word));
    if (unit && axes === 0 && e.first_unit === 0) e.first_unit = code / 10;
    else if (unit && e.first_unit === 0 && (code === 200 || code === 210)) e.first_unit = code / 10;
    if (code === 500 && has_s && axes === 0) e.clamps_g50 += 1;
    if (code === 920 && has_s && axes === 0) e.clamps_g92 += 1;
    if (code >= 700 && code <= 760 && has_q && !Number.isNaN(p_word)) e.profile_cycles += 1;
    if (code === 960 && has_d) e.surface_speed_with_d += 1;
    if (DWELL_CODES.has(code) && p_whole && !Number.isNaN(p_word)) {
      e.dwell_words += 1;
      e.dwell_largest = Math.max(e.dwell_largest, p_word);
      e.dwell_least = Math.min(e.dwell_least, p_word);
    }
  }
  if (axes > 0 && e.first_unit === 0) e.motion_before_unit = true;
}

const FLOW = new Set(['IF', 'WHILE', 'GOTO', 'DO', 'END', 'THEN']);

function flowWord(bytes: Uint8Array, at: number, end: number, e: Evidence): number {
  let p = at;
  let word = '';
  for (; p < end; p += 1) {
    const upper = bytes[p] & 0xdf;
    if (bytes[p] < 65 || upper < 65 || upper > 90) break;
    if (word.length < 8) word += String.fromCharCode(upper);
  }
  if (FLOW.has(word)) e.flow_words += 1;
  return p;
}

function oWord(bytes: Uint8Array, at: number, end: number, e: Evidence): void {
  let p = at + 1;
  while (p < end && (bytes[p] === 32 || bytes[p] === 9)) p += 1;
  if (bytes[p] === 60) {
    e.o_flow += 1;
    return;
  }
  if (bytes[p] === 35 || bytes[p] === 91) p = afterComputed(bytes, p, end);
  while (p < end && ((bytes[p] >= 48 && bytes[p] <= 57) || bytes[p] === 32)) p += 1;
  const [a, b] = [bytes[p] & 0xdf, bytes[p + 1] & 0xdf];
  if (p + 1 < end && a >= 65 && a <= 90 && b >= 65 && b <= 90 && bytes[p] >= 65) e.o_flow += 1;
}

/** Offset after `#...` or `[...]` behind an O. */
function afterComputed(bytes: Uint8Array, at: number, end: number): number {
  const closing =
    bytes[at] === 91 ? bytes.indexOf(93, at) : bytes[at + 1] === 60 ? bytes.indexOf(62, at) : at;
  return closing < 0 || closing >= end ? end : closing + 1;
}
