import type { Chunk } from './chunk.ts';
import { StepCursor } from './cursor.ts';
import type { FlowResult } from './flow/run.ts';
import { release } from './kernel.ts';
import type { Assumption } from './machine.ts';
import type { Problem } from './problems.ts';
import type { Settled } from './settle.ts';
import { type MachineState, S, type StateField } from './state.ts';
import { RUN, type RunField } from './steps.ts';
import type { Stretch, StretchPlace, StretchRunner, StretchWitness } from './stretch.ts';
import type { ProgramText } from './text.ts';

/** Asked with the line that comes next whether to stop here and go on later. */
export type Pause = (line: number) => boolean;

/**
 * A program, read: one stretch a chunk of text. After an edit of the text `refresh` runs the changed chunks again and
 * goes on only until the state is again what it was.
 */
export class Reading {
  stretches: Stretch[] = [];
  /** Stretches that the last refresh ran. */
  ran = 0;
  /** False when a bound (steps, depth, turns, time) ended the run early. */
  complete = true;
  /** Steps stand in the order of lines; not so where subprograms or loops run. */
  ordered = true;
  /** What the last refresh took over: so many of the stretches before (`from`) at the beginning, so many at the end. */
  kept: { from: readonly Stretch[]; head: number; tail: number } = { from: [], head: 0, tail: 0 };
  private first_lines = new Int32Array(1);
  /** Stretches from here on may stand as they were before the last edit. */
  private right = 0;
  /** The text as it was read last. */
  private seen: readonly Chunk[] = [];
  /** Some stretch read text outside its own chunk. */
  private looks_ahead = false;

