/**
 * The table of executed moves of one stretch of a program, in typed columns.
 *
 * A step is one move the control makes; the start of a step is the end of the step before it. State that
 * rarely changes (tool, spindle, feed, plane, offsets ...) lives in runs: a step names its run by index.
 * Positions are mm in the work offset that is active, lathe X as radius; NaN is 'not known' and never leaves
 * the review. Lines are 0-based and relative to the first line of the stretch.
 */

export const STEP_KINDS = [
  'rapid',
  'feed',
  'arc',
  'thread',
  'tap',
  'dwell',
  'home',
  'probe',
  'toolchange',
  'stop',
  'end',
  /** No motion: the known position changes (frame change, offset change, something not followed). */
  'place',
] as const;
export type StepKind = (typeof STEP_KINDS)[number];

export const KIND = Object.fromEntries(STEP_KINDS.map((name, index) => [name, index])) as {
  readonly [K in StepKind]: number;
};

/** Flags of a step (bit set). */
export const STEP_FLAG = {
  /** Made by a canned or multi-pass cycle. */
  cycle: 1,
  /** Path of the compensated tool centre. */
  compensated: 2,
  /** A corner that compensation put in. */
  corner: 4,
  /** Stands in a block with block delete. */
  optional: 8,
  /** Rapid-like positioning that the control makes at rapid inside a cycle. */
  machine_frame: 16,
  /** Feed is not the programmed one (spindle-locked or peck re-entry). */
  locked: 32,
} as const;

/**
 * Columns of a run. Unknown is NaN. Feed is mm/min (mode 94), mm/rev (95) or 1/min (93); spindle is rev/min,
 * or m/min when `css` is 1; clamp is rev/min.
 */
export const RUN_FIELDS = [
  'tool',
  'prepared_tool',
  'length_offset',
  'radius_offset',
  'spindle',
  'css',
  'clamp_rpm',
  /** 1 clockwise (M3), -1 counter-clockwise (M4), 0 stopped (M5), NaN never commanded. */
  'direction',
  'feed',
  'feed_mode',
  /** 17, 18 or 19. */
  'plane',
  /** 1 inch, 0 mm: how the program's numbers were read here. */
  'inch',
  /** Bit 1 mist (M7), bit 2 flood (M8), bit 4 through the tool; 0 off. */
  'coolant',
  /** Work offset times ten: 540 for G54, 591 for G59.1, 54101 for G54.1 P1; 530 machine; NaN never stated. */
  'frame',
  /** 40, 41 or 42. */
  'compensation',
  /** 90 or 91. */
  'distance',
  /** Number of the motion or cycle code in force times ten: 0 G0, 10 G1, 830 G83. NaN none. */
  'motion',
  /** 98 or 99. */
  'return_level',
  /** 1 when lathe X is written as diameter. */
  'diameter',
  /** 610, 611 or 640 (exact path, exact stop, continuous), NaN not stated. */
  'path_mode',
  /** Lead of a thread or tap in mm when the step is one, else NaN. */
  'lead',
] as const;
export type RunField = (typeof RUN_FIELDS)[number];
export const RUN = Object.fromEntries(RUN_FIELDS.map((name, index) => [name, index])) as {
  readonly [K in RunField]: number;
};
export const RUN_WIDTH = RUN_FIELDS.length;

/** Columns of an arc: centre in the plane's first and second axis [mm], sweep [rad, counter-clockwise positive about the plane's normal]. */
export const ARC_WIDTH = 3;
/** Columns of a rotary or secondary-axis end point: A B C [degree], U V W [mm]. */
export const ROTARY_WIDTH = 6;

export class StepTable {
  count = 0;
  line!: Int32Array;
  kind!: Uint8Array;
  flags!: Uint8Array;
  run!: Int32Array;
  x!: Float64Array;
  y!: Float64Array;
  z!: Float64Array;
  /**
   * Row of `arcs` for an arc; for a home step the axes that go home (bit 1 X, 2 Y, 4 Z, 8 A, 16 B, 32 C); else -1. Empty
   * in a packed table without either.
   */
  aux!: Int32Array;
  /** Row of `rotaries`, allocated with the first rotary word. */
  rotary: Int32Array | null = null;

  runCount = 0;
  runs: Float64Array;
  arcCount = 0;
  arcs: Float64Array;
  rotaryCount = 0;
  rotaries: Float64Array;
  /** Seconds of dwell steps and 1/F minutes of inverse-time steps, by step index. */
  seconds: Map<number, number> = new Map();
  /** Work files of steps that are not of the program itself: step index where it starts -> file name. */
  files: Map<number, string> = new Map();

  constructor(capacity = 256, runs: Float64Array = new Float64Array(RUN_WIDTH * 4), with_aux = true) {
    this.lay(capacity, with_aux);
    this.runs = runs;
    this.arcs = NOTHING;
    this.rotaries = NOTHING;
  }

  get capacity(): number {
    return this.x.length;
  }

  /** Makes room for `more` steps. */
  ensure(more: number): void {
    const need = this.count + more;
    if (need <= this.x.length) return;
    const { line, kind, flags, run, x, y, z, aux, rotary } = this;
    this.lay(Math.max(need, this.x.length * 2));
    this.line.set(line);
    this.kind.set(kind);
    this.flags.set(flags);
    this.run.set(run);
    this.x.set(x);
    this.y.set(y);
    this.z.set(z);
    this.aux.set(aux);
    if (rotary !== null) {
      this.rotary = new Int32Array(this.x.length).fill(-1);
      this.rotary.set(rotary);
    }
  }

