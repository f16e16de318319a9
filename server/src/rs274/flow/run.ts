import { BlockReader } from '../block-reader.ts';
import { closePath } from '../execute-compensation.ts';
import { Executor } from '../executor.ts';
import { Parameters } from '../expressions/parameters.ts';
import { ExpressionReader } from '../expressions/reader.ts';
import { STATUS, Value } from '../expressions/value.ts';
import { Machine, type MachineSettings } from '../machine.ts';
import { TextProfiles } from '../numbered-lines.ts';
import { packSteps } from '../packed-steps.ts';
import { MachineState, S } from '../state.ts';
import { KIND } from '../steps.ts';
import type { Stretch } from '../stretch.ts';
import type { ProgramText } from '../text.ts';
import { Budget, type FlowBounds } from './bounds.ts';
import { type Call, callOf, makeCall, modalCall, movedSince, withoutCall } from './calls.ts';
import { runProfile } from './capture-profile.ts';
import { abortOf, BlockEvents } from './events.ts';
import type { Frame } from './frame.ts';
import { JumpBook } from './jump-book.ts';
import { Library, mainPart, type ResolveFile, type Target } from './library.ts';
import { macroStatement } from './macro-words.ts';
import { oWordStatement } from './o-words.ts';
import type { FlowProgram } from './program.ts';
import { Reports } from './reports.ts';
import { restoreModes } from './saved-modes.ts';
import type { Statement } from './statements.ts';
import { MachineParameters } from './system.ts';
import { FlowValues } from './values.ts';
import { Visits } from './visits.ts';

export interface FlowResult {
  stretch: Stretch;
  /** False when a bound ended the run; `problems` then say which. */
  complete: boolean;
}

/** A program being run. */
export class FlowRun {
  readonly machine: Machine;
  readonly reader: BlockReader;
  readonly parameters: Parameters;
  readonly expressions: ExpressionReader;
  readonly library: Library;
  readonly frames: Frame[] = [];
  readonly reports: Reports;
  /** The run ends after this line of the main file; -1 never. */
  until_line = -1;
  /** Modal macro call in force. */
  modal: Call | undefined;
  private readonly executor: Executor;
  private readonly value = new Value();
  private readonly visits = new Visits();
  private readonly jumps = new JumpBook();
  private over = false;
  private complete = true;
  private calls = 0;
  private readonly events = new BlockEvents();
  private readonly budget: Budget;

  constructor(
    text: ProgramText,
    settings: MachineSettings & { semicolon_ends_block: boolean },
    private readonly stateIn: MachineState,
    resolve: ResolveFile,
    readonly bounds: FlowBounds,
  ) {
    this.machine = new Machine(settings, new MachineState());
    this.machine.begin(stateIn);
    this.budget = new Budget(bounds, this.machine);
    this.executor = new Executor(this.machine);
    this.reader = new BlockReader({
      semicolon_ends_block: settings.semicolon_ends_block,
      report_rules: settings.dialect === 'ngc',
      skip_deleted: settings.skip_deleted,
    });
    this.reports = new Reports(this.machine, this.reader);
    this.parameters = new Parameters(settings.dialect, new MachineParameters(this.machine, this.events));
    this.expressions = new ExpressionReader(settings.dialect, this.parameters);
    this.machine.values = new FlowValues(this.expressions);
    this.reader.values = this.machine.values;
    this.library = new Library(text, resolve);
  }

  get frame(): Frame {
    return this.frames[this.frames.length - 1];
  }

  whole(first_line: number): FlowResult {
    const { machine, stateIn } = this;
    const { main } = this.library;
    const part = mainPart(main);
    const next = Math.max(part.first, first_line);
    const level = { program: main, part, next, entry: part.first, repeats: 0, args: undefined };
    this.frames.push({ ...level, how: 'main', turns: new Map(), modal: false });
    this.enterProgram(main);
    while (!this.over && machine.state.v[S.ended] === 0) {
      const here = this.frame.program === main ? this.frame.next : -1;
      this.step();
      if (here >= 0 && here === this.until_line) this.over = true;
    }
    closePath(machine);
    if (this.until_line < 0) this.readRest(main, first_line);
    return {
      complete: this.complete,
      stretch: {
        chunk: null,
        lineCount: Math.max(0, main.lineCount - 1),
        steps: packSteps(machine.table),
        problems: this.reports.list(),
        assumptions: machine.assumptions(),
        stateIn,
        stateOut: machine.state.clone(),
        last: true,
        looks_ahead: true,
        needs_flow: true,
      },
    };
  }

