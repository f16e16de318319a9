import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { Chunk } from '../../../server/src/rs274/chunk.ts';
import { type Evidence, evidenceOf } from '../../../server/src/rs274/evidence.ts';
import { withPlainKernel } from '../../../server/src/rs274/kernel.ts';

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
});
