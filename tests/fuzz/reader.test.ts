import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import {
  blockAt,
  comments,
  ProgramText,
  type ReadOptions,
  readProgram,
  toolChanges,
} from '../../server/src/rs274/index.ts';

const OPTIONS: ReadOptions[] = [
  {},
  { dialect: 'ngc', kind: 'mill', compensation: 'part-edge', toolDiameter_mm: () => 6 },
  { dialect: 'iso6983', kind: 'mill', compensation: 'part-edge', toolDiameter_mm: number => number },
  { dialect: 'lathe-a', kind: 'lathe', least_increment_mm: 0.001 },
  { dialect: 'lathe-b', kind: 'lathe' },
  { dialect: 'lathe-c', kind: 'lathe', skip_deleted: true },
  { dialect: 'ngc', kind: 'lathe', units: 'inch' },
  {
    dialect: 'lathe-a',
    kind: 'lathe',
    compensation: 'part-edge',
    toolNose: (_offset, tool) => ({ radius_mm: 0.4, tip: tool % 10 }),
  },
];

/** Reads bytes by every surface of the room; the time a run may take is bounded by counted blocks, not by a clock. */
function readAll(bytes: Uint8Array, options: ReadOptions): void {
  const text = ProgramText.fromBytes(bytes);
  const reading = readProgram(text, { ...options, bounds: { blocks: 3000, steps: 30_000, depth: 8 } });
  const cursor = reading.cursor();
  let steps = 0;
  while (cursor.next()) {
    assert.ok(cursor.line >= 0 && cursor.line < text.lineCount, `line ${cursor.line} of ${text.lineCount}`);
    assert.ok(cursor.length_mm >= 0 || Number.isNaN(cursor.length_mm));
    steps += 1;
    if (steps > 40_000) break;
  }
  for (const problem of reading.problems(200)) {
    assert.ok(problem.line >= 0 && problem.line < text.lineCount && problem.message.length > 0, problem.code);
    if (problem.file === undefined) {
      const { length } = text.lineText(problem.line);
      assert.ok(
        problem.start >= 0 && problem.start <= problem.end && problem.end <= length,
        JSON.stringify(problem),
      );
    }
  }
  for (let line = 0; line < Math.min(text.lineCount, 20); line += 1) blockAt(text, line, reading.settled);
  for (const comment of comments(text, 50)) assert.equal(comment.text.length, comment.end - comment.start);
  toolChanges(reading);
  assert.ok(reading.stateAfter(Math.floor(text.lineCount / 2)).v.length > 0);
}

const FOLDER = join(import.meta.dirname, '../unit/rs274/programs');
const PROGRAMS = readdirSync(FOLDER)
  .filter(name => !name.endsWith('.txt'))
  .map(name => readFileSync(join(FOLDER, name)));

describe('fuzz: the reader', () => {
  it('reads any bytes', () => {
    const bytes = fc.uint8Array({ maxLength: 300 });
    fc.assert(
      fc.property(bytes, fc.constantFrom(...OPTIONS), (data, options) => readAll(data, options)),
      { numRuns: 400, seed: 4 },
    );
  });

  it('reads any characters of programs', () => {
    const characters = fc
      .array(fc.constantFrom(...'GMXYZIJKRFSTNOPQLHDUWABCE0123456789.-+ ()[]#;/%\n\r,=<>*"\t'), {
        maxLength: 200,
      })
      .map(list => new TextEncoder().encode(list.join('')));
    fc.assert(
      fc.property(characters, fc.constantFrom(...OPTIONS), (data, options) => readAll(data, options)),
      { numRuns: 800, seed: 5 },
    );
  });

  it('reads blocks of any words', () => {
    const word = fc
      .tuple(
        fc.constantFrom(...'GGGGMMXYZIJKRFSTPQLHDUWAC'),
        fc.constantFrom(
          '0',
          '1',
          '2',
          '3',
          '41',
          '43',
          '54',
          '71',
          '76',
          '81',
          '90',
          '92',
          '96',
          '98',
          '-5.5',
          '1e9',
          '99999999999',
          '.0001',
          '100',
          '28',
          '68',
          '52',
        ),
      )
      .map(([letter, number]) => letter + number);
    const lines = fc.array(fc.array(word, { maxLength: 6 }), { maxLength: 12 });
    fc.assert(
      fc.property(lines, fc.constantFrom(...OPTIONS), (list, options) =>
        readAll(new TextEncoder().encode(list.map(words => words.join(' ')).join('\n')), options),
      ),
      { numRuns: 1500, seed: 6 },
    );
  });

  it('reads programs with bytes changed', () => {
    const change = fc.record({ at: fc.nat(), byte: fc.nat(255) });
    fc.assert(
      fc.property(
        fc.constantFrom(...PROGRAMS),
        fc.array(change, { maxLength: 8 }),
        fc.constantFrom(...OPTIONS),
        (program, changes, options) => {
          const bytes = new Uint8Array(program);
          for (const { at, byte } of changes) bytes[at % bytes.length] = byte;
          readAll(bytes, options);
        },
      ),
      { numRuns: 500, seed: 7 },
    );
  });

  it('reads odd files whole: empty, one long line, no line end, only line ends', () => {
    const files = [
      '',
      '\n',
      '\r\r\r',
      'X'.repeat(200_000),
      '(',
      '%',
      `G1 X${'9'.repeat(5000)} F1`,
      'T999999999 M6',
      'F-1',
      'S1e9',
      'G02 R0',
      '\0\0\0',
      'G0X1'.repeat(5000),
    ];
    for (const file of files) for (const options of OPTIONS) readAll(new TextEncoder().encode(file), options);
  });
});