  constructor(
    readonly text: ProgramText,
    readonly settled: Settled,
    private readonly runner: StretchRunner,
    private readonly start: MachineState,
    /** Runs the program with its control flow, up to a line where one is given. */
    private readonly flow: (start: MachineState, until_line?: number) => FlowResult,
    /** Sees the stretches right after they were run; after an edit not the few that keep their steps at hand. */
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

  /**
   * Reads again what the edits of the text since the last refresh touch, or goes on where that one paused. `pause` is asked
   * between stretches; once it says so, stretches whose text did not change stay as they were and `whole` is false.
   */
  refresh(pause?: Pause): void {
    const { chunks } = this.text;
    if (chunks === this.seen && this.whole) return;
    // Whether control flow is needed is asked anew each time: what was so before the edit must not matter.
    if (!this.runStretches(chunks, pause)) this.runWhole();
    this.seen = chunks;
    release();
  }

  /** False while some stretches stand as they were before an edit further up: what they say may be wrong now. */
  get whole(): boolean {
    return this.right >= this.stretches.length;
  }

  /** Lines from the first whose steps and states are those of the text as it is. */
  get rightLines(): number {
    let { right } = this;
    if (right >= this.stretches.length) return this.text.lineCount;
    // Moves that wait for the next blocks are made by a stretch further down.
    while (right > 0 && this.stretches[right - 1].stateOut.pending !== null) right -= 1;
    return this.first_lines[right];
  }

  /** Whether columns of the state go on past every place where stretches do not join yet: then they are right to the end. */
  keeps(fields: readonly StateField[]): boolean {
    for (let index = Math.max(1, this.right); index < this.stretches.length; index += 1) {
      const before = this.stretches[index - 1].stateOut;
      const after = this.stretches[index].stateIn;
      if (before !== after && fields.some(field => !Object.is(before.get(field), after.get(field))))
        return false;
    }
    return true;
  }

  /** One stretch a chunk; false when a block needs control flow. */
  private runStretches(chunks: readonly Chunk[], pause: Pause | undefined): boolean {
    const old = this.ordered ? this.stretches : [];
    const { next, begin, tail } = takeOver(old, this.ordered ? this.seen : [], chunks);
    const shift = chunks.length - old.length;
    // Stretches before this one join: each begins in the state that the one before it ends in.
    const joined = this.looks_ahead && chunks !== this.seen ? 0 : this.right;
    let index = Math.min(begin, joined);
    const first = index;
    let state = index === 0 ? this.start : next[index - 1].stateOut;
    this.ran = 0;
    let end = tail;
    const opened = old.length === 0;
    this.runner.begin(this.witness, opened ? HELD_AT_FIRST : HELD_AFTER_EDIT, opened);
    if (index === 0) this.looks_ahead = false;
    while (index < chunks.length) {
      const kept: Stretch | undefined = next[index];
      const last = index === chunks.length - 1;
      if (kept !== undefined && !kept.looks_ahead && kept.last === last && kept.stateIn.equals(state)) {
        // Text that did not change, in the state that it began in before: so it goes on as far as stretches joined.
        if (index >= tail && joined + shift > index) index = joined + shift - 1;
      } else {
        if (kept !== undefined && pause?.(this.text.firstLineOfChunk(index))) break;
        if (!this.runOne(next, index, state)) return false;
        end = Math.max(end, index + 1);
      }
      state = next[index].stateOut;
      index += 1;
    }
    this.right = index;
    for (; index < tail; index += 1)
      if (next[index] === undefined && !this.runOne(next, index, next[index - 1].stateOut)) return false;
    this.ordered = true;
    this.complete = true;
    this.kept = { from: old, head: first, tail: chunks.length - end };
    this.stretches = next;
    this.countLines(first, shift === 0 ? tail : chunks.length);
    return true;
  }

  private runOne(next: Stretch[], index: number, state: MachineState): boolean {
    const { chunks } = this.text;
    const leader = index === 0 ? this.settled.leader_lines : 0;
    const stretch = this.runner.run(
      chunks[index],
      state,
      leader,
      this.place(index),
      index === chunks.length - 1,
    );
    next[index] = stretch;
    this.ran += 1;
    if (stretch.looks_ahead) this.looks_ahead = true;
    return !stretch.needs_flow;
  }

  /** The whole program as one stretch, with its control flow. */
  private runWhole(): void {
    const { stretch, complete } = this.flow(this.start);
    this.ordered = false;
    this.complete = complete;
    this.kept = { from: this.stretches, head: 0, tail: 0 };
    this.stretches = [stretch];
    this.ran = 1;
    this.right = 1;
    this.countLines(0, 1);
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
    const state = this.runner.stateAfter(stretch, line - this.first_lines[index], leader, this.place(index));
    release();
    return state;
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

  /** Counts the lines before each stretch from `from` on; from `kept` on they may stand as they are. */
  private countLines(from: number, kept: number): void {
    const { stretches } = this;
    if (this.first_lines.length < stretches.length + 1) {
      const longer = new Int32Array(Math.ceil((stretches.length + 1) * 1.25));
      longer.set(this.first_lines);
      this.first_lines = longer;
    }
    const lines = this.first_lines;
    let line = from === 0 ? 0 : lines[from];
    for (let index = from; index < stretches.length; index += 1) {
      if (index >= kept && lines[index] === line) return;
      lines[index] = line;
      line += stretches[index].lineCount;
    }
    lines[stretches.length] = line;
  }
}

/** After an edit hints follow at once, of the few stretches that it ran; of a program that was opened those of its first screen. */
const HELD_AFTER_EDIT = 4;
const HELD_AT_FIRST = 1;

/**
 * The old stretches in their places among the chunks of an edited text: those before the first change by index, from `tail`
 * on by distance to the end, those of chunks between by the chunk. Before `begin` nothing changed.
 */
function takeOver(
  old: readonly Stretch[],
  before: readonly Chunk[],
  chunks: readonly Chunk[],
): { next: Stretch[]; begin: number; tail: number } {
  const shorter = Math.min(before.length, chunks.length);
  let head = 0;
  while (head < shorter && before[head] === chunks[head]) head += 1;
  let same = 0;
  while (same < shorter - head && before[before.length - 1 - same] === chunks[chunks.length - 1 - same])
    same += 1;
  const tail = chunks.length - same;
  const next: Stretch[] = new Array(chunks.length);
  for (let i = 0; i < head; i += 1) next[i] = old[i];
  const moved = old.length - chunks.length;
  for (let i = tail; i < chunks.length; i += 1) next[i] = old[i + moved];
  const middle = new Map<Chunk, Stretch>();
  for (let i = head; i < old.length - same; i += 1) middle.set(before[i], old[i]);
  for (let i = head; i < tail; i += 1) {
    const kept = middle.get(chunks[i]);
    if (kept) next[i] = kept;
  }
  // One of these was the last of all, or is so now.
  const begin = moved === 0 ? head : Math.min(head, Math.max(0, shorter - 1));
  return { next, begin, tail };
}