  /** M99 in a main program: one pass is over, the next is the same. */
  endPass(): void {
    const { machine } = this;
    machine.state.v[S.direction] = 0;
    machine.state.v[S.coolant] = 0;
    machine.step(KIND.end);
    machine.state.v[S.ended] = 1;
    this.over = true;
  }

  /** Reports at a part of the line being executed. */
  report(code: string, start: number, end: number, message: string): void {
    this.machine.problem(code, start, end, message);
    this.reports.take();
  }

  /** What follows is not certain: positions are not known. */
  lose(): void {
    this.machine.lose();
  }

  /** Reads one value on the line at `at` (offset in `bytes`). */
  read(bytes: Uint8Array, at: number, end: number): Value {
    this.expressions.value(bytes, at, end, this.value);
    return this.value;
  }

  /** Reads a value that must be known; reports and gives NaN when it is not. `from` is where the line starts. */
  known(bytes: Uint8Array, at: number, end: number, from: number): number {
    const value = this.read(bytes, at, end);
    if (value.status === STATUS.known) return value.number;
    if (value.status === STATUS.vacant) return 0;
    if (value.status === STATUS.wrong)
      this.report(value.problem, value.start - from, value.end - from, value.message);
    else
      this.report(
        'condition-not-known',
        at - from,
        value.next - from,
        `What happens here depends on the control: ${value.reason}. Positions after it are not known.`,
      );
    return Number.NaN;
  }

  /** Jumps to a line of the program that is running. A jump back that finds everything as last time never ends. */
  jump(line: number): void {
    const { frame, machine } = this;
    const from = machine.line;
    frame.next = line;
    if (line > from) return;
    const turns = [...frame.turns.values()].reduce((sum, count) => sum + count, 0);
    const marks = [this.parameters.changes, this.calls, turns];
    if (!this.jumps.sameAsLast(`${this.frames.length} ${frame.program.file} ${from}`, marks, machine.state))
      return;
    this.end(
      'never-ends',
      'From here the program repeats the same blocks for ever; the review covers one turn.',
    );
  }

  /** Opens a level of calls; false when there are too many. */
  call(
    target: Target,
    how: Frame['how'],
    entry: number,
    repeats: number,
    args: ReadonlyMap<number, number> | undefined,
    modal = false,
  ): boolean {
    if (this.frames.length > this.bounds.depth) {
      this.end('calls-too-deep', `More than ${this.bounds.depth} levels of calls; the review ends here.`);
      return false;
    }
    this.calls += 1;
    if (args !== undefined) this.parameters.enter(args);
    this.frames.push({
      program: target.program,
      part: target.part,
      next: entry,
      how,
      entry,
      repeats,
      args,
      turns: new Map(),
      modal: modal || this.frame.modal,
    });
    this.enterProgram(target.program);
    return true;
  }

  /** Calls a subroutine and runs it to its return; false when the run ended before. */
  runToReturn(target: Target): boolean {
    const depth = this.frames.length;
    if (!this.call(target, 'sub', target.line + 1, 0, new Map())) return false;
    while (!this.over && this.frames.length > depth) {
      this.step();
      if (this.machine.state.v[S.ended] !== 0) return false;
    }
    return !this.over;
  }

  /** Ends the present level, or begins its next repeat. */
  leave(): void {
    const { frame } = this;
    if (frame.saved?.on_return) restoreModes(this, frame);
    frame.saved = undefined;
    if (frame.args !== undefined) this.parameters.leave();
    if (frame.repeats > 0) {
      frame.repeats -= 1;
      frame.next = frame.entry;
      frame.turns.clear();
      if (frame.args !== undefined) this.parameters.enter(frame.args);
      return;
    }
    this.frames.pop();
    this.enterProgram(this.frame.program);
  }

