import { Chunk, nextLine } from './chunk.ts';
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

type Piece = 'whole' | 'beginning' | 'end';

const known: Readonly<Record<Piece, Slot<Chunk, Evidence>>> = {
  whole: new Slot(),
  beginning: new Slot(),
  end: new Slot(),
};

/** Evidence of one chunk, or of some lines at one end of it; counted once. */
export function evidenceOf(chunk: Chunk, piece: Piece = 'whole'): Evidence {
  let evidence = known[piece].get(chunk);
  if (evidence === undefined) {
    evidence = new Evidence();
    countChunk(pieceOf(chunk, piece), evidence);
    known[piece].set(chunk, evidence);
  }
  return evidence;
}

function pieceOf(chunk: Chunk, piece: Piece): Chunk {
  const { bytes } = chunk;
  const { length } = bytes;
  if (piece === 'whole' || length <= PIECE_BYTES) return chunk;
  if (piece === 'beginning') return new Chunk(bytes.subarray(0, nextLine(bytes, PIECE_BYTES, length)));
  return new Chunk(bytes.subarray(nextLine(bytes, length - PIECE_BYTES, length)));
}

/** Chunks of which all are looked at; of longer texts the first, pieces of some between, and the end. */
const ALL_CHUNKS = 3;
const CHUNKS_BETWEEN = 2;
const PIECE_BYTES = 16_384;

/** Evidence of a text. */
export function evidenceOfChunks(chunks: readonly Chunk[]): Evidence {
  const sum = new Evidence();
  const last = chunks.length - 1;
  const all = chunks.length <= ALL_CHUNKS;
  const stride = all ? 1 : Math.ceil(chunks.length / (CHUNKS_BETWEEN + 1));
  for (const [index, chunk] of chunks.entries()) {
    if (index !== last && index % stride !== 0) continue;
    const piece = all || index === 0 ? 'whole' : index === last ? 'end' : 'beginning';
    sum.add(evidenceOf(chunk, piece), index === 0 ? sum.lines : Number.NaN);
  }
  release();
  return sum;
}
