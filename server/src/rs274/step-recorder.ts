import { emptyColumns, type StepColumns } from './step-columns.ts';
import { ARC_WIDTH, ROTARY_WIDTH, RUN_WIDTH, type StepTable } from './steps.ts';

/**
 * The table that a machine writes its steps to; it keeps its memory from stretch to stretch. With a `home` it begins each
 * stretch in those columns, and leaves them for its own when they become too narrow.
 */
export class StepRecorder implements StepTable {
  count = 0;
  line!: Int32Array;
  kind!: Uint8Array;
  flags!: Uint8Array;
  run!: Int32Array;
  x!: Float64Array;
  y!: Float64Array;
  z!: Float64Array;
  aux!: Int32Array;
  rotary: Int32Array | null = null;

  runCount = 0;
  runs: Float64Array;
  arcCount = 0;
  arcs!: Float64Array;
  rotaryCount = 0;
  rotaries: Float64Array;
  seconds: Map<number, number> = new Map();
  files: Map<number, string> = new Map();

  constructor(
    capacity = 256,
    private readonly home?: StepColumns,
  ) {
    this.take(home ?? emptyColumns(capacity));
    this.runs = new Float64Array(RUN_WIDTH * 4);
    this.rotaries = NOTHING;
  }

  get capacity(): number {
    return this.x.length;
  }

  /** Makes room for `more` steps. */
  ensure(more: number): void {
    const need = this.count + more;
    if (need <= this.x.length) return;
    const { line, kind, flags, run, x, y, z, aux, arcs, rotary } = this;
    this.take({ ...emptyColumns(Math.max(need, this.x.length * 2)), arcs });
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

  /** Makes room for `more` arcs. */
  ensureArcs(more: number): void {
    const need = (this.arcCount + more) * ARC_WIDTH;
    if (need > this.arcs.length) this.arcs = grown(this.arcs, need);
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
    this.ensureArcs(1);
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
    if (this.home !== undefined) this.take(this.home);
    this.count = 0;
    this.runCount = 0;
    this.arcCount = 0;
    this.rotaryCount = 0;
    this.rotary = null;
    if (this.seconds.size > 0) this.seconds = new Map();
    if (this.files.size > 0) this.files = new Map();
  }

  private take({ line, kind, flags, run, x, y, z, aux, arcs }: StepColumns): void {
    this.line = line;
    this.kind = kind;
    this.flags = flags;
    this.run = run;
    this.x = x;
    this.y = y;
    this.z = z;
    this.aux = aux;
    this.arcs = arcs;
  }
}

const RECENT_RUNS = 8;
const NOTHING = new Float64Array(0);

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
