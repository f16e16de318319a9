import { type Chunk, endOfLine, nextLine } from './chunk.ts';
import { NotCuttingSigns } from './not-cutting.ts';
import { NumberRead, readNumber } from './read-number.ts';
import { Slot } from './slot.ts';

/** What one chunk tells about dialect, units and number form: counts only, so that chunks can be summed. */
export class Evidence {
  lines = 0;
  filled_lines = 0;
  /** Lines that hold at least one letter with a number. */
  block_lines = 0;
  g: Map<number, number> = new Map();
  m: Map<number, number> = new Map();
  /** Words by letter A to Z. */
  letters = new Int32Array(26);
  axis_with_point = 0;
  /** Axis words that are not zero and have no point. */
  axis_whole = 0;
  /** ... of three digits or more. */
  axis_whole_long = 0;
  axis_largest = 0;
  /** T words of four digits or more (T0101). */
  long_tools = 0;
  /** G50 or G92 with S and without axis words. */
  clamps_g50 = 0;
  clamps_g92 = 0;
  /** G71, G72, G73 and the like with P and Q. */
  profile_cycles = 0;
  surface_speed_with_d = 0;
  /** P without a point of dwells and cycles with a dwell. */
  dwell_words = 0;
  dwell_largest = 0;
  dwell_least = Number.POSITIVE_INFINITY;
  semicolon_ends = 0;
  semicolon_comments = 0;
  named_parameters = 0;
  parameters = 0;
  o_flow = 0;
  flow_words = 0;
  /** Whether a unit code comes before any motion with axis words: 20, 21, 70, 71, or 0. */
  first_unit = 0;
  motion_before_unit = false;
  percent_lines = 0;
  control_bytes = 0;
  signs = new NotCuttingSigns();

  add(other: Evidence, first_line: number): void {
    if (this.first_unit === 0 && other.first_unit !== 0) {
      this.first_unit = other.first_unit;
      this.motion_before_unit ||= other.motion_before_unit;
    } else if (this.first_unit === 0) {
      this.motion_before_unit ||= other.motion_before_unit;
    }
    for (const key of SUMS) this[key] += other[key];
    for (const [code, count] of other.g) this.g.set(code, (this.g.get(code) ?? 0) + count);
    for (const [code, count] of other.m) this.m.set(code, (this.m.get(code) ?? 0) + count);
    for (let i = 0; i < 26; i += 1) this.letters[i] += other.letters[i];
    this.axis_largest = Math.max(this.axis_largest, other.axis_largest);
    this.dwell_largest = Math.max(this.dwell_largest, other.dwell_largest);
    this.dwell_least = Math.min(this.dwell_least, other.dwell_least);
    this.signs.add(other.signs, first_line);
  }

  /** How often a G code stands in the text. */
  gCount(...codes: number[]): number {
    let sum = 0;
    for (const code of codes) sum += this.g.get(Math.round(code * 10)) ?? 0;
    return sum;
  }

  mCount(...codes: number[]): number {
    let sum = 0;
    for (const code of codes) sum += this.m.get(Math.round(code * 10)) ?? 0;
    return sum;
  }

  letter(name: string): number {
    return this.letters[name.charCodeAt(0) - 65];
  }
}

const SUMS = [
  'lines',
  'filled_lines',
  'block_lines',
  'axis_with_point',
  'axis_whole',
  'axis_whole_long',
  'long_tools',
  'clamps_g50',
  'clamps_g92',
  'profile_cycles',
  'surface_speed_with_d',
  'dwell_words',
  'semicolon_ends',
  'semicolon_comments',
  'named_parameters',
  'parameters',
  'o_flow',
  'flow_words',
  'percent_lines',
  'control_bytes',
] as const;

const known = new Slot<Chunk, Evidence>();

/** Evidence of one chunk; counted once. */
export function evidenceOf(chunk: Chunk): Evidence {
  let evidence = known.get(chunk);
  if (evidence === undefined) {
    evidence = count(chunk);
    known.set(chunk, evidence);
  }
  return evidence;
}

/** Chunks of which all are looked at; of longer texts the beginning, the end and some between. */
const ALL_CHUNKS = 10;
const FIRST_CHUNKS = 2;
const LAST_CHUNKS = 1;
const CHUNKS_BETWEEN = 3;

/** Evidence of a text. */
export function evidenceOfChunks(chunks: readonly Chunk[]): Evidence {
  const sum = new Evidence();
  const stride = chunks.length <= ALL_CHUNKS ? 1 : Math.ceil(chunks.length / CHUNKS_BETWEEN);
  for (let index = 0; index < chunks.length; index += 1) {
    const taken = index < FIRST_CHUNKS || index >= chunks.length - LAST_CHUNKS || index % stride === 0;
    if (taken) sum.add(evidenceOf(chunks[index]), index < FIRST_CHUNKS ? sum.lines : Number.NaN);
  }
  return sum;
}

const AXES = new Set([...'XYZUVWIJKR'].map(letter => letter.charCodeAt(0)));
const DWELL_CODES = new Set([40, 820, 860, 880, 890]);

function count(chunk: Chunk): Evidence {
  const evidence = new Evidence();
  const { bytes } = chunk;
  let pos = 0;
  while (pos < bytes.length) {
    const end = endOfLine(bytes, pos, bytes.length);
    countLine(bytes, pos, end, evidence);
    evidence.lines += 1;
    pos = nextLine(bytes, end, bytes.length);
  }
  return evidence;
}

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
    e.letters[upper - 65] += 1;
    if (upper === 71) {
      const ten = Math.round(value * 10);
      e.g.set(ten, (e.g.get(ten) ?? 0) + 1);
      g.push(ten);
    } else if (upper === 77) {
      const ten = Math.round(value * 10);
      e.m.set(ten, (e.m.get(ten) ?? 0) + 1);
    } else if (AXES.has(upper)) {
      if (upper >= 85) axes += 1;
      if (number.point) e.axis_with_point += 1;
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