  /** Adds a step and returns its index. */
  add(
    line: number,
    kind: number,
    flags: number,
    run: number,
    x: number,
    y: number,
    z: number,
    aux: number,
  ): number {
    this.ensure(1);
    const at = this.count;
    this.count = at + 1;
    this.line[at] = line;
    this.kind[at] = kind;
    this.flags[at] = flags;
    this.run[at] = run;
    this.x[at] = x;
    this.y[at] = y;
    this.z[at] = z;
    this.aux[at] = aux;
    return at;
  }

  /** Adds a row for `arcs` and returns its index. */
  addArc(centre_first: number, centre_second: number, sweep_rad: number): number {
    const at = this.arcCount * ARC_WIDTH;
    if (at + ARC_WIDTH > this.arcs.length) this.arcs = grown(this.arcs, at + ARC_WIDTH);
    this.arcs[at] = centre_first;
    this.arcs[at + 1] = centre_second;
    this.arcs[at + 2] = sweep_rad;
    this.arcCount += 1;
    return this.arcCount - 1;
  }

  /** Gives step `at` an end point on rotary and secondary axes (row of ROTARY_WIDTH values). */
  setRotary(at: number, row: ArrayLike<number>): void {
    if (this.rotary === null) this.rotary = new Int32Array(this.x.length).fill(-1);
    const base = this.rotaryCount * ROTARY_WIDTH;
    if (base + ROTARY_WIDTH > this.rotaries.length) this.rotaries = grown(this.rotaries, base + ROTARY_WIDTH);
    for (let i = 0; i < ROTARY_WIDTH; i += 1) this.rotaries[base + i] = row[i];
    this.rotary[at] = this.rotaryCount;
    this.rotaryCount += 1;
  }

  /** Row of `runs` that equals `values`: one of the last few if there is one, else a new row. */
  runOf(values: Float64Array): number {
    const { runs } = this;
    const oldest = Math.max(0, this.runCount - RECENT_RUNS);
    for (let row = this.runCount - 1; row >= oldest; row -= 1) {
      if (sameRow(runs, row * RUN_WIDTH, values)) return row;
    }
    const base = this.runCount * RUN_WIDTH;
    if (base + RUN_WIDTH > runs.length) this.runs = grown(runs, base + RUN_WIDTH);
    this.runs.set(values, base);
    this.runCount += 1;
    return this.runCount - 1;
  }

  /** Empties the table and keeps its memory. */
  clear(): void {
    this.count = 0;
    this.runCount = 0;
    this.arcCount = 0;
    this.rotaryCount = 0;
    this.rotary = null;
    if (this.seconds.size > 0) this.seconds = new Map();
    if (this.files.size > 0) this.files = new Map();
  }

  /** A copy without spare room, its columns in one buffer. */
  packed(): StepTable {
    const { count } = this;
    const copy = new StepTable(count, this.runs.slice(0, this.runCount * RUN_WIDTH), this.hasAux());
    copy.count = count;
    this.copyTo(copy);
    copy.rotary = this.rotary === null ? null : this.rotary.slice(0, count);
    copy.runCount = this.runCount;
    copy.arcCount = this.arcCount;
    copy.arcs = this.arcCount === 0 ? NOTHING : this.arcs.slice(0, this.arcCount * ARC_WIDTH);
    copy.rotaryCount = this.rotaryCount;
    copy.rotaries =
      this.rotaryCount === 0 ? NOTHING : this.rotaries.slice(0, this.rotaryCount * ROTARY_WIDTH);
    copy.seconds = this.seconds;
    copy.files = this.files;
    return copy;
  }

  private hasAux(): boolean {
    const { aux, count } = this;
    for (let i = 0; i < count; i += 1) if (aux[i] !== -1) return true;
    return false;
  }

  /** Step by step: for the few hundred of a chunk that is faster than a view of each column. */
  private copyTo(copy: StepTable): void {
    const { count, line, kind, flags, run, x, y, z } = this;
    const { line: lines, kind: kinds, flags: marks, run: runs, x: xs, y: ys, z: zs } = copy;
    for (let i = 0; i < count; i += 1) {
      lines[i] = line[i];
      kinds[i] = kind[i];
      marks[i] = flags[i];
      runs[i] = run[i];
      xs[i] = x[i];
      ys[i] = y[i];
      zs[i] = z[i];
    }
    if (copy.aux.length > 0) copy.aux.set(this.aux.subarray(0, count));
  }

  private lay(capacity: number, with_aux = true): void {
    const room = (capacity + 7) & ~7;
    const buffer = new ArrayBuffer(room * (with_aux ? BYTES_A_STEP : BYTES_A_STEP - 4));
    this.x = new Float64Array(buffer, 0, room);
    this.y = new Float64Array(buffer, room * 8, room);
    this.z = new Float64Array(buffer, room * 16, room);
    this.line = new Int32Array(buffer, room * 24, room);
    this.run = new Int32Array(buffer, room * 28, room);
    this.kind = new Uint8Array(buffer, room * 32, room);
    this.flags = new Uint8Array(buffer, room * 33, room);
    // Each column begins at a multiple of its own size: room is one of 8.
    this.aux = with_aux ? new Int32Array(buffer, room * 34, room) : NO_AUX;
  }
}

const BYTES_A_STEP = 38;
const RECENT_RUNS = 8;
const NOTHING = new Float64Array(0);
const NO_AUX = new Int32Array(0);

function sameRow(runs: Float64Array, base: number, values: Float64Array): boolean {
  for (let i = 0; i < RUN_WIDTH; i += 1) {
    const a = runs[base + i];
    const b = values[i];
    if (a !== b && !(Number.isNaN(a) && Number.isNaN(b))) return false;
  }
  return true;
}

function grown(array: Float64Array, need: number): Float64Array {
  const bigger = new Float64Array(Math.max(need, array.length * 2, 24));
  bigger.set(array);
  return bigger;
}
