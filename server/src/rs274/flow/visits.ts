import type { FlowProgram } from './program.ts';

/** Which lines of each program were executed. */
export class Visits {
  private readonly lines = new Map<FlowProgram, Uint8Array>();

  note(program: FlowProgram, line: number): void {
    let lines = this.lines.get(program);
    if (lines === undefined) {
      lines = new Uint8Array(program.lineCount);
      this.lines.set(program, lines);
    }
    lines[line] = 1;
  }

  /** Calls back for every block (no flow statement) from `first` on that was never executed. */
  rest(program: FlowProgram, first: number, each: (line: number) => void): void {
    const lines = this.lines.get(program);
    for (let line = first; line < program.lineCount; line += 1) {
      if (lines?.[line] !== 1 && !program.statements.has(line)) each(line);
    }
  }
}
