import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { Chunk } from '../../../server/src/rs274/chunk.ts';
import { type Evidence, evidenceOf, evidenceOfChunks } from '../../../server/src/rs274/evidence.ts';
import { withPlainKernel } from '../../../server/src/rs274/kernel.ts';
import { ProgramText } from '../../../server/src/rs274/text.ts';

function evidence(text: string): Evidence {
  return evidenceOf(new Chunk(Buffer.from(text, 'latin1')));
}

/** The same text with a comment on every line (one with a semicolon ends there): none of its lines goes the short way. */
function commented(text: string): string {
  return text.replace(/[^\r\n]*[^\s][^\r\n]*/g, line => (line.includes(';') ? line : `${line}(A)`));
}

function bothWays(text: string): void {
  const slow = evidence(commented(text));
  assert.deepEqual(evidence(text), slow);
  assert.deepEqual(
    withPlainKernel(() => evidence(text)),
    slow,
  );
}

const FIXTURES = join(import.meta.dirname, '../../../fixtures');

describe('rs274: evidence of dialect and number form', () => {
  const cases: [string, string][] = [
    ['plain lines', 'G0X1.Y2.\nX3. Y0\n\nN5 G1 Z-1. F300\nG03 I1. J0. R2.\nX.5 K-1.'],
    ['axis words without a point', 'X1000\nX0\nY-25 Z1.\nI0\nI5 J2.\n'],
    [
      'other codes and letters',
      'G21\nG1 X1.\nG20 X1.\nG4 P500\nM3 S1000\nT0101\nG96 D2. S3\nG71 P1 Q2\nG43.1 Z1.',
    ],
    ['the same letter twice', 'G0 G90 X1.\nX1. X2.'],
    ['odd ends', 'X1.\r\nX2.\rX3.\n\rY1'],
    ['faults', 'X1..2\nX1,5\nX1O0\nX1E3\nX\nG\nX-\n%\n/X1.\n:12\n;X\nX1.;\n#1=2\n'],
  ];
  for (const [name, text] of cases) it(`counts both ways alike: ${name}`, () => bothWays(text));

  for (const name of readdirSync(FIXTURES, { recursive: true, encoding: 'utf8' }).filter(f =>
    /\.n(c|gc)$/.test(f),
  ))
    it(`counts both ways alike: ${name}`, () => bothWays(readFileSync(join(FIXTURES, name), 'latin1')));

  it('counts both ways alike: random lines', () => {
    const word = fc.tuple(
      fc.constantFrom(...'GXYZIJKFNRMSTPQDUL#(;%/ '),
      fc.constantFrom('', '-', '+', ' '),
      fc.constantFrom(
        '0',
        '1',
        '2',
        '3',
        '20',
        '21',
        '71',
        '90',
        '999',
        '1000',
        '.',
        '.5',
        '5.',
        '-1.25',
        '123456789.',
        '',
      ),
    );
    const line = fc.array(word, { maxLength: 5 }).map(words => words.map(w => w.join('')).join(''));
    const text = fc.array(fc.tuple(line, fc.constantFrom('\n', '\r\n', '\r')), { maxLength: 12 });
    fc.assert(
      fc.property(text, lines => bothWays(lines.map(l => l.join('')).join(''))),
      { numRuns: 3000, seed: 11 },
    );
  });

  // Each line is another, the units stand behind notes of 6 KB; the second is so long that only pieces are looked at.
  for (const [name, count] of [
    ['a text looked at whole', 1500],
    ['a long text', 12_000],
  ] as const)
    it(`does not depend on where the text is cut: ${name}`, () => {
      const notes = Array.from({ length: 200 }, (_, i) => `(NOTE ${i} OF THE SETUP IN WORDS)\r\n`).join('');
      const body = Array.from({ length: count }, (_, i) => `M${i} T${i} X${i} P${i}; G${i}\r\n`).join('');
      const text = `${notes}G20 G90\n${body}`;
      const whole = evidenceOfChunks(ProgramText.inPiecesOf(text.length, text).chunks);
      assert.equal(whole.first_unit, 20);
      assert.equal(whole.lines < count, count > 1500);
      for (const size of [50, 700, 3584, 57_344])
        assert.deepEqual(evidenceOfChunks(ProgramText.inPiecesOf(size, text).chunks), whole, `${size}`);
    });
});
