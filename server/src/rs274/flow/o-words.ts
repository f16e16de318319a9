import { STATUS } from '../expressions/value.ts';
import type { Target } from './library.ts';
import type { FlowProgram } from './program.ts';
import type { FlowRun } from './run.ts';
import { type Statement, skip } from './statements.ts';

const MOST_ARGUMENTS = 30;

/** Executes an O-word: SUB, CALL, RETURN, IF, WHILE, DO, REPEAT, BREAK, CONTINUE and what ends them. */
export function oWordStatement(
  run: FlowRun,
  statement: Statement,
  bytes: Uint8Array,
  start: number,
  end: number,
): void {
  const { frame } = run;
  const at = start + statement.rest;
  switch (statement.kind) {
    case 'sub':
      // A definition met by the main flow is passed over; a call enters behind it.
      frame.next = statement.partner >= 0 ? statement.partner + 1 : frame.part.last + 1;
      break;
    case 'endsub':
    case 'return':
      giveBack(run, statement, bytes, start, at, end);
      break;
    case 'call':
      call(run, statement, bytes, start, end);
      break;
    case 'o-if':
    case 'elseif':
      branch(run, statement);
      break;
    case 'else':
      run.jump(lastPartner(frame.program, statement) + 1);
      break;
    case 'o-while':
      turn(run, statement, bytes, start, end);
      break;
    case 'endwhile':
      if (statement.opener >= 0) run.jump(statement.opener);
      break;
    case 'repeat':
      repeat(run, statement, bytes, start, end);
      break;
    case 'endrepeat':
      again(run, statement);
      break;
    case 'break':
    case 'continue':
      leaveLoop(run, statement);
      break;
    default:
      break;
  }
}

function giveBack(
  run: FlowRun,
  statement: Statement,
  bytes: Uint8Array,
  start: number,
  at: number,
  end: number,
): void {
  const { frame } = run;
  if (frame.how !== 'sub') {
    run.report(
      'return-without-call',
      statement.start,
      statement.rest,
      'This returns, but nothing was called.',
    );
    if (frame.how !== 'main') run.leave();
    return;
  }
  const from = skip(bytes, at, end);
  const has_value = from < end && bytes[from] === 91;
  const value = has_value ? run.known(bytes, from, end, start) : 0;
  run.leave();
  run.parameters.setName('_value', value);
  run.parameters.setName('_value_returned', Number(has_value));
}

function call(run: FlowRun, statement: Statement, bytes: Uint8Array, start: number, end: number): void {
  let { label } = statement;
  if (statement.computed >= 0) {
    const number = run.known(bytes, start + statement.computed, end, start);
    if (Number.isNaN(number)) {
      run.lose();
      return;
    }
    label = String(Math.round(number));
  }
  const args = new Map<number, number>();
  for (
    let at = skip(bytes, start + statement.rest, end);
    at < end && bytes[at] === 91 && args.size < MOST_ARGUMENTS;
  ) {
    const value = run.read(bytes, at, end);
    if (value.status === STATUS.wrong) {
      run.report(value.problem, value.start - start, value.end - start, value.message);
    }
    args.set(args.size + 1, value.number);
    at = skip(bytes, Math.max(value.next, at + 1), end);
  }
  const target = run.library.sub(label, run.frame.program) ?? computedSub(run, label);
  if (target === undefined) {
    run.report(
      'subprogram-missing',
      statement.start,
      statement.rest,
      `There is no subroutine ${label} here; positions after this call are not known.`,
    );
    run.lose();
    return;
  }
  run.call(target, 'sub', target.line + 1, 0, args);
}

/** The SUB of this program whose label is worked out and has, now, this value. */
function computedSub(run: FlowRun, label: string): Target | undefined {
  const { program } = run.frame;
  for (const line of program.computed_subs) {
    const from = program.start(line);
    const at = program.statements.get(line)?.computed ?? 0;
    const value = run.read(program.bytes(line), from + at, program.end(line));
    if (value.status === STATUS.known && String(Math.round(value.number)) === label)
      return { program, part: program.partOf(line), line };
  }
  return undefined;
}

/** IF: tries the branches in order; an ELSEIF met from above ends the branch before it. */
function branch(run: FlowRun, statement: Statement): void {
  const { frame, machine } = run;
  const { program } = frame;
  if (statement.kind === 'elseif') {
    run.jump(lastPartner(program, statement) + 1);
    return;
  }
  let at: Statement | undefined = statement;
  while (at !== undefined && (at.kind === 'o-if' || at.kind === 'elseif')) {
    machine.line = at.line;
    const start = program.start(at.line);
    const answer = run.known(program.bytes(at.line), start + at.rest, program.end(at.line), start);
    if (Number.isNaN(answer)) run.lose();
    if (answer !== 0 && !Number.isNaN(answer)) {
      frame.next = at.line + 1;
      return;
    }
    if (at.partner < 0) return;
    frame.next = at.partner + 1;
    at = program.statements.get(at.partner);
  }
}

/** WHILE, at the head of its loop or at the end of DO. */
function turn(run: FlowRun, statement: Statement, bytes: Uint8Array, start: number, end: number): void {
  const answer = run.known(bytes, start + statement.rest, end, start);
  if (Number.isNaN(answer)) run.lose();
  const goes_on = answer !== 0 && !Number.isNaN(answer);
  if (statement.opener >= 0) {
    if (goes_on) run.jump(statement.opener + 1);
  } else if (!goes_on && statement.partner >= 0) run.frame.next = statement.partner + 1;
}

function repeat(run: FlowRun, statement: Statement, bytes: Uint8Array, start: number, end: number): void {
  const answer = run.known(bytes, start + statement.rest, end, start);
  if (Number.isNaN(answer)) run.lose();
  const times = Math.round(answer);
  if (times > 0) run.frame.turns.set(statement.line, times);
  else if (statement.partner >= 0) run.frame.next = statement.partner + 1;
}

function again(run: FlowRun, statement: Statement): void {
  const { turns } = run.frame;
  const left = (turns.get(statement.opener) ?? 1) - 1;
  turns.set(statement.opener, left);
  if (left > 0) run.jump(statement.opener + 1);
  else turns.delete(statement.opener);
}

/** BREAK goes behind the loop of its label, CONTINUE to where that loop is decided. */
function leaveLoop(run: FlowRun, statement: Statement): void {
  const { frame } = run;
  const loop = frame.program.loopOfLabel(statement.label, statement.line);
  if (loop === undefined) {
    run.report('flow-not-matched', statement.start, statement.rest, 'This stands in no loop of its label.');
    return;
  }
  if (statement.kind === 'continue') {
    run.jump(loop.kind === 'o-while' ? loop.line : loop.partner);
    return;
  }
  frame.turns.delete(loop.line);
  frame.next = loop.partner + 1;
}

function lastPartner(program: FlowProgram, statement: Statement): number {
  let at: Statement | undefined = statement;
  while (at !== undefined && at.partner >= 0 && at.kind !== 'endif') {
    const next: Statement | undefined = program.statements.get(at.partner);
    if (next === undefined || next.kind === 'endif') return at.partner;
    at = next;
  }
  return statement.line;
}
