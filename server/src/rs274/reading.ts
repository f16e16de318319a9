import type { Chunk } from './chunk.ts';
import { StepCursor } from './cursor.ts';
import type { FlowResult } from './flow/run.ts';
import type { Assumption } from './machine.ts';
import type { Problem } from './problems.ts';
import type { Settled } from './settle.ts';
import { type MachineState, S } from './state.ts';
import { RUN, type RunField } from './steps.ts';
import type { Stretch, StretchPlace, StretchRunner, StretchWitness } from './stretch.ts';
import type { ProgramText } from './text.ts';

/**
 * A program, read: one stretch a chunk of text. After an edit of the text `refresh` runs the changed chunks again and
 * goes on only until the state is again what it was.
 */
export class Reading {
  stretches: Stretch[] = [];
  /** Stretches that the last refresh ran. */
  ran = 0;
  /** Index range of stretches that the last refresh put in: [first, end). */
  changed: { first: number; end: number } = { first: 0, end: 0 };
  /** False when a bound (steps, depth, turns, time) ended the run early. */
  complete = true;
  /** Steps stand in the order of lines; not so where subprograms or loops run. */
  ordered = true;
  private first_lines = new Int32Array(1);

  constructor(
    readonly text: ProgramText,
    readonly settled: Settled,
    private readonly runner: StretchRunner,
    private readonly start: MachineState,
    /** Runs the program with its control flow, up to a line where one is given. */
    private readonly flow: (start: MachineState, until_line?: number) => FlowResult,
    /** Sees the stretches of the first reading. */
    private readonly witness?: StretchWitness,
  ) {}

  get lineCount(): number {
    return this.text.lineCount;
  }

  /** State at the end of the program. */
  get end(): MachineState {
    const last = this.stretches[this.stretches.length - 1];
    return last === undefined ? this.start : last.stateOut;
  }

  /** Edits the text (offsets in UTF-16 units) and reads again what depends on it. */
  apply(start: number, end: number, text: string): void {
    this.text.edit(start, end, text);
    this.refresh();
  }

  /** Reads again what the edits of the text since the last refresh touch. */
  refresh(): void {
    const { chunks } = this.text;
    // Whether control flow is needed is asked anew each time: what was so before the edit must not matter.
    if (!this.runStretches(chunks)) this.runWhole();
  }

  /** One stretch a chunk; false when a block needs control flow. */
  private runStretches(chunks: readonly Chunk[]): boolean {
    const old = this.ordered ? this.stretches : [];
    const next: Stretch[] = new Array(chunks.length);
    const reuse = reusable(old, chunks);
    let state = this.start;
    let first = -1;
    let end = 0;
    this.ran = 0;
    this.runner.begin(this.stretches.length === 0 ? this.witness : undefined);
    for (let index = 0; index < chunks.length; index += 1) {
      const kept = reuse(index);
      const last = index === chunks.length - 1;
      const leader = index === 0 ? this.settled.leader_lines : 0;
      if (kept !== undefined && !kept.looks_ahead && kept.last === last && kept.stateIn.equals(state)) {
        next[index] = kept;
      } else {
        next[index] = this.runner.run(chunks[index], state, leader, this.place(index), last);
        this.ran += 1;
        if (first < 0) first = index;
        end = index + 1;
        if (next[index].needs_flow) return false;
      }
      state = next[index].stateOut;
    }
    this.ordered = true;
    this.complete = true;
    this.stretches = next;
    this.changed = { first: Math.max(0, first), end };
    this.countLines();
    return true;
  }

  /** The whole program as one stretch, with its control flow. */
  private runWhole(): void {
    const { stretch, complete } = this.flow(this.start);
    this.ordered = false;
    this.complete = complete;
    this.stretches = [stretch];
    this.ran = 1;
    this.changed = { first: 0, end: 1 };
    this.countLines();
  }

  /** Whether the program was run whole because of its control flow. */
  get needs_flow(): boolean {
    return !this.ordered;
  }

  /** First line of a stretch. */
  firstLine(stretch: number): number {
    return this.first_lines[stretch];
  }

  /** Index of the stretch that holds a line. */
  stretchOfLine(line: number): number {
    let low = 0;
    let high = this.stretches.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.first_lines[middle] <= line) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** A cursor over the steps of lines `from` to `to` (end excluded); over all steps without. */
  cursor(from = 0, to = Number.POSITIVE_INFINITY): StepCursor {
    return new StepCursor(this, from, to);
  }

  /** Steps of one line, in order of execution. */
  stepsOfLine(line: number): StepCursor {
    return this.cursor(line, line + 1);
  }

  /** The state after a line (in the run as written; where a line runs several times, after its first run). */
  stateAfter(line: number): MachineState {
    const index = this.stretchOfLine(line);
    const stretch = this.stretches[index];
    if (stretch === undefined) return this.start;
    const last_line = index === this.stretches.length - 1 ? this.text.lineCount : this.first_lines[index + 1];
    if (line + 1 >= last_line) return stretch.stateOut;
    if (!this.ordered) return this.flow(this.start, line).stretch.stateOut;
    const leader = index === 0 ? this.settled.leader_lines : 0;
    return this.runner.stateAfter(stretch, line - this.first_lines[index], leader, this.place(index));
  }

  /** A run column (steps.ts) of the state after a line. */
  runAt(line: number, field: RunField): number {
    return RUN[field] === RUN.lead ? Number.NaN : this.stateAfter(line).v[S.tool + RUN[field]];
  }

  /** Problems with lines of the program, in order; at most `most`. */
  problems(most = Number.POSITIVE_INFINITY): Problem[] {
    const all: Problem[] = [];
    for (let index = 0; index < this.stretches.length && all.length < most; index += 1) {
      const first = this.first_lines[index];
      for (const problem of this.stretches[index].problems) {
        if (all.length >= most) break;
        all.push({ ...problem, line: problem.line + first });
      }
    }
    return all;
  }

  /** What control parameters were taken to be, each once. */
  assumptions(): Assumption[] {
    const all = new Map<string, Assumption>();
    for (const stretch of this.stretches)
      for (const assumed of stretch.assumptions) all.set(assumed.code, assumed);
    return [...all.values()];
  }

  private place(index: number): StretchPlace {
    return { text: this.text, first_line: () => this.text.firstLineOfChunk(index) };
  }

  private countLines(): void {
    if (this.first_lines.length < this.stretches.length + 1) {
      this.first_lines = new Int32Array(Math.ceil((this.stretches.length + 1) * 1.25));
    }
    let line = 0;
    for (let index = 0; index < this.stretches.length; index += 1) {
      this.first_lines[index] = line;
      line += this.stretches[index].lineCount;
    }
    this.first_lines[this.stretches.length] = line;
  }
}

/** The old stretch of a chunk: stretches before the first change by index, those after the last by distance to the end. */
function reusable(old: readonly Stretch[], chunks: readonly Chunk[]): (index: number) => Stretch | undefined {
  let head = 0;
  const shorter = Math.min(old.length, chunks.length);
  while (head < shorter && old[head].chunk === chunks[head]) head += 1;
  let tail = 0;
  while (tail < shorter - head && old[old.length - 1 - tail].chunk === chunks[chunks.length - 1 - tail])
    tail += 1;
  const middle = new Map<Chunk | null, Stretch>();
  for (let i = head; i < old.length - tail; i += 1) middle.set(old[i].chunk, old[i]);
  return index => {
    if (index < head) return old[index];
    if (index >= chunks.length - tail) return old[old.length - (chunks.length - index)];
    return middle.get(chunks[index]);
  };
}
