import type { Statement } from './statements.ts';

/** Loops that end, in order of lines, each with the one around it: what stands around a line is found without a search. */
export class Loops {
  private readonly loops: Statement[] = [];
  /** Index of the loop around each; -1 for the outermost. */
  private readonly outer: number[] = [];

  constructor(statements: Iterable<Statement>) {
    for (const loop of statements) {
      if (loop.partner < 0) continue;
      let around = this.loops.length - 1;
      while (around >= 0 && this.loops[around].partner < loop.line) around = this.outer[around];
      this.loops.push(loop);
      this.outer.push(around);
    }
  }

  /** The loops around a line, innermost first. */
  *around(line: number): Generator<Statement> {
    let [low, high] = [-1, this.loops.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.loops[middle].line < line) low = middle;
      else high = middle - 1;
    }
    for (let at = low; at >= 0; at = this.outer[at]) if (this.loops[at].partner >= line) yield this.loops[at];
  }
}
