import { axisPointsOf } from './axis-points.ts';
import { BlockReader } from './block-reader.ts';
import type { Chunk } from './chunk.ts';
import { endOfLine, nextLine } from './chunk.ts';
import type { MachineKind } from './codes/shape.ts';
import { opensComment } from './comments.ts';
import { closePath } from './execute-compensation.ts';
import { Executor } from './executor.ts';
import { allowsFastLines, FastLines } from './fast-lines.ts';
import { compiledColumns, release } from './kernel.ts';
import { type Assumption, Machine, type MachineSettings } from './machine.ts';
import { TextProfiles } from './numbered-lines.ts';
import { type PackedSteps, packSteps, runsOf } from './packed-steps.ts';
import type { Problem } from './problems.ts';
import { RecalledSteps } from './recalled-steps.ts';
import { MachineState, S } from './state.ts';
import type { StepTable } from './steps.ts';
import type { ProgramText } from './text.ts';

/** One chunk of the program, executed. Lines of steps and problems are relative to its first line. */
export interface Stretch {
  /** Null where the whole program is one stretch (control flow). */
  readonly chunk: Chunk | null;
  readonly lineCount: number;
  readonly steps: StepTable;
  readonly problems: readonly Problem[];
  readonly assumptions: readonly Assumption[];
  readonly stateIn: MachineState;
  readonly stateOut: MachineState;
  /** It read text outside its own chunk: read again at every change. */
  readonly looks_ahead: boolean;
  /** It was run as the end of the program. */
  readonly last: boolean;
  /** It holds a block that needs control flow. */
  readonly needs_flow: boolean;
}

/**
 * Sees each stretch of a program right after it was read, with its steps as they were just written: looking at them then
 * costs less than fetching them again later. After an edit the few that keep their steps at hand are not shown: hints come
 * first. `steps` is only lent: keep what the stretch has.
 */
export type StretchWitness = (stretch: Stretch, steps: StepTable, kind: MachineKind) => void;

/** Where a stretch stands in its text. */
export interface StretchPlace {
  text: ProgramText;
  first_line: () => number;
}

/** Reads and executes chunks; keeps its working memory between them. */
export class StretchRunner {
  private readonly machine: Machine;
  private readonly executor: Executor;
  private readonly reader: BlockReader;
  private last_runs: Float64Array = new Float64Array(0);
  /** So many of the next stretches keep their steps at hand. */
  private held = 0;
  private shown = true;
  private witness: StretchWitness | undefined;

  constructor(
    settings: MachineSettings & { semicolon_ends_block: boolean },
    /** Only for tests: no short way. */
    private readonly slow_only = false,
  ) {
    this.machine = new Machine(settings, new MachineState(), compiledColumns());
    this.executor = new Executor(this.machine);
    this.reader = new BlockReader({
      semicolon_ends_block: settings.semicolon_ends_block,
      report_rules: settings.dialect === 'ngc',
      skip_deleted: settings.skip_deleted,
    });
  }

  /** Makes ready for some stretches of one text; of the first `held` somebody will soon ask for the steps: these are `shown`, or not. */
  begin(witness: StretchWitness | undefined, held: number, shown: boolean): void {
    this.witness = witness;
    this.held = held;
    this.shown = shown;
  }

  /** Executes one chunk from a state. `skip_lines` at its start are leader and left unread. */
  run(chunk: Chunk, stateIn: MachineState, skip_lines = 0, place?: StretchPlace, last = true): Stretch {
    const { machine } = this;
    this.look(place);
    this.execute(chunk, stateIn, skip_lines, chunk.length);
    chunk.noteLineEnds(machine.line);
    chunk.pointed_words = machine.pointed_words;
    chunk.comment_lines = machine.comment_lines;
    const lineCount = machine.line;
    if (last) closePath(machine);
    const stretch = {
      chunk,
      lineCount,
      steps: this.stepsOf(chunk, stateIn, skip_lines, last),
      problems: machine.problems.length === 0 ? NO_PROBLEMS : machine.problems,
      assumptions: machine.assumptions(),
      stateIn,
      stateOut: this.stateOut(stateIn),
      last,
      looks_ahead: machine.looks_ahead,
      needs_flow: machine.needs_flow,
    };
    if (this.shown || this.held <= 0) this.witness?.(stretch, machine.table, machine.settings.kind);
    this.held -= 1;
    return stretch;
  }

