import { type Block, WORD } from './block.ts';
import type { Dialect, MachineKind } from './codes/shape.ts';
import { codeIndex } from './codes/table.ts';
import type { Problem } from './problems.ts';
import type { ProfileRequest } from './profile-request.ts';
import { type MachineState, S, writeRun } from './state.ts';
import type { StepColumns } from './step-columns.ts';
import { StepRecorder } from './step-recorder.ts';
import { KIND, ROTARY_WIDTH, RUN, RUN_WIDTH, STEP_FLAG } from './steps.ts';
import type { ValueSource } from './value-source.ts';

/** How the numbers and codes of one program are read; all of it settled before reading (settle.ts). */
export interface MachineSettings {
  dialect: Dialect;
  kind: MachineKind;
  /** Least increment of words without a point in mm programs, mm; 0: such words are whole units. */
  least_increment_mm: number;
  /** The same in inch programs, inch. */
  least_increment_inch: number;
  /** P of a dwell without a point is milliseconds. */
  dwell_ms: boolean;
  /** Blocks with block delete are left out. */
  skip_deleted: boolean;
  /** The program's contour is the part edge, or the tool centre; absent: compensation is not modelled. */
  compensation?: 'part-edge' | 'wear-only';
  /** Diameter of a tool by radius-offset number, else by tool number, mm; NaN when not known. */
  toolDiameter_mm?: (radius_offset: number, tool: number) => number;
  /** Nose of a lathe tool by offset number, else by tool number; NaN where not known. */
  toolNose?: (radius_offset: number, tool: number) => ToolNose;
}

/** Nose radius, mm, and tip direction 0 to 9 (compensation/nose.ts). */
export interface ToolNose {
  readonly radius_mm: number;
  readonly tip: number;
}

/** One line of a program found by its block number. */
export interface NumberedLine {
  readonly bytes: Uint8Array;
  readonly start: number;
  readonly end: number;
  /** Relative to the line being executed. */
  readonly line: number;
}

/** Where a machine finds blocks by number: forward from the line being executed, then from the start of the program. */
export interface ProfileSource {
  /** The lines from N `first` to N `last`; undefined when there are no such blocks. `ahead`: they stand below the line. */
  lines(
    first: number,
    last: number,
  ): { readonly lines: readonly NumberedLine[]; readonly ahead: boolean } | undefined;
}

/** Executes blocks on a machine, one after the other. */
export interface BlockRunner {
  execute(block: Block): void;
}

/** Most problems that one stretch keeps. */
export const MOST_PROBLEMS = 2000;

/** What a control parameter was taken to be; the program does not say. */
export interface Assumption {
  readonly code: string;
  readonly message: string;
}

const NO_ASSUMPTIONS: readonly Assumption[] = [];

const NO_LINES: number[] = [];

/** A machine that executes blocks: the state, the table it writes to, and the problems it found. */
export class Machine {
  readonly state: MachineState;
  table: StepRecorder;
  problems: Problem[] = [];
  /** Line of the block being executed, relative to the table's first line. */
  line = 0;
  /** Axis words with a point; -1 once one that is not zero has none, or text was passed over. */
  pointed_words = 0;
  /** Lines that may hold a comment: line and place of each in turn; undefined when they are many, or text was passed over. */
  comment_lines: number[] | undefined = NO_LINES;
  /** Flags that every step of this block gets. */
  flags = 0;
  /** Set by a block that only the control-flow driver can execute. */
  needs_flow = false;
  readonly g: Int16Array;
  readonly m: Int16Array;
  readonly lathe_words: boolean;
  /** Set when text outside the stretch was read. */
  looks_ahead = false;
  /** Finds the blocks of a finishing profile in the program; null where there is no program to look in. */
  profiles: ProfileSource | null = null;
  /** Makes a runner for another machine, for blocks that are executed apart; null until this machine has its own. */
  runner: ((machine: Machine) => BlockRunner) | null = null;
  /** Roughing cycles run their profile without nose radius compensation. */
  ignores_compensation = false;
  /** A cycle of this block that waits for the moves of its subroutine. */
  profile_request: ProfileRequest | null = null;
  /** Values of expressions and parameters while a program runs with control flow; null without. */
  values: ValueSource | null = null;
  private readonly assumed = new Map<string, string>();
  /** Flag of a step in machine coordinates. */
  readonly frameFlag = STEP_FLAG.machine_frame;
  private readonly row = new Float64Array(RUN_WIDTH);

