import type { BlockReader } from '../block-reader.ts';
import { type Machine, MOST_PROBLEMS } from '../machine.ts';
import type { Problem } from '../problems.ts';
import type { FlowProgram } from './program.ts';

/** Problems of a run: each place is reported once, however often it is executed, with its file. */
export class Reports {
  private readonly kept: Problem[] = [];
  private readonly seen = new Set<string>();
  private readonly met = new Set<FlowProgram>();
  private file = '';

  constructor(
    private readonly machine: Machine,
    private readonly reader: BlockReader,
  ) {}

  /** Problems from here on are of this program; those of its structure are told at the first time. */
  enter(program: FlowProgram): void {
    this.take();
    this.file = program.file;
    if (this.met.has(program)) return;
    this.met.add(program);
    for (const problem of program.problems) this.keep(problem);
  }

  /** Takes over what the reader and the machine have found. */
  take(): void {
    const { machine, reader } = this;
    if (machine.problems.length === 0) return;
    for (const problem of machine.problems) this.keep(problem);
    machine.problems = [];
    reader.problems = machine.problems;
  }

  /** Drops problems of a code that the block just read gave rise to. */
  forget(code: string): void {
    const { machine, reader } = this;
    machine.problems = machine.problems.filter(problem => problem.code !== code);
    reader.problems = machine.problems;
  }

  list(): readonly Problem[] {
    this.take();
    return this.kept;
  }

  private keep(problem: Problem): void {
    if (this.kept.length >= MOST_PROBLEMS) return;
    const key = `${this.file}:${problem.line}:${problem.start}:${problem.code}`;
    if (this.seen.has(key)) return;
    this.seen.add(key);
    this.kept.push(this.file === '' ? problem : { ...problem, file: this.file });
  }
}
