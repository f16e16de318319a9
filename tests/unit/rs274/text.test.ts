import assert from 'node:assert/strict';
import fc from 'fast-check';
import { CHUNK_BYTES } from '../../../server/src/rs274/chunk.ts';
import { ProgramText } from '../../../server/src/rs274/index.ts';
import { isAscii, withPlainKernel } from '../../../server/src/rs274/kernel.ts';

/** The plain slow model: the whole text and its lines, as an editor counts them. */
function linesOf(text: string): string[] {
  return text.split(/\r\n|\r|\n/);
}

const LINE = fc.constantFrom('G1 X1.', '(a)', '', 'N10 Y-2.5', '(€ and é)', ' ', 'X0123456789'.repeat(40));
const END = fc.constantFrom('\n', '\r\n', '\r');
const TEXT = fc
  .array(fc.tuple(LINE, END), { maxLength: 400 })
  .map(parts => parts.map(([line, end]) => line + end).join(''));

describe('rs274: program text', () => {
  const cases: [name: string, text: string, lines: number][] = [
    ['empty', '', 1],
    ['no line end at the end', 'G0\nX1', 2],
    ['LF', 'G0\nX1\n', 3],
    ['CR LF', 'G0\r\nX1\r\n', 3],
    ['CR only', 'G0\rX1\r', 3],
    ['mixed', 'G0\r\nX1\nY2\rZ3', 4],
    ['LF CR is two ends', 'G0\n\rX1', 3],
  ];
  for (const [name, text, lines] of cases) {
    it(`counts lines: ${name}`, () => {
      const program = ProgramText.fromString(text);
      assert.equal(program.lineCount, lines);
      assert.equal(program.getText(), text);
    });
  }

  it('finds any line of a text that was not asked for another before', () => {
    fc.assert(
      fc.property(TEXT, fc.nat(), (text, pick) => {
        const lines = linesOf(text);
        const line = pick % lines.length;
        assert.equal(ProgramText.fromString(text).lineText(line), lines[line]);
      }),
      { numRuns: 300 },
    );
  });

  it('keeps characters above 255 in their places', () => {
    const program = ProgramText.fromString('(Ø 10 €)\nG1 X1.\n');
    assert.equal(program.lineText(0), '(Ø 10 €)');
    program.edit(3, 3, '漢');
    assert.equal(program.getText(), '(Ø 漢10 €)\nG1 X1.\n');
  });

  for (const [name, way] of Object.entries({
    compiled: <T>(run: () => T) => run(),
    plain: withPlainKernel,
  })) {
    it(`finds one byte that is not ASCII wherever it stands: ${name}`, () => {
      for (const length of [0, 1, 15, 16, 17, 131_071, 131_073]) {
        const bytes = new Uint8Array(length + 3).fill(0x7f).subarray(3);
        assert.equal(
          way(() => isAscii(bytes)),
          true,
        );
        for (const at of new Set([0, 14, 15, 16, length - 17, length - 2, length - 1])) {
          if (at < 0 || at >= length) continue;
          bytes[at] = 0x80;
          assert.equal(
            way(() => isAscii(bytes)),
            false,
          );
          bytes[at] = 0x7f;
        }
      }
    });
  }

  it('reads UTF-8, Latin-1 and a byte order mark', () => {
    assert.equal(ProgramText.fromBytes(Buffer.from('(é)\n', 'utf8')).getText(), '(é)\n');
    assert.equal(ProgramText.fromBytes(Buffer.from('(é)\n', 'latin1')).getText(), '(é)\n');
    const marked = ProgramText.fromBytes(Buffer.from('\ufeffG0\n', 'utf8'));
    assert.equal(marked.getText(), 'G0\n');
    assert.equal(marked.marked, true);
    assert.equal(ProgramText.fromBytes(Buffer.from('\ufeffG0\n', 'utf16le')).getText(), 'G0\n');
  });

  it('keeps chunks that an edit does not touch', () => {
    const program = ProgramText.inPiecesOf(CHUNK_BYTES, 'G1 X1.23456 Y2.34567\n'.repeat(5000));
    const before = [...program.chunks];
    assert.ok(before.length > 10);
    const at = program.offsetAt({ line: 2500, character: 3 });
    program.edit(at, at, '9');
    const kept = program.chunks.filter(chunk => before.includes(chunk)).length;
    assert.equal(kept, before.length - 1);
    assert.equal(program.lineText(2500), 'G1 9X1.23456 Y2.34567');
  });

  it('has no chunk that grows without end', () => {
    const program = ProgramText.fromString('');
    for (let i = 0; i < 3000; i += 1) program.edit(program.length, program.length, 'G1 X1. Y2. Z3. (text)\n');
    assert.ok(program.chunks.length > 4);
    assert.ok(program.chunks.every(chunk => chunk.length < 20_000));
  });

  it('equals the plain model under random edits', () => {
    const edit = fc.record({
      at: fc.nat(),
      cut: fc.oneof(fc.nat(3), fc.nat(30_000)),
      put: fc.oneof(LINE, END, TEXT),
    });
    fc.assert(
      fc.property(TEXT, fc.array(edit, { maxLength: 12 }), (first, edits) => {
        const program = ProgramText.fromString(first);
        let plain = first;
        for (const { at, cut, put } of edits) {
          const start = at % (plain.length + 1);
          const end = Math.min(plain.length, start + cut);
          plain = plain.slice(0, start) + put + plain.slice(end);
          program.edit(start, end, put);
          const lines = linesOf(plain);
          assert.equal(program.length, plain.length);
          assert.equal(program.lineCount, lines.length);
          const line = at % lines.length;
          assert.equal(program.lineText(line), lines[line]);
          const offset = program.offsetAt({ line, character: 2 });
          const starts = plain.length - rest(plain, line).length;
          assert.equal(offset, starts + Math.min(2, lines[line].length));
          assert.deepEqual(program.positionAt(offset), { line, character: Math.min(2, lines[line].length) });
        }
        assert.equal(program.getText(), plain);
      }),
      { numRuns: 60, seed: 11 },
    );
  });
});

/** The text from line `line` on. */
function rest(text: string, line: number): string {
  let left = text;
  for (let i = 0; i < line; i += 1) left = left.slice((/\r\n|\r|\n/.exec(left)?.index ?? 0) + ends(left));
  return left;
}

function ends(text: string): number {
  return /\r\n|\r|\n/.exec(text)?.[0].length ?? 0;
}
