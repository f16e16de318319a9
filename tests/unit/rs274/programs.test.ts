import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  ProgramText,
  type Reading,
  type ReadOptions,
  readProgram,
  STEP_FLAG,
  STEP_KINDS,
  type StepCursor,
} from '../../../server/src/rs274/index.ts';
import { near } from './check.ts';

const FOLDER = join(import.meta.dirname, 'programs');

/** Whole programs with all their moves and the modal state, worked out apart from the reader. */
describe('rs274: whole programs', () => {
  for (const name of readdirSync(FOLDER).filter(file => file.endsWith('.expected.txt'))) {
    const base = name.replace('.expected.txt', '');
    const program = readdirSync(FOLDER).find(file => file.startsWith(`${base}.n`));
    assert.ok(program !== undefined, base);
    const parts = sections(readFileSync(join(FOLDER, name), 'utf8'));
    it(base, () => {
      const reading = read(program, base === 'typed-by-hand' ? { least_increment_mm: 0 } : {});
      const { settled } = reading;
      const said = `settled dialect=${settled.dialect.value} kind=${settled.kind.value} units=${settled.units.value}`;
      assert.equal(said, parts.head);
      assert.deepEqual(reading.problems(), []);
      checkMoves(reading, parts.moves);
      for (const fact of parts.facts) checkFact(reading, fact);
    });
    if (parts.thousandths.length > 0) {
      it(`${base}, words without a point in 0.001 mm`, () => {
        checkMoves(read(program, { least_increment_mm: 0.001 }), parts.thousandths);
      });
    }
  }
});

function read(program: string, options: ReadOptions): Reading {
  return readProgram(ProgramText.fromBytes(readFileSync(join(FOLDER, program))), options);
}

function sections(text: string): { head: string; moves: string[]; facts: string[]; thousandths: string[] } {
  const [head, moves, facts, thousandths] = text.split(/\[.*\]\n/).map(part => part.trim().split('\n'));
  return { head: head[1], moves, facts, thousandths: thousandths ?? [] };
}

function unitOf(cursor: StepCursor): number {
  return cursor.run('inch') === 1 ? 25.4 : 1;
}

function checkMoves(reading: Reading, rows: string[]): void {
  const cursor = reading.cursor();
  let at = 0;
  while (cursor.next()) {
    const kind = STEP_KINDS[cursor.kind];
    if (kind === 'place' || kind === 'stop' || kind === 'end') continue;
    const row = rows[at];
    at += 1;
    assert.ok(row !== undefined, `more moves than wanted: line ${cursor.line + 1} ${kind}`);
    const [line, wanted, ...rest] = row.split(' ');
    assert.equal(`${cursor.line + 1} ${kind}`, `${line} ${wanted}`, `move ${at}`);
    checkMove(cursor, rest, row);
  }
  assert.equal(at, rows.length, 'number of moves');
}

function checkMove(cursor: StepCursor, rest: string[], row: string): void {
  const unit = unitOf(cursor);
  const across = cursor.run('diameter') === 1 ? 2 : 1;
  const point = [(cursor.x / unit) * across, cursor.y / unit, cursor.z / unit];
  const words = rest.filter(part => !part.includes('=') && part !== 'cycle');
  for (const [axis, value] of words.entries()) near(point[axis], value, `${row}: ${'xyz'[axis]}`);
  assert.equal((cursor.flags & STEP_FLAG.cycle) !== 0, rest.includes('cycle'), `${row}: made by a cycle`);
  for (const part of rest.filter(part => part.includes('='))) {
    const [key, value] = part.split('=');
    if (key === 'axes') {
      const axes = [...'XYZABC'].filter((_, bit) => (cursor.home_axes & (1 << bit)) !== 0).join('');
      assert.equal(axes, value, row);
    } else near(measure(cursor, key, unit), value, `${row}: ${key}`);
  }
}

function measure(cursor: StepCursor, key: string, unit: number): number {
  switch (key) {
    case 'length':
      return cursor.length_mm / unit;
    case 'feed':
      return cursor.run('feed') / unit;
    case 'speed':
      return cursor.run('css') === 1 && unit === 25.4
        ? cursor.run('spindle') / 0.3048
        : cursor.run('spindle');
    case 'tool':
      return cursor.run('tool');
    case 'sweep':
      return (cursor.sweep_rad * 180) / Math.PI;
    case 'radius':
      return cursor.radius_mm / unit;
    case 'lead':
      return cursor.run('lead') / unit;
    case 'seconds':
      return cursor.seconds;
    default:
      return assert.fail(`no measure ${key}`);
  }
}

const SPINDLE: Record<string, number> = { cw: 1, ccw: -1 };

function checkFact(reading: Reading, row: string): void {
  const [line, ...parts] = row.split(' ');
  const state = (field: Parameters<Reading['runAt']>[1]) => reading.runAt(Number(line) - 1, field);
  const unit = state('inch') === 1 ? 25.4 : 1;
  for (const part of parts) {
    const [key, value] = part.split('=');
    const what = `facts of line ${row}: ${key}`;
    if (key === 'spindle') assert.equal(state('direction') || 0, SPINDLE[value] ?? 0, what);
    else if (key === 'coolant') assert.equal((state('coolant') & 2) !== 0, value === 'flood', what);
    else if (key === 'frame') near(state('frame') / 10, value.replace('G', ''), what);
    else if (key === 'mode') near(state('feed_mode'), value, what);
    else if (key === 'feed') near(state('feed') / unit, value, what);
    else if (key === 'clamp') near(state('clamp_rpm'), value, what);
    else if (key === 'speed')
      near(state('css') === 1 && unit === 25.4 ? state('spindle') / 0.3048 : state('spindle'), value, what);
    else if (key === 'css' || key === 'tool' || key === 'plane' || key === 'distance')
      near(state(key), value, what);
    else assert.fail(key);
  }
}
