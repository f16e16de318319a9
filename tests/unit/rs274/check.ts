import assert from 'node:assert/strict';
import {
  ProgramText,
  type Reading,
  type ReadOptions,
  RUN_FIELDS,
  type RunField,
  readProgram,
  STEP_KINDS,
} from '../../../server/src/rs274/index.ts';

/**
 * Reads a program whose lines carry what is expected after `=>`, parts divided by `;`:
 *   `feed 10 - 0`           a step: kind and end point in mm as radius, `-` not known (more: `length=`, `sweep=`, `lead=`, `seconds=`, `feed=`)
 *   `none`                  no step
 *   `!code`                 a problem; `!code 4-6` at these columns (0-based, end excluded)
 *   `tool=3` `frame=540`    a run column after the line; `-` not known
 * Steps `place`, `stop` and `end` count only where they are named. A problem that is not named fails. Lines without a mark are
 * only checked for problems.
 */
export function check(source: string, options: ReadOptions = {}): Reading {
  const lines = source
    .replace(/^\n/, '')
    .replace(/\n[ ]*$/, '')
    .split('\n');
  const program = lines.map(line => line.replace(/\s*=>.*$/, '').replace(/^ {4}/, ''));
  const reading = readProgram(ProgramText.fromString(program.join('\n')), options);
  const found = reading.problems();
  for (const [index, line] of lines.entries()) {
    const marks = / =>(.*)$/.exec(line)?.[1];
    const parts = (marks ?? '')
      .split(';')
      .map(part => part.trim())
      .filter(part => part !== '');
    const where = `line ${index + 1}: ${program[index]}`;
    const problems = found.filter(problem => problem.line === index && problem.file === undefined);
    checkProblems(
      parts.filter(part => part.startsWith('!')),
      problems,
      where,
    );
    const steps = parts.filter(part => /^[a-z]+( |$)/.test(part));
    if (steps.length > 0) checkSteps(reading, index, steps, where);
    for (const part of parts.filter(part => /^[a-z_]+=/.test(part))) {
      const [field, value] = part.split('=');
      assert.ok((RUN_FIELDS as readonly string[]).includes(field), `no column ${field}`);
      near(reading.runAt(index, field as RunField), value, `${where}: ${field}`);
    }
  }
  return reading;
}

function checkProblems(
  wanted: string[],
  found: readonly { code: string; start: number; end: number; message: string }[],
  where: string,
): void {
  const codes = wanted.map(mark => mark.slice(1).split(' ')[0]).sort();
  const got = found.map(problem => problem.code).sort();
  assert.deepEqual(got, codes, `${where}: problems ${found.map(p => `${p.code} (${p.message})`).join(', ')}`);
  for (const mark of wanted) {
    const [code, span] = mark.slice(1).split(' ');
    if (span === undefined) continue;
    const spans = found
      .filter(problem => problem.code === code)
      .map(problem => `${problem.start}-${problem.end}`);
    assert.ok(spans.includes(span), `${where}: ${code} at ${spans.join(', ')}, not at ${span}`);
  }
}

function checkSteps(reading: Reading, line: number, wanted: string[], where: string): void {
  const named = new Set(wanted.map(step => step.split(' ')[0]));
  const cursor = reading.stepsOfLine(line);
  const expected = wanted.filter(step => step !== 'none');
  let count = 0;
  while (cursor.next()) {
    const kind = STEP_KINDS[cursor.kind];
    if (['place', 'stop', 'end'].includes(kind) && !named.has(kind)) continue;
    const step = expected[count];
    count += 1;
    assert.ok(
      step !== undefined,
      `${where}: more steps than wanted: ${kind} ${cursor.x} ${cursor.y} ${cursor.z}`,
    );
    const [name, ...rest] = step.split(/\s+/);
    assert.equal(kind, name, `${where}: step ${count}`);
    const point = rest.filter(part => !part.includes('='));
    const values = [cursor.x, cursor.y, cursor.z];
    for (const [axis, value] of point.entries())
      near(values[axis], value, `${where}: step ${count} ${'xyz'[axis]}`);
    for (const part of rest.filter(part => part.includes('='))) {
      const [key, value] = part.split('=');
      near(MEASURES[key](cursor), value, `${where}: step ${count} ${key}`);
    }
  }
  assert.equal(count, expected.length, `${where}: number of steps`);
}

type Cursor = ReturnType<Reading['cursor']>;

const MEASURES: Record<string, (cursor: Cursor) => number> = {
  length: cursor => cursor.length_mm,
  sweep: cursor => (cursor.sweep_rad * 180) / Math.PI,
  lead: cursor => cursor.run('lead'),
  seconds: cursor => cursor.seconds,
  feed: cursor => cursor.run('feed'),
  tool: cursor => cursor.run('tool'),
  frame: cursor => cursor.run('frame'),
  flags: cursor => cursor.flags,
  b: cursor => cursor.rotary(1),
  a: cursor => cursor.rotary(0),
  c: cursor => cursor.rotary(2),
};

/** Equal within 1e-6; `-` is not known. */
export function near(got: number, wanted: string, message: string): void {
  if (wanted === '-') {
    assert.ok(Number.isNaN(got), `${message} is ${got}, wanted not known`);
    return;
  }
  assert.ok(Math.abs(got - Number(wanted)) < 1e-6, `${message} is ${got}, wanted ${wanted}`);
}
