import assert from 'node:assert/strict';
import fc from 'fast-check';
import { readOptions, reviewOf } from '../../../server/src/job/open-job.ts';
import { readSheets } from '../../../server/src/job/sheet-reading.ts';
import { scanOf } from '../../../server/src/review/scan-program.ts';
import { ProgramText, type ReadOptions, readProgram } from '../../../server/src/rs274/index.ts';
import { type Subject, subjects, told } from './random-edits.ts';

/** The program is held in pieces for the sake of edits. What a review says must not show where they meet. */
describe('review of a text cut into other pieces', () => {
  for (const subject of subjects().filter(({ name }) => !name.includes('many times'))) {
    it(subject.name, () => {
      const whole = reviewOfPieces(subject, subject.text.length + 1);
      for (const size of [40, 97, 310, 1000])
        assert.deepEqual(reviewOfPieces(subject, size), whole, `${size}`);
    });
  }

  it('finds the same marks wherever blocks are parted', () => {
    const programs = fc.tuple(
      fc.constantFrom(MILL_HEAD, LATHE_HEAD),
      fc.array(fc.constantFrom(...MARKS), { minLength: 1, maxLength: 24 }),
      fc.integer({ min: 4, max: 90 }),
    );
    fc.assert(
      fc.property(programs, ([head, blocks, size]) => {
        const text = `${head}${blocks.join('')}M30\n`;
        assert.deepEqual(marksOf(text, size), marksOf(text, text.length + 1));
      }),
      { numRuns: 1500, seed: 31, endOnFailure: true },
    );
  });

  it('has marks of every kind to find', () => {
    const mill = marksOf(`${MILL_HEAD}${MARKS.join('')}M30\n`, 30);
    for (const kind of ['holes', 'vias', 'feedsUp', 'turnedArcs', 'sideways'] as const)
      assert.ok(mill[kind].length > 0, kind);
    assert.ok(mill.axes[0].outlier !== undefined);
    const lathe = marksOf(`${LATHE_HEAD}G0 X0 Z2.\nG1 Z-5.\nG0 Z2.\nG1 Z-9.\nG4 P800\nM30\n`, 8);
    assert.deepEqual(
      lathe.holes.map(({ strokes, bottom, dwell_s }) => [strokes, bottom, dwell_s]),
      [[2, -9, 0.8]],
    );
  });
});

function reviewOfPieces({ text, sheet }: Subject, size: number): unknown {
  const sheets = readSheets(sheet ? { sheet } : {});
  const options = readOptions(sheets, {});
  const { settled } = readProgram(ProgramText.fromString(text), options);
  const reading = readProgram(ProgramText.inPiecesOf(size, text), { ...options, settled });
  return told(reviewOf(reading, sheets, {}), reading);
}

function marksOf(text: string, size: number) {
  const options: ReadOptions = { kind: text.startsWith(LATHE_HEAD) ? 'lathe' : 'mill', dwell: 'ms' };
  const { settled } = readProgram(ProgramText.fromString(text), options);
  const reading = readProgram(ProgramText.inPiecesOf(size, text), { ...options, settled });
  const { program } = reviewOf(reading, readSheets({}), {});
  const { holes, vias, feedsUp, turnedArcs, sideways, axes } = scanOf(program);
  return {
    holes: holes.map(hole => ({ ...hole, run: [...hole.run] })),
    vias: vias.map(via => ({ ...via, run: [...via.run] })),
    feedsUp,
    turnedArcs,
    sideways,
    axes: axes.map(({ count, most, second, outlier }) => ({ count, most, second, outlier })),
  };
}

const MILL_HEAD = 'G21 G90 G94 G17\nT1 M6\nS900 M3\nG0 X0 Y0 Z9.\n';
const LATHE_HEAD = 'G21 G90 G18\nT0101\nG97 S900 M3\nG0 X0 Z9.\n';

/** Blocks that make marks with what stands before and after them. */
const MARKS = [
  'G1 X0 Y0 F100.\nX10.\nG2 X20. Y10. R10.\nG1 Y20.\n',
  'G1 X30. Y0\n',
  'G3 X40. Y10. R10.\n',
  'G1 Y20.\n',
  'G2 X50. Y30. I10. J0.\n',
  'G0 Z-5.\n',
  'G1 Z3. F90.\n',
  'X12. Y3.\n',
  'G0 Z2.\n',
  'G1 Z-4.\n',
  'G1 Z-8.\n',
  'G0 X0\n',
  'G4 P700\n',
  'G81 X5. Y5. Z-3. R1. F80.\nG80\n',
  'X400.\n',
  'X42.\n',
  'G28 Z4.\n',
  '(A NOTE)\n',
  '\n',
  'T2 M6\n',
  'G1 X1.\nX350.\nX36.\n',
];