  /** The steps just recorded: put away where they cannot be made again or will soon be asked for, else to be recalled. */
  private stepsOf(chunk: Chunk, stateIn: MachineState, skip_lines: number, last: boolean): StepTable {
    const { table, looks_ahead } = this.machine;
    this.last_runs = runsOf(table, this.last_runs);
    const runs = this.last_runs;
    if (looks_ahead) return packSteps(table, runs);
    const steps = new RecalledSteps(table, runs, () => this.recall(chunk, stateIn, skip_lines, last, runs));
    if (this.held > 0) steps.hold(packSteps(table, runs));
    return steps;
  }

  /** The steps of a stretch run before, made again. */
  private recall(
    chunk: Chunk,
    stateIn: MachineState,
    skip_lines: number,
    last: boolean,
    runs: Float64Array,
  ): PackedSteps {
    this.look(undefined);
    this.execute(chunk, stateIn, skip_lines, chunk.length);
    if (last) closePath(this.machine);
    const steps = packSteps(this.machine.table, runs);
    release();
    return steps;
  }

  /** The state after a line of a stretch that was run before. */
  stateAfter(stretch: Stretch, line: number, skip_lines: number, place?: StretchPlace): MachineState {
    if (stretch.chunk === null) return stretch.stateOut;
    this.look(place);
    this.execute(stretch.chunk, stretch.stateIn, skip_lines, stretch.chunk.startOfLine(line + 1));
    return this.machine.state.clone();
  }

  /** The state for the next chunk; lines of open moves count from there. */
  private stateOut(stateIn: MachineState): MachineState {
    const { state, line } = this.machine;
    if (state.pending !== null) state.pending = state.pending.movedUp(line);
    return state.equals(stateIn) ? stateIn : state.clone();
  }

  private look(place: StretchPlace | undefined): void {
    const { machine } = this;
    machine.profiles =
      place === undefined ? null : new TextProfiles(place.text, () => place.first_line() + machine.line);
  }

  /** Executes the lines of a chunk that end before `limit`. */
  private execute(chunk: Chunk, stateIn: MachineState, skip_lines: number, limit: number): void {
    const { machine, reader } = this;
    const { bytes } = chunk;
    machine.begin(stateIn);
    reader.problems = machine.problems;
    let pos = 0;
    for (; machine.line < skip_lines && pos < limit; machine.line += 1) pos = nextLine(bytes, pos, limit);
    if (pos > 0) passOver(machine);
    const fast_limit = limit < bytes.length || chunk.endsWithLineEnd() ? limit : -1;
    const lines = new FastLines(machine, bytes);
    let fast = !this.slow_only && pos < fast_limit && allowsFastLines(machine);
    while (pos < limit) {
      if (machine.state.v[S.ended] !== 0) {
        // After the end of the program nothing is executed or reported.
        passOver(machine);
        for (let end = endOfLine(bytes, pos, limit); end < limit; end = endOfLine(bytes, pos, limit)) {
          machine.line += 1;
          pos = nextLine(bytes, end, limit);
        }
        break;
      }
      if (fast) {
        pos = lines.run(pos, fast_limit);
        if (pos >= limit) break;
      }
      const end = endOfLine(bytes, pos, limit);
      noteLine(machine, bytes, pos, end);
      const block = reader.read(bytes, pos, end, machine.line);
      this.executor.execute(block);
      if (end >= limit) break;
      machine.line += 1;
      pos = bytes[end] === 13 && bytes[end + 1] === 10 ? end + 2 : end + 1;
      fast = fast_limit >= 0 && !this.slow_only && allowsFastLines(machine);
    }
  }
}

/** Some text is not read. */
function passOver(machine: Machine): void {
  machine.pointed_words = -1;
  machine.comment_lines = undefined;
}

/** More lines with comments than this are looked for again when somebody asks. */
const MOST_COMMENT_LINES = 50;

/** Notes what others will ask of a line that goes the long way: its axis words, and whether it may hold a comment. */
function noteLine(machine: Machine, bytes: Uint8Array, from: number, to: number): void {
  const { comment_lines } = machine;
  if (machine.pointed_words >= 0) {
    const { whole, with_point } = axisPointsOf(bytes, from, to);
    machine.pointed_words = whole > 0 ? -1 : machine.pointed_words + with_point;
  }
  if (comment_lines === undefined || !opensComment(bytes, from, to)) return;
  if (comment_lines.length === 0) machine.comment_lines = [machine.line, from];
  else if (comment_lines.length < 2 * MOST_COMMENT_LINES) comment_lines.push(machine.line, from);
  else machine.comment_lines = undefined;
}

const NO_PROBLEMS: readonly Problem[] = [];
