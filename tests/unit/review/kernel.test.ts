/** The compiled kernel of reader and review against the plain one: the same numbers, to the last bit. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { programParts } from '../../../server/src/review/program-parts.ts';
import { makeReview } from '../../../server/src/review/review.ts';
import { scanOf } from '../../../server/src/review/scan-program.ts';
import { sumWhileReading } from '../../../server/src/review/witness.ts';
import {
  ProgramText,
  type Reading,
  type ReadOptions,
  readProgram,
  type StepTable,
} from '../../../server/src/rs274/index.ts';
import * as kinds from '../../../server/src/rs274/kernel/kinds.ts';
import { compiledColumns, withPlainKernel } from '../../../server/src/rs274/kernel.ts';
import { kernelSources } from '../../../server/src/rs274/kernel-bytes.ts';
import { KIND, STEP_FLAG } from '../../../server/src/rs274/steps.ts';
import { kernelDigest } from '../kernel-digest.ts';
import { subjects } from './random-edits.ts';

const number = fc.oneof(
  fc.constantFrom(
    '0',
    '0.',
    '-.5',
    '5',
    '+3.25',
    '12.3456789',
    '123456789',
    '1234567890',
    '.',
    '-',
    '00012.5000',
  ),
  fc.constantFrom('99999999', '0.12345678', '1.234567891', '- 4.', '1.5.', '7e2', '12,5', '87654321.1'),
  fc.integer({ min: -99_999, max: 99_999 }).map(thousandths => (thousandths / 1000).toFixed(3)),
  fc.integer({ min: -9_999_999, max: 9_999_999 }).map(value => (value / 1e4).toFixed(4)),
);
const word = fc
  .tuple(fc.constantFrom(...'XYZXYZIJKRFNxyzfA'), number)
  .map(([letter, value]) => letter + value);
const line = fc.tuple(
  fc.constantFrom(
    '',
    '',
    'G0',
    'G1',
    'G1 ',
    'G01',
    'G2',
    'G3',
    'g3 ',
    'N10 G1',
    'G4',
    'G91',
    'G90',
    'G18',
    'G96 S100',
    '(A)',
  ),
  fc.array(word, { maxLength: 5 }),
  fc.constantFrom('', ' ', '  ', '\t'),
  fc.constantFrom('\n', '\n', '\r\n', '\r'),
);
const program = fc
  .array(line, { minLength: 1, maxLength: 60 })
  .map(lines => lines.map(([code, words, blank, end]) => code + words.join(blank) + end).join(''));

const settings = fc.constantFrom<ReadOptions>(
  { kind: 'mill', units: 'mm' },
  { kind: 'mill', units: 'inch', dialect: 'ngc' },
  { kind: 'lathe', units: 'mm', dialect: 'lathe-a' },
  { kind: 'mill', units: 'mm', least_increment_mm: 0.001 },
);

/** Moves, numbers as far as the two ways round alike: a sweep about a centre that lies far away keeps six figures. */
function moves(reading: Reading): string[] {
  const rows: string[] = [];
  const cursor = reading.cursor();
  while (cursor.next()) {
    const { line, kind, flags, x, y, z, sweep_rad } = cursor;
    const place = [x, y, z].map(value => value.toFixed(7).replace('-0.0000000', '0.0000000'));
    rows.push(
      [line, kind, flags, ...place, sweep_rad.toPrecision(6), cursor.run('feed'), cursor.run('motion')].join(
        ' ',
      ),
    );
  }
  return rows;
}

/** All that is read, summed and seen, numbers as they are. */
function told(text: string, options: ReadOptions, size = text.length + 1): unknown {
  const reading = readProgram(ProgramText.inPiecesOf(size, text), { ...options, witness: sumWhileReading });
  const { program: made } = makeReview(reading, {});
  const { holes, vias, feedsUp, turnedArcs, sideways, axes } = scanOf(made);
  return {
    steps: reading.stretches.map(({ steps, problems }) => [columnsOf(steps), problems]),
    points: reading.text.chunks.map(chunk => chunk.pointed_words),
    parts: programParts(reading),
    marks: { holes, vias, feedsUp, turnedArcs, sideways, axes },
  };
}

function columnsOf(steps: StepTable): unknown {
  const { count, line, kind, flags, run, x, y, z, aux, arcs, runs } = steps;
  return { count, line, kind, flags, run, x, y, z, aux, arcs, runs };
}

function same(text: string, options: ReadOptions, size?: number): void {
  assert.deepEqual(
    told(text, options, size),
    withPlainKernel(() => told(text, options, size)),
  );
}

describe('compiled reader', () => {
  it('is made from the sources as they are, and this host runs it', () => {
    assert.equal(
      kernelSources,
      kernelDigest(['kernel/reader', 'src/rs274/kernel', 'src/review/kernel']),
      'the kernel is stale: run npm run kernel',
    );
    assert.ok(compiledColumns() !== undefined);
    assert.equal(
      withPlainKernel(() => compiledColumns()),
      undefined,
    );
  });

  it('knows kinds and flags of steps by their numbers', () => {
    const { kindRapid, kindFeed, kindArc, kindThread, kindTap, flagCycle } = kinds;
    assert.deepEqual(
      [kindRapid, kindFeed, kindArc, kindThread, kindTap, flagCycle],
      [KIND.rapid, KIND.feed, KIND.arc, KIND.thread, KIND.tap, STEP_FLAG.cycle],
    );
  });

  for (const { name, text } of subjects().filter(subject => !subject.name.includes('many times'))) {
    it(`says of ${name} what the plain one says`, () => {
      same(text, {});
      same(text, {}, 300);
    });
  }

  it('says of any program what the plain one says', () => {
    fc.assert(fc.property(program, settings, fc.integer({ min: 8, max: 4000 }), same), {
      numRuns: 800,
      seed: 7,
      endOnFailure: true,
    });
  });

  it('says of any program what the long way says', () => {
    fc.assert(
      fc.property(program, settings, (text, options) => {
        const short = readProgram(ProgramText.fromString(text), options);
        const long = readProgram(ProgramText.fromString(text), { ...options, slow_only: true });
        assert.deepEqual(moves(short), moves(long));
        assert.deepEqual(short.problems(), long.problems());
      }),
      { numRuns: 2500, seed: 11, endOnFailure: true },
    );
  });

  const beyond: [name: string, text: string][] = [
    ['more text than fits', `G1 F100.\n${'X1.000000 Y2.000000\nX2.0000 Y1.00000\n'.repeat(4000)}`],
    ['more steps than fit', `G1 F100.\n${'X1\nX2\n'.repeat(12_000)}`],
    ['more arcs than fit', `G17 G3 X0 Y0 F100.\n${'X1I.5\nX0I-.5\n'.repeat(5000)}`],
    ['more runs than fit', Array.from({ length: 5000 }, (_, k) => `G1 X${k % 7} F${k + 1}.\n`).join('')],
    [
      'cycles that widen the columns in between',
      `G90 G21\n${'G1X1F9\nG81X1Y1Z-1R1F9L900\nG80\n'.repeat(30)}`,
    ],
  ];
  for (const [name, text] of beyond) {
    it(`goes on in the plain one where there are ${name}`, () => same(text, { kind: 'mill', units: 'mm' }));
  }
});
