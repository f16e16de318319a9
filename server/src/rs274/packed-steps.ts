import { ARC_WIDTH, type Column, ROTARY_WIDTH, RUN_WIDTH, type StepTable } from './steps.ts';

/**
 * The steps of one stretch, put away: columns in a piece of a slab that other stretches share. A view of a column is made
 * when it is first asked for, since of most stretches of a long program nobody asks.
 */
export class PackedSteps implements StepTable {
  readonly count: number;
  readonly runCount: number;
  readonly arcCount: number;
  readonly rotaryCount: number;
  readonly rotary: Column | null;
  readonly rotaries: Float64Array;
  readonly seconds: ReadonlyMap<number, number>;
  readonly files: ReadonlyMap<number, string>;
  private views: Views | null = null;

  constructor(
    private readonly slab: Slab,
    /** First byte in the slab. */
    private readonly at: number,
    private readonly layout: Layout,
    readonly runs: Float64Array,
    steps: StepTable,
  ) {
    const { count, rotary, rotaryCount } = steps;
    this.count = count;
    this.runCount = steps.runCount;
    this.arcCount = steps.arcCount;
    this.rotaryCount = rotaryCount;
    this.rotary = rotary === null ? null : rotary.slice(0, count);
    this.rotaries = rotaryCount === 0 ? NOTHING : steps.rotaries.slice(0, rotaryCount * ROTARY_WIDTH);
    // An empty map may still be written to: it is not taken over.
    this.seconds = steps.seconds.size === 0 ? NO_SECONDS : steps.seconds;
    this.files = steps.files.size === 0 ? NO_FILES : steps.files;
  }

  get x(): Float64Array {
    return this.look().x;
  }

  get y(): Float64Array {
    return this.look().y;
  }

  get z(): Float64Array {
    return this.look().z;
  }

  get line(): Column {
    return this.look().line;
  }

  get run(): Column {
    return this.look().run;
  }

  get kind(): Uint8Array {
    return this.look().kind;
  }

  get flags(): Uint8Array {
    return this.look().flags;
  }

  get aux(): Column {
    return this.look().aux;
  }

  get arcs(): Float64Array {
    return this.look().arcs;
  }

  private look(): Views {
    if (this.views !== null) return this.views;
    // Views of a table cost about a third of its steps: only the tables looked at last keep theirs.
    const oldest = looked[looked_next]?.deref();
    if (oldest !== undefined) oldest.views = null;
    looked[looked_next] = new WeakRef(this);
    looked_next = (looked_next + 1) % MOST_LOOKED;
    this.views = viewsOf(this.slab.buffer, this.at, this.layout, this.count, this.arcCount);
    return this.views;
  }
}

const MOST_LOOKED = 64;
const looked: WeakRef<PackedSteps>[] = [];
let looked_next = 0;

interface Views {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly arcs: Float64Array;
  readonly line: Column;
  readonly run: Column;
  readonly aux: Column;
  readonly kind: Uint8Array;
  readonly flags: Uint8Array;
}

/** How wide the columns of lines, runs and rows are. */
interface Layout {
  readonly wide: boolean;
  readonly with_aux: boolean;
  /** Y is known somewhere; on lathes it never is. */
  readonly with_y: boolean;
}

const LAYOUTS: readonly Layout[] = [0, 1, 2, 3, 4, 5, 6, 7].map(bits => ({
  wide: (bits & 1) !== 0,
  with_aux: (bits & 2) !== 0,
  with_y: (bits & 4) !== 0,
}));

/** Memory for many tables, looked at in each width. */
class Slab {
  readonly buffer: ArrayBuffer;
  readonly f64: Float64Array;
  readonly i32: Int32Array;
  readonly i16: Int16Array;
  readonly u8: Uint8Array;
  used = 0;

  constructor(bytes: number) {
    this.buffer = new ArrayBuffer(bytes);
    this.f64 = new Float64Array(this.buffer);
    this.i32 = new Int32Array(this.buffer);
    this.i16 = new Int16Array(this.buffer);
    this.u8 = new Uint8Array(this.buffer);
  }
}

/** Tables beyond the first few of one reading share slabs: an edit makes one or two, the first reading thousands. */
const TABLES_APART = 4;
const LEAST_SLAB = 1 << 15;
const MOST_SLAB = 1 << 20;

/** Where the tables of a program are put away. */
export class StepStore {
  private slab: Slab | null = null;
  private taken = 0;
  private tables = 0;
  private last_runs: Float64Array = NOTHING;

  /** Another reading begins: tables put away before it are let go when nobody holds them. */
  begin(): void {
    this.slab = null;
    this.taken = 0;
    this.tables = 0;
  }

  /** Puts the steps of a recorder away. */
  pack(steps: StepTable): StepTable {
    const { count, arcCount } = steps;
    const layout = LAYOUTS[Number(isWide(steps)) + 2 * Number(hasAux(steps)) + 4 * Number(hasY(steps))];
    const bytes = bytesOf(layout, count, arcCount);
    const slab = this.room(bytes);
    const at = slab.used;
    slab.used += bytes;
    fill(slab, at, layout, steps);
    return new PackedSteps(slab, at, layout, this.runsOf(steps), steps);
  }

  private room(bytes: number): Slab {
    this.tables += 1;
    this.taken += bytes;
    if (this.tables <= TABLES_APART) return new Slab(bytes);
    if (this.slab === null || this.slab.used + bytes > this.slab.buffer.byteLength) {
      const size = Math.min(MOST_SLAB, Math.max(LEAST_SLAB, this.taken >> 2));
      this.slab = new Slab(Math.max(bytes, size & ~7));
    }
    return this.slab;
  }

