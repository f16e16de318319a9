import { Chunk, nextLine, OPENED_BYTES } from './chunk.ts';
import { countChunk } from './evidence-lines.ts';
import { release } from './kernel.ts';
import { NotCuttingSigns } from './not-cutting.ts';
import { Slot } from './slot.ts';

/** What one chunk tells about dialect, units and number form: what stands in it and how often, so that chunks can be summed. */
export class Evidence {
  lines = 0;
  filled_lines = 0;
  /** Lines that hold at least one letter with a number. */
  block_lines = 0;
  /** G codes times ten. */
  g: Set<number> = new Set();
  /** M codes times ten, and how often. */
  m: Map<number, number> = new Map();
  /** 1 for letters A to Z that a word begins with. */
  letters = new Uint8Array(26);
  axis_with_point = false;
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
    for (const code of other.g) this.g.add(code);
    for (const [code, count] of other.m) this.m.set(code, (this.m.get(code) ?? 0) + count);
    for (let i = 0; i < 26; i += 1) this.letters[i] |= other.letters[i];
    this.axis_with_point ||= other.axis_with_point;
    this.axis_largest = Math.max(this.axis_largest, other.axis_largest);
    this.dwell_largest = Math.max(this.dwell_largest, other.dwell_largest);
    this.dwell_least = Math.min(this.dwell_least, other.dwell_least);
    this.signs.add(other.signs, first_line);
  }

  /** Whether one of these G codes stands in the text. */
  hasG(...codes: number[]): boolean {
    return codes.some(code => this.g.has(Math.round(code * 10)));
  }

  /** How often these M codes stand in the text. */
  mCount(...codes: number[]): number {
    let sum = 0;
    for (const code of codes) sum += this.m.get(Math.round(code * 10)) ?? 0;
    return sum;
  }

  /** Whether one of these letters begins a word. */
  has(...names: string[]): boolean {
    return names.some(name => this.letters[name.charCodeAt(0) - 65] > 0);
  }
}

const SUMS = [
  'lines',
  'filled_lines',
  'block_lines',
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
    evidence = new Evidence();
    countChunk(chunk, evidence);
    known.set(chunk, evidence);
  }
  return evidence;
}

/** So long a text is looked at whole; of longer ones the beginning, some pieces between, and the end. */
const ALL_BYTES = 3 * OPENED_BYTES;
const PIECE_BYTES = 16_384;

/** Evidence of a text. It does not depend on where the text was cut: edited text stands in many small chunks. */
export function evidenceOfChunks(chunks: readonly Chunk[]): Evidence {
  const sum = new Evidence();
  const length = chunks.reduce((bytes, chunk) => bytes + chunk.length, 0);
  for (const [from, to] of placesOf(length)) {
    let base = 0;
    for (const chunk of chunks) {
      const piece = linesWithin(chunk, from - base, to - base);
      if (piece) sum.add(evidenceOf(piece), from < 0 ? sum.lines : Number.NaN);
      base += chunk.length;
    }
  }
  release();
  return sum;
}

/** What is looked at: lines that begin after one place, and not after another. */
function placesOf(length: number): (readonly [from: number, to: number])[] {
  if (length <= ALL_BYTES) return [[-1, length]];
  const between = [1 / 3, 2 / 3].map(share => Math.floor(length * share));
  return [
    [-1, OPENED_BYTES],
    ...between.map(from => [from, from + PIECE_BYTES] as const),
    [length - PIECE_BYTES, length],
  ];
}

/** The lines of a chunk that begin after `from` and not after `to`, bytes from its start; undefined where none does. */
function linesWithin(chunk: Chunk, from: number, to: number): Chunk | undefined {
  const { bytes, length } = chunk;
  if (to < 0 || from >= length) return undefined;
  const start = from < 0 ? 0 : nextLine(bytes, from, length);
  const end = to >= length ? length : nextLine(bytes, to, length);
  if (start >= end) return undefined;
  return start === 0 && end === length ? chunk : new Chunk(bytes.subarray(start, end));
}
