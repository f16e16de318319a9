import type { Problem } from '../problems.ts';
import type { FlowKind, Statement } from './statements.ts';

const OPENERS: Partial<Record<FlowKind, readonly FlowKind[]>> = {
  endsub: ['sub'],
  endwhile: ['o-while'],
  endrepeat: ['repeat'],
  elseif: ['o-if', 'elseif'],
  else: ['o-if', 'elseif'],
  endif: ['o-if', 'elseif', 'else'],
  'else-line': ['if'],
  'end-if': ['if', 'else-line'],
};

const OPENING: ReadonlySet<FlowKind> = new Set<FlowKind>([
  'sub',
  'o-if',
  'o-while',
  'o-do',
  'repeat',
  'while',
  'do',
]);
/** Number of loops of word-address macros that may stand in each other. */
const MACRO_NESTING = 3;

/**
 * Matches what belongs together: SUB with ENDSUB, the branches of an IF, the ends of loops. Sets `partner` of an opener
 * to the line of its next branch or its end, and `opener` of the others to the line where the construct begins.
 * `loopNumber` gives the number of DO m and END m.
 */
export function matchStatements(
  statements: readonly Statement[],
  loopNumber: (statement: Statement) => number,
  isBlockIf: (statement: Statement) => boolean,
): Problem[] {
  const problems: Problem[] = [];
  const open = new OpenStatements();
  const unmatched = (statement: Statement, message: string): void => {
    problems.push({
      code: 'flow-not-matched',
      line: statement.line,
      start: statement.start,
      end: statement.rest,
      message,
    });
  };
  for (const statement of statements) {
    const { kind } = statement;
    if (kind === 'end') closeLoop(statement);
    else if (kind === 'o-while' && closesDo(statement)) continue;
    else if (OPENERS[kind] !== undefined) closeWord(statement, OPENERS[kind]);
    else if (OPENING.has(kind) || (kind === 'if' && isBlockIf(statement))) push(statement);
  }
  for (const { statement } of open.above(-1)) unmatched(statement, 'This begins something that never ends.');
  return problems;

  function push(statement: Statement): void {
    const number = statement.kind === 'while' || statement.kind === 'do' ? loopNumber(statement) : Number.NaN;
    open.push({ statement, number, first: statement });
    if (!Number.isNaN(number) && open.numbered > MACRO_NESTING) {
      problems.push({
        code: 'loops-too-deep',
        line: statement.line,
        start: statement.start,
        end: statement.rest,
        message: `More than ${MACRO_NESTING} loops stand in each other.`,
      });
    }
  }

  function closeLoop(statement: Statement): void {
    const at = open.last(keyOfNumber(loopNumber(statement)));
    if (at < 0) {
      unmatched(statement, 'No WHILE or DO with this number is open here.');
      return;
    }
    for (const { statement: inner } of open.above(at))
      unmatched(inner, 'This loop does not end inside the loop around it.');
    join(open.pop(), statement);
  }

  function closesDo(statement: Statement): boolean {
    const at = open.last(DO_OR_SUB);
    const opener = open.at(at)?.statement;
    if (opener?.kind !== 'o-do' || opener.label !== statement.label) return false;
    open.above(at);
    join(open.pop(), statement);
    return true;
  }

  function closeWord(statement: Statement, wanted: readonly FlowKind[]): void {
    const at = Math.max(...wanted.map(kind => open.last(`${kind} ${statement.label}`)));
    if (at < 0) {
      unmatched(statement, 'What this ends was not begun.');
      return;
    }
    for (const { statement: inner } of open.above(at))
      unmatched(inner, 'This does not end inside what stands around it.');
    const entry = open.pop();
    if (entry === undefined) return;
    join(entry, statement);
    const goesOn = statement.kind === 'else' || statement.kind === 'elseif' || statement.kind === 'else-line';
    if (goesOn) open.push({ statement, number: Number.NaN, first: entry.first });
  }

  function join(entry: OpenStatement | undefined, statement: Statement): void {
    if (entry === undefined) return;
    entry.statement.partner = statement.line;
    statement.opener = entry.first.line;
  }
}

interface OpenStatement {
  readonly statement: Statement;
  /** Number of DO m; NaN for others. */
  readonly number: number;
  /** Where the construct began. */
  readonly first: Statement;
}

const DO_OR_SUB = 'do or sub';
const keyOfNumber = (number: number): string => `DO ${number}`;

/** What is open, innermost last; the last one of a kind is found at once, however many are open. */
class OpenStatements {
  /** Loops of word-address macros that are open. */
  numbered = 0;
  private readonly entries: OpenStatement[] = [];
  private readonly places = new Map<string, number[]>();

  push(entry: OpenStatement): void {
    for (const key of keysOf(entry)) {
      const places = this.places.get(key);
      if (places === undefined) this.places.set(key, [this.entries.length]);
      else places.push(this.entries.length);
    }
    this.entries.push(entry);
    if (!Number.isNaN(entry.number)) this.numbered += 1;
  }

  pop(): OpenStatement | undefined {
    const entry = this.entries.pop();
    if (entry === undefined) return undefined;
    for (const key of keysOf(entry)) this.places.get(key)?.pop();
    if (!Number.isNaN(entry.number)) this.numbered -= 1;
    return entry;
  }

  at(place: number): OpenStatement | undefined {
    return this.entries[place];
  }

  /** Place of the innermost one with a key; -1 without. */
  last(key: string): number {
    return this.places.get(key)?.at(-1) ?? -1;
  }

  /** Takes off all that stand above a place, and gives them, outermost first. */
  above(place: number): OpenStatement[] {
    const taken: OpenStatement[] = [];
    while (this.entries.length > place + 1) {
      const entry = this.pop();
      if (entry !== undefined) taken.push(entry);
    }
    return taken.reverse();
  }
}

/** Keys that an open statement is found by. */
function keysOf({ statement, number }: OpenStatement): readonly string[] {
  const { kind, label } = statement;
  if (!Number.isNaN(number)) return [keyOfNumber(number)];
  const own = `${kind} ${label}`;
  return kind === 'o-do' || kind === 'sub' ? [own, DO_OR_SUB] : [own];
}
