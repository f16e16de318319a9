import { isDigit } from '../expressions/bytes.ts';
import { STATUS } from '../expressions/value.ts';
import { afterWord } from './program.ts';
import type { FlowRun } from './run.ts';
import { readStatement, type Statement, skip } from './statements.ts';

/** Executes a statement of word-address macros: IF, GOTO, WHILE, DO, END, and output, which is passed over. */
export function macroStatement(
  run: FlowRun,
  statement: Statement,
  bytes: Uint8Array,
  start: number,
  end: number,
): void {
  const rest = start + statement.rest;
  switch (statement.kind) {
    case 'if':
      condition(run, statement, bytes, start, end);
      break;
    case 'goto':
      goTo(run, bytes, start, rest, end);
      break;
    case 'while':
      loop(run, statement, bytes, start, end);
      break;
    case 'do':
      break;
    case 'end':
      if (statement.opener >= 0) run.jump(statement.opener);
      break;
    case 'else-line':
      if (statement.partner >= 0) run.jump(statement.partner + 1);
      break;
    default:
      break;
  }
}

function condition(run: FlowRun, statement: Statement, bytes: Uint8Array, start: number, end: number): void {
  if (bytes[skip(bytes, start + statement.rest, end)] !== 91) {
    run.report(
      'flow-not-followed',
      statement.start,
      end - start,
      'The condition of IF stands in brackets [ ].',
    );
    run.lose();
    return;
  }
  const answer = run.known(bytes, start + statement.rest, end, start);
  const after = skip(bytes, afterCondition(bytes, start + statement.rest, end), end);
  if (Number.isNaN(answer)) run.lose();
  if (Number.isNaN(answer) || answer === 0) {
    if (statement.partner >= 0) run.jump(statement.partner + 1);
    return;
  }
  const then = afterWord(bytes, after, end, 'THEN');
  const from = skip(bytes, then < 0 ? after : then, end);
  if (from >= end || bytes[from] === 40) return;
  const line = onlyFrom(bytes, start, from, end);
  const inner = readStatement(line, 0, line.length, statement.line);
  if (inner?.kind === 'goto') goTo(run, line, 0, inner.rest, line.length);
  else if (inner === undefined) run.block(line, 0, line.length);
  else
    run.report('flow-not-followed', inner.start, line.length, 'This cannot stand after IF on the same line.');
}

function loop(run: FlowRun, statement: Statement, bytes: Uint8Array, start: number, end: number): void {
  const answer = run.known(bytes, start + statement.rest, end, start);
  if (Number.isNaN(answer)) run.lose();
  if (Number.isNaN(answer) || answer === 0) {
    if (statement.partner >= 0) run.frame.next = statement.partner + 1;
    return;
  }
  const after = afterWord(bytes, afterCondition(bytes, start + statement.rest, end), end, 'DO');
  if (after < 0) return;
  let from = skip(bytes, after, end);
  while (from < end && isDigit(bytes[from])) from += 1;
  from = skip(bytes, from, end);
  if (from >= end || bytes[from] === 40) return;
  const line = onlyFrom(bytes, start, from, end);
  run.block(line, 0, line.length);
}

/** Jumps to block N: forward first, then from the start of the program. */
export function goTo(run: FlowRun, bytes: Uint8Array, start: number, at: number, end: number): void {
  const value = run.read(bytes, at, end);
  const span = [skip(bytes, at, end) - start, value.next - start] as const;
  if (value.status !== STATUS.known) {
    run.report(
      'jump-not-known',
      ...span,
      value.status === STATUS.unknown
        ? `Where this jumps depends on the control: ${value.reason}.`
        : 'This jump has no target.',
    );
    run.lose();
    return;
  }
  jumpToBlock(run, value.number, span);
}

/** Jumps to the block numbered `n`; reports a missing one and one inside a loop. */
export function jumpToBlock(run: FlowRun, n: number, span: readonly [number, number]): void {
  const { frame, machine } = run;
  const line = frame.program.lineNumbered(n, frame.part, machine.line + 1);
  if (line < 0) {
    run.report('jump-target-missing', ...span, `There is no block N${n} in this program.`);
    run.lose();
    return;
  }
  const left = frame.program.loopsAround(machine.line);
  if (frame.program.loopsAround(line).some(first => !left.includes(first))) {
    run.report('jump-into-loop', ...span, `N${n} stands inside a loop; a jump into it is not allowed.`);
  }
  run.jump(line);
}

/** Offset after a condition in brackets. */
function afterCondition(bytes: Uint8Array, at: number, end: number): number {
  let depth = 0;
  for (let p = at; p < end; p += 1) {
    if (bytes[p] === 91) depth += 1;
    else if (bytes[p] === 93) {
      depth -= 1;
      if (depth === 0) return p + 1;
    }
  }
  return end;
}

/** A copy of a line with blanks up to `from`, so that columns stay. */
function onlyFrom(bytes: Uint8Array, start: number, from: number, end: number): Uint8Array {
  const line = new Uint8Array(end - start).fill(32);
  line.set(bytes.subarray(from, end), from - start);
  return line;
}
