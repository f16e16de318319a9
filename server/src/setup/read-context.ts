import type { Node } from 'jsonc-parser';
import type { Origin } from './known.ts';
import { type SheetProblem, type SheetProblemCode, sheetProblems } from './problem.ts';
import type { SheetUnits } from './quantity.ts';

const problemLimit = 200;

/** Everything a reader needs: the units, where it is, and where problems go. */
export class ReadContext {
  readonly units: SheetUnits | undefined;
  readonly path: string;
  readonly #shared: {
    from: Origin['from'];
    file: string;
    lineOf: (offset: number) => number;
    problems: SheetProblem[];
  };

  constructor(
    shared: {
      from: Origin['from'];
      file: string;
      lineOf: (offset: number) => number;
      problems: SheetProblem[];
    },
    units: SheetUnits | undefined,
    path = '',
  ) {
    this.#shared = shared;
    this.units = units;
    this.path = path;
  }

  /** The same context one key deeper. */
  at(key: string): ReadContext {
    return new ReadContext(this.#shared, this.units, this.path === '' ? key : `${this.path}.${key}`);
  }

  /** Reports a problem at a node; bounded, the rest is said once. */
  report(
    code: SheetProblemCode,
    node: { offset: number; length: number },
    message: string,
    suggestion?: string,
  ): void {
    const { problems } = this.#shared;
    if (problems.length > problemLimit) return;
    const place = { offset: node.offset, length: node.length };
    if (problems.length === problemLimit) {
      problems.push({
        code: 'setup-too-many',
        severity: 'warning',
        message: 'More problems follow; mend these first.',
        ...place,
      });
      return;
    }
    const problem: SheetProblem = { code, severity: sheetProblems[code].severity, message, ...place };
    if (suggestion !== undefined) problem.suggestion = suggestion;
    problems.push(problem);
  }

  /** Where a value stands. */
  origin(node: Node): Origin {
    const { from, file, lineOf } = this.#shared;
    return {
      from,
      where: `${this.path} in ${file}`,
      file,
      line: lineOf(node.offset),
      key: this.path,
      offset: node.offset,
      length: node.length,
    };
  }
}