  /** Executes what stands between `start` and `end` of the bytes as a block. */
  block(bytes: Uint8Array, start: number, end: number): void {
    const { machine, reader } = this;
    reader.problems = machine.problems;
    const block = reader.read(bytes, start, end, machine.line);
    if (block.percent && this.frame.how !== 'main') return;
    const call = block.deleted > 0 && machine.settings.skip_deleted ? undefined : callOf(machine, block);
    if (call !== undefined) {
      if (call.macro) this.reports.forget('letter-repeated');
      withoutCall(block, call);
    }
    const before = machine.table.count;
    this.executor.execute(block);
    const request = machine.profile_request;
    machine.profile_request = null;
    if (request !== null) runProfile(this, request, end - start);
    this.parameters.commit();
    this.reports.take();
    this.act(bytes, start, end);
    if (this.over || machine.state.v[S.ended] !== 0) return;
    if (call !== undefined) makeCall(this, call);
    else if (this.modal !== undefined && !this.frame.modal && movedSince(machine, before))
      modalCall(this, this.modal);
  }

  /** Ends the run because it would never end or grow too large. */
  end(code: string, message: string): void {
    const { frame, machine } = this;
    this.complete = false;
    this.over = true;
    this.report(code, 0, frame.program.lengthOf(machine.line), message);
  }

  private step(): void {
    const { frame, machine } = this;
    if (frame.next > frame.part.last) {
      this.fallOff();
      return;
    }
    const line = frame.next;
    frame.next = line + 1;
    machine.line = line;
    const bitten = this.budget.block();
    if (bitten !== undefined) {
      this.end(...bitten);
      return;
    }
    const { program } = frame;
    this.visits.note(program, line);
    const statement = program.statements.get(line);
    if (statement === undefined || !Number.isNaN(machine.state.v[S.skip_until_n])) {
      this.block(program.bytes(line), program.start(line), program.end(line));
      return;
    }
    if (machine.settings.skip_deleted && program.isDeleted(line)) return;
    machine.state.v[S.begun] = 1;
    this.statement(program, statement);
    this.parameters.commit();
  }

  private statement(program: FlowProgram, statement: Statement): void {
    const { line, label, computed } = statement;
    const run = label !== '' || computed >= 0 ? oWordStatement : macroStatement;
    run(this, statement, program.bytes(line), program.start(line), program.end(line));
  }

  /** The end of a program without M30 or M99. */
  private fallOff(): void {
    const { frame, machine } = this;
    if (frame.how === 'main') {
      this.over = true;
      return;
    }
    machine.line = frame.part.last;
    this.report(
      'subprogram-without-return',
      0,
      frame.program.lengthOf(frame.part.last),
      'The subprogram ends without a return (M99 or ENDSUB).',
    );
    this.leave();
  }

  private act(bytes: Uint8Array, start: number, end: number): void {
    if (this.events.takeStop()) this.machine.step(KIND.stop);
    const line = bytes.subarray(start, end);
    const message = this.events.takeAlarm(line) ?? (this.reader.block.abort ? abortOf(line) : undefined);
    if (message === undefined) return;
    this.report('program-alarm', 0, end - start, message);
    this.over = true;
  }

  /** Steps and problems from here on are of this file. */
  enterProgram(program: FlowProgram): void {
    this.reports.enter(program);
    this.machine.profiles = new TextProfiles(program.text, () => this.machine.line);
    const { files, count } = this.machine.table;
    if (program.file !== '' || files.size > 0) files.set(count, program.file);
  }

  /** Reads the blocks that were never executed, for what is wrong in them. */
  private readRest(program: FlowProgram, first_line: number): void {
    const { reader, machine } = this;
    this.reports.enter(program);
    reader.values = null;
    this.visits.rest(program, first_line, line => {
      reader.problems = machine.problems;
      reader.read(program.bytes(line), program.start(line), program.end(line), line);
      this.reports.take();
    });
  }
}