  /** The runs of a table; stretch after stretch in one state hold the same. */
  private runsOf({ runs, runCount }: StepTable): Float64Array {
    const length = runCount * RUN_WIDTH;
    const last = this.last_runs;
    let same = last.length === length;
    for (let i = 0; same && i < length; i += 1) same = Object.is(last[i], runs[i]);
    if (!same) this.last_runs = runs.slice(0, length);
    return this.last_runs;
  }
}

const NOTHING = new Float64Array(0);
const NO_AUX = new Int16Array(0);
const NO_SECONDS: ReadonlyMap<number, number> = new Map();
const NO_FILES: ReadonlyMap<number, string> = new Map();
const MOST_NARROW = 0x7fff;
const MOST_NARROW_RUNS = 256;

function isWide({ count, line, runCount, arcCount }: StepTable): boolean {
  if (runCount > MOST_NARROW_RUNS || arcCount > MOST_NARROW) return true;
  let beyond = 0;
  for (let i = 0; i < count; i += 1) beyond |= ((line[i] << 16) >> 16) ^ line[i];
  return beyond !== 0;
}

function hasAux({ aux, count, arcCount }: StepTable): boolean {
  if (arcCount > 0) return true;
  for (let i = 0; i < count; i += 1) if (aux[i] !== -1) return true;
  return false;
}

function hasY({ y, count }: StepTable): boolean {
  for (let i = 0; i < count; i += 1) if (!Number.isNaN(y[i])) return true;
  return false;
}

let unknown = new Float64Array(512).fill(Number.NaN);

/** A column of what is not known; all tables share it. */
function unknownColumn(count: number): Float64Array {
  if (unknown.length < count) unknown = new Float64Array(2 * count).fill(Number.NaN);
  return unknown.subarray(0, count);
}

/** Each column begins at a multiple of its own size: the widest come first, and there are eights of steps. */
function bytesOf({ wide, with_aux, with_y }: Layout, count: number, arcCount: number): number {
  const room = (count + 7) & ~7;
  const a_step = (wide ? 26 + (with_aux ? 4 : 0) : 21 + (with_aux ? 2 : 0)) + (with_y ? 8 : 0);
  return room * a_step + arcCount * ARC_WIDTH * 8;
}

function fill(slab: Slab, at: number, layout: Layout, steps: StepTable): void {
  const { count, arcCount, arcs } = steps;
  const room = (count + 7) & ~7;
  const { f64 } = slab;
  const { x, y, z } = steps;
  const base = at >> 3;
  for (let i = 0; i < count; i += 1) f64[base + i] = x[i];
  for (let i = 0; i < count; i += 1) f64[base + room + i] = z[i];
  if (layout.with_y) for (let i = 0; i < count; i += 1) f64[base + 2 * room + i] = y[i];
  const arc_values = arcCount * ARC_WIDTH;
  const arcs_at = (layout.with_y ? 3 : 2) * room;
  for (let i = 0; i < arc_values; i += 1) f64[base + arcs_at + i] = arcs[i];
  fillNarrow(slab, at + 8 * (arcs_at + arc_values), room, layout, steps);
}

function fillNarrow(slab: Slab, at: number, room: number, layout: Layout, steps: StepTable): void {
  const { count, line, run, aux, kind, flags } = steps;
  const { u8 } = slab;
  const wide = layout.wide ? slab.i32 : slab.i16;
  const size = wide.BYTES_PER_ELEMENT;
  let next = at;
  for (let i = 0; i < count; i += 1) wide[next / size + i] = line[i];
  next += size * room;
  if (layout.with_aux) {
    for (let i = 0; i < count; i += 1) wide[next / size + i] = aux[i];
    next += size * room;
  }
  if (layout.wide) {
    for (let i = 0; i < count; i += 1) wide[next / size + i] = run[i];
    next += size * room;
  } else {
    for (let i = 0; i < count; i += 1) u8[next + i] = run[i];
    next += room;
  }
  for (let i = 0; i < count; i += 1) u8[next + i] = kind[i];
  next += room;
  for (let i = 0; i < count; i += 1) u8[next + i] = flags[i];
}

function viewsOf(buffer: ArrayBuffer, at: number, layout: Layout, count: number, arcCount: number): Views {
  const room = (count + 7) & ~7;
  const coordinates = (column: number) => new Float64Array(buffer, at + column * 8 * room, count);
  const arc_values = arcCount * ARC_WIDTH;
  let next = at + (layout.with_y ? 24 : 16) * room;
  const arcs = new Float64Array(buffer, next, arc_values);
  next += 8 * arc_values;
  const take = (size: number): Column => {
    const from = next;
    next += size * room;
    if (size === 4) return new Int32Array(buffer, from, count);
    return size === 2 ? new Int16Array(buffer, from, count) : new Uint8Array(buffer, from, count);
  };
  const size = layout.wide ? 4 : 2;
  const line = take(size);
  const aux = layout.with_aux ? take(size) : NO_AUX;
  const run = take(layout.wide ? 4 : 1);
  const kind = new Uint8Array(buffer, next, count);
  const flags = new Uint8Array(buffer, next + room, count);
  const y = layout.with_y ? coordinates(2) : unknownColumn(count);
  return { x: coordinates(0), y, z: coordinates(1), arcs, line, run, aux, kind, flags };
}
