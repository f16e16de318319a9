import assert from 'node:assert/strict';
import fc from 'fast-check';
import { readOptions, reviewOf } from '../../../server/src/job/open-job.ts';
import { readSheets } from '../../../server/src/job/sheet-reading.ts';
import { hintLines } from '../../../server/src/lsp/hint-lines.ts';
import { rightLines } from '../../../server/src/lsp/read-on.ts';
import { ProgramText, readProgram } from '../../../server/src/rs274/index.ts';
import { subjects } from '../review/random-edits.ts';

const PIECES = [
  'G20\n',
  'G21\n',
  'G91\n',
  'T1 M6\n',
  'T2 ',
  'M6\n',
  '(T1 D10. 4 FLUTE)\n',
  'F200.\n',
  'S900 M3\n',
  'M30\n',
  'G95 ',
  'G54 G0 Z99.\n',
  'G41 D1\n',
  '9',
  '(',
  '%\n',
  '\n',
  'M98 P12\n',
  'G71 U1. R1.\nG71 P1 Q2 U1. F.1\n',
];

/** The programs fill several pieces. */
const PIECE_BYTES = 16_000;

describe('hints while the rest is read again', () => {
  const long = subjects().filter(({ name }) => name.endsWith('many times'));

  it('gives early what is given in the end, or nothing', () => {
    const early_lines = { every: 0, changes: 0 };
    fc.assert(
      fc.property(
        fc.constantFrom(...long),
        fc.array(fc.record({ line: fc.nat(600), put: fc.constantFrom(...PIECES) }), {
          minLength: 1,
          maxLength: 5,
        }),
        ({ name, text: source, sheet }, edits) => {
          const sheets = readSheets(sheet ? { sheet } : {});
          const text = ProgramText.inPiecesOf(PIECE_BYTES, source);
          const { settled } = readProgram(text, readOptions(sheets, {}));
          const options = { ...readOptions(sheets, {}), settled };
          const reading = readProgram(text, options);
          for (const { line, put } of edits) {
            const at = text.offsetAt({ line, character: 0 });
            text.edit(at, at, put);
            reading.refresh(() => reading.ran > 1);
            const right = reading.whole ? undefined : rightLines(reading);
            const review = reviewOf(reading, sheets, {});
            const fresh = reviewOf(readProgram(text.copy(), options), sheets, {});
            for (const level of ['every', 'changes'] as const) {
              const early = hintLines(review, level, 0, 900, right);
              early_lines[level] += right === undefined ? 0 : early.length;
              const given = new Map(hintLines(fresh, level, 0, 900).map(hint => [hint.line, hint.text]));
              for (const hint of early)
                assert.equal(hint.text, given.get(hint.line), `${name}, line ${hint.line + 1}, after ${put}`);
            }
          }
        },
      ),
      { numRuns: 10, seed: 6, endOnFailure: true },
    );
    assert.ok(early_lines.every > 100 && early_lines.changes > 10, JSON.stringify(early_lines));
  });

  it('waits where what is changed decides which tool a note far down belongs to', () => {
    const cuts = 'X1.\nX2.\n'.repeat(4000);
    const text = ProgramText.inPiecesOf(
      PIECE_BYTES,
      `G21 G90 G94 G17\nT3 M6\nS5000 M3\nG1 Z-1. F300.\nX9.\nT3\n${cuts}M6 (ENDMILL D10 4FL)\nM3\n${cuts}M30\n`,
    );
    const reading = readProgram(text, {});
    const hints = (right?: number) =>
      hintLines(reviewOf(reading, readSheets({}), {}), 'every', 4, 4, right).map(hint => hint.text);
    const before = hints();
    const at = text.offsetAt({ line: 5, character: 1 });
    text.edit(at, at + 1, '4');
    reading.refresh(() => reading.ran > 1);
    assert.equal(reading.whole, false);
    assert.equal(rightLines(reading), 0);
    assert.deepEqual(hints(rightLines(reading)), []);
    while (!reading.whole) reading.refresh();
    assert.notDeepEqual(hints(), before);
  });
});
