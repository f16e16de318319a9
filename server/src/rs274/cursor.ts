import { S } from './state.ts';
import {
  ARC_WIDTH,
  KIND,
  ROTARY_WIDTH,
  RUN,
  RUN_WIDTH,
  type RunField,
  STEP_FLAG,
  type StepTable,
} from './steps.ts';
import type { Stretch } from './stretch.ts';

/** What a walk needs of a reading. */
export interface ReadStretches {
  readonly stretches: readonly Stretch[];
  readonly ordered: boolean;
  stretchOfLine(line: number): number;
  firstLine(stretch: number): number;
}

/**
 * Walks over the executed moves of a reading in order, one at a time, without making objects. Lengths in mm, NaN where
 * the program does not tell.
 */
export class StepCursor {
  /** 0-based line of the program (of `file` when that is set). */
  line = 0;
  /** Number of the kind, see STEP_KINDS. */
  kind = 0;
  flags = 0;
  /** Where the move starts and ends. */
  x0 = Number.NaN;
  y0 = Number.NaN;
  z0 = Number.NaN;
  x = Number.NaN;
  y = Number.NaN;
  z = Number.NaN;
  /** Stretch and step in its table. */
  stretch = -1;
  index = -1;
  /** Table that holds the move. */
  table: StepTable | null = null;
  private first_line = 0;
  private run_base = 0;
  private readonly last_stretch: number;

  constructor(
    private readonly reading: ReadStretches,
    private readonly from: number,
    private readonly to: number,
  ) {
    this.stretch = reading.stretches.length === 0 ? 0 : reading.stretchOfLine(Math.max(0, from)) - 1;
    this.last_stretch = reading.stretches.length - 1;
  }

  /** Goes to the next move; false at the end. */
  next(): boolean {
    for (;;) {
      const table = this.table;
      if (table === null || this.index + 1 >= table.count) {
        if (!this.enter(this.stretch + 1)) return false;
        continue;
      }
      const at = this.index + 1;
      this.index = at;
      this.x0 = this.x;
      this.y0 = this.y;
      this.z0 = this.z;
      this.x = table.x[at];
      this.y = table.y[at];
      this.z = table.z[at];
      const line = table.line[at] + this.first_line;
      this.line = line;
      if (line < this.from || line >= this.to) {
        if (line >= this.to && this.reading.ordered) return false;
        continue;
      }
      this.kind = table.kind[at];
      this.flags = table.flags[at];
      this.run_base = table.run[at] * RUN_WIDTH;
      return true;
    }
  }

  /** A column of the state that the move is made in. */
  run(field: RunField): number {
    return this.table === null ? Number.NaN : this.table.runs[this.run_base + RUN[field]];
  }

  /** The run columns that the move is made in (a view, not a copy). */
  get runValues(): Float64Array {
    return this.table === null
      ? new Float64Array(RUN_WIDTH).fill(Number.NaN)
      : this.table.runs.subarray(this.run_base, this.run_base + RUN_WIDTH);
  }

  /** Row of the state in the table's runs: equal rows are equal states. */
  get runRow(): number {
    return this.run_base / RUN_WIDTH;
  }

  /** Path length, mm; NaN when an end is not known (an axis that stays unknown throughout counts as standing still). */
  get length_mm(): number {
    const { kind } = this;
    if (kind >= KIND.dwell && kind !== KIND.probe) return kind === KIND.home ? Number.NaN : 0;
    if ((this.flags & STEP_FLAG.machine_frame) !== 0) return Number.NaN;
    const dx = span(this.x0, this.x, this.stands(S.x));
    const dy = span(this.y0, this.y, this.stands(S.y));
    const dz = span(this.z0, this.z, this.stands(S.z));
    if (kind === KIND.arc) {
      const plane = this.run('plane');
      const rise = plane === 17 ? dz : plane === 18 ? dy : dx;
      const flat = this.radius_mm * this.sweep_rad;
      return Math.sqrt(flat * flat + rise * rise);
    }
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  }

  /** Radius of an arc at its start, mm. */
  get radius_mm(): number {
    const plane = this.run('plane');
    const first = (plane === 17 ? this.x0 : plane === 18 ? this.z0 : this.y0) - this.arc(0);
    const second = (plane === 17 ? this.y0 : plane === 18 ? this.x0 : this.z0) - this.arc(1);
    return Math.sqrt(first * first + second * second);
  }

  /** Centre of an arc along the plane's first axis (G17 X, G18 Z, G19 Y), mm. */
  get centre_first(): number {
    return this.arc(0);
  }

  /** Centre along the plane's second axis (G17 Y, G18 X, G19 Z), mm. */
  get centre_second(): number {
    return this.arc(1);
  }

  /** Sweep of an arc, counter-clockwise positive about the plane's normal, with all turns. */
  get sweep_rad(): number {
    return this.arc(2);
  }

  /** Axes that a home step sends to the reference position: bit 1 X, 2 Y, 4 Z, 8 A, 16 B, 32 C. */
  get home_axes(): number {
    return this.kind === KIND.home && this.table !== null ? this.table.aux[this.index] : 0;
  }

  /** Seconds of a dwell or of an inverse-time move; NaN otherwise. */
  get seconds(): number {
    return this.table?.seconds.get(this.index) ?? Number.NaN;
  }

  /** End point on axis A B C [degree] or U V W [mm], 0 to 5; NaN when the move names none. */
  rotary(axis: number): number {
    const table = this.table;
    if (table === null || table.rotary === null || table.rotary[this.index] < 0) return Number.NaN;
    return table.rotaries[table.rotary[this.index] * ROTARY_WIDTH + axis];
  }

  /** File of the step when it is not the program's own. */
  get file(): string | undefined {
    let name: string | undefined;
    if (this.table === null || this.table.files.size === 0) return undefined;
    for (const [start, file] of this.table.files)
      if (start <= this.index) name = file === '' ? undefined : file;
    return name;
  }

  private arc(column: number): number {
    const table = this.table;
    if (table === null || this.kind !== KIND.arc) return Number.NaN;
    const row = table.aux[this.index];
    return row < 0 ? Number.NaN : table.arcs[row * ARC_WIDTH + column];
  }

  /** Whether an axis that is not known was not moved: unknown before and after without ever being programmed. */
  private stands(column: number): boolean {
    const at = column - S.x;
    return at === 0
      ? Number.isNaN(this.x0) && Number.isNaN(this.x)
      : at === 1
        ? Number.isNaN(this.y0) && Number.isNaN(this.y)
        : Number.isNaN(this.z0) && Number.isNaN(this.z);
  }

  private enter(stretch: number): boolean {
    if (stretch > this.last_stretch || this.reading.stretches.length === 0) return false;
    const { stateIn, steps } = this.reading.stretches[stretch];
    this.first_line = this.reading.firstLine(stretch);
    // Moves that wait for the next block may stand in the stretch after their line's.
    if (this.first_line >= this.to && this.reading.ordered && stateIn.pending === null) return false;
    this.stretch = stretch;
    this.table = steps;
    this.index = -1;
    this.x = stateIn.v[S.x];
    this.y = stateIn.v[S.y];
    this.z = stateIn.v[S.z];
    return true;
  }
}

function span(from: number, to: number, stands: boolean): number {
  return stands ? 0 : to - from;
}
