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
  const open: { statement: Statement; number: number; first: Statement }[] = [];
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
    else if (OPENING.has(kind) || (kind === 'if' && isBlockIf(statement))) push(statement, statement);
  }
  for (const { statement } of open) unmatched(statement, 'This begins something that never ends.');
  return problems;

  function push(statement: Statement, first: Statement): void {
    const number = statement.kind === 'while' || statement.kind === 'do' ? loopNumber(statement) : Number.NaN;
    open.push({ statement, number, first });
    if (!Number.isNaN(number) && open.filter(entry => !Number.isNaN(entry.number)).length > MACRO_NESTING) {
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
    const number = loopNumber(statement);
    const at = open.findLastIndex(entry => entry.number === number);
    if (at < 0) {
      unmatched(statement, 'No WHILE or DO with this number is open here.');
      return;
    }
    for (const { statement: inner } of open.splice(at + 1))
      unmatched(inner, 'This loop does not end inside the loop around it.');
    join(open.pop(), statement);
  }

  function closesDo(statement: Statement): boolean {
    const entry = open.findLast(({ statement: { kind } }) => kind === 'o-do' || kind === 'sub');
    if (entry === undefined || entry.statement.kind !== 'o-do' || entry.statement.label !== statement.label)
      return false;
    open.splice(open.indexOf(entry) + 1);
    join(open.pop(), statement);
    return true;
  }

  function closeWord(statement: Statement, wanted: readonly FlowKind[]): void {
    const at = open.findLastIndex(
      entry => wanted.includes(entry.statement.kind) && entry.statement.label === statement.label,
    );
    if (at < 0) {
      unmatched(statement, 'What this ends was not begun.');
      return;
    }
    for (const { statement: inner } of open.splice(at + 1))
      unmatched(inner, 'This does not end inside what stands around it.');
    const entry = open.pop();
    if (entry === undefined) return;
    join(entry, statement);
    const goesOn = statement.kind === 'else' || statement.kind === 'elseif' || statement.kind === 'else-line';
    if (goesOn) open.push({ statement, number: Number.NaN, first: entry.first });
  }

  function join(entry: { statement: Statement; first: Statement } | undefined, statement: Statement): void {
    if (entry === undefined) return;
    entry.statement.partner = statement.line;
    statement.opener = entry.first.line;
  }
}