  constructor(
    readonly settings: MachineSettings,
    state: MachineState,
    home?: StepColumns,
  ) {
    this.state = state;
    this.table = new StepRecorder(512, home);
    this.g = codeIndex('G', settings.dialect, settings.kind);
    this.m = codeIndex('M', settings.dialect, settings.kind);
    this.lathe_words = settings.kind === 'lathe' && settings.dialect !== 'ngc';
  }

  get report(): boolean {
    return this.settings.dialect === 'ngc';
  }

  /** mm in one unit of the program. */
  get unit(): number {
    return this.state.v[S.inch] === 1 ? 25.4 : 1;
  }

  /** Value of a length word, mm; words without a point in least increments where the program is written so. */
  length(block: Block, at: number): number {
    return this.plain(block, at) * this.unit;
  }

  /** Value of a length word along X: half of it when X words are diameters. */
  lengthAlongX(block: Block, at: number): number {
    return this.plain(block, at) * (this.state.v[S.diameter] === 1 ? this.unit * 0.5 : this.unit);
  }

  /** Value of a length word in units of the program. */
  plain(block: Block, at: number): number {
    const value = block.value[at];
    if ((block.marks[at] & WORD.point) !== 0) return value;
    const inch = this.state.v[S.inch] === 1;
    const least = inch ? this.settings.least_increment_inch : this.settings.least_increment_mm;
    return least === 0 ? value : value / Math.round(1 / least);
  }

  /** A copy of the run columns of the state as it stands. */
  runValues(): Float64Array {
    return writeRun(this.state.v, new Float64Array(RUN_WIDTH));
  }

  /** Row of the table's runs for the state as it stands. */
  runRow(lead_mm = Number.NaN): number {
    const row = writeRun(this.state.v, this.row);
    row[RUN.lead] = lead_mm;
    return this.table.runOf(row);
  }

  /** Adds a step that ends where the state stands. */
  step(kind: number, flags = 0, aux = -1, lead_mm = Number.NaN): number {
    const { v } = this.state;
    const run = this.runRow(lead_mm);
    return this.table.add(this.line, kind, this.flags | flags, run, v[S.x], v[S.y], v[S.z], aux);
  }

  /** Adds a step without motion because the known position changed. */
  place(): void {
    this.step(KIND.place);
  }

  /** Adds the end point on rotary and secondary axes to a step. */
  rotaries(step: number): void {
    this.table.setRotary(step, this.state.v.subarray(S.a, S.a + ROTARY_WIDTH));
  }

  /** Forgets the position of the axes in `named` (bit 1 X, 2 Y, 4 Z). */
  forget(named: number): void {
    const { v } = this.state;
    if ((named & 1) !== 0) v[S.x] = Number.NaN;
    if ((named & 2) !== 0) v[S.y] = Number.NaN;
    if ((named & 4) !== 0) v[S.z] = Number.NaN;
    this.place();
  }

  /** Forgets the position of the linear axes. */
  lose(): void {
    const { v } = this.state;
    const known = !(Number.isNaN(v[S.x]) && Number.isNaN(v[S.y]) && Number.isNaN(v[S.z]));
    v[S.x] = Number.NaN;
    v[S.y] = Number.NaN;
    v[S.z] = Number.NaN;
    if (known) this.place();
  }

  problem(code: string, start: number, end: number, message: string): void {
    if (this.problems.length >= MOST_PROBLEMS) return;
    this.problems.push({ code, line: this.line, start, end, message });
  }

  /** Notes what a control parameter was taken to be. */
  assume(code: string, message: string): void {
    this.assumed.set(code, message);
  }

  assumptions(): readonly Assumption[] {
    if (this.assumed.size === 0) return NO_ASSUMPTIONS;
    return [...this.assumed].map(([code, message]) => ({ code, message }));
  }

  /** Makes ready for another stretch that begins in a state. */
  begin(state: MachineState): void {
    this.state.copyFrom(state);
    this.table.clear();
    this.problems = [];
    this.assumed.clear();
    this.line = 0;
    this.pointed_words = 0;
    this.comment_lines = NO_LINES;
    this.flags = 0;
    this.needs_flow = false;
    this.looks_ahead = false;
  }

  /** A problem at one word of the block. */
  problemAt(block: Block, at: number, code: string, message: string): void {
    if (at < 0) this.problem(code, 0, block.length, message);
    else this.problem(code, block.start[at], block.end[at], message);
  }
}
