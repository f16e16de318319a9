import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { axisPointsOf } from '../../../server/src/rs274/axis-points.ts';
import { comments, ProgramText, readProgram } from '../../../server/src/rs274/index.ts';

const FIXTURES = join(import.meta.dirname, '../../../fixtures');

/** What the reader notes in passing is what a look at the whole text finds. */
function check(text: string, size: number): void {
  const unread = ProgramText.inPiecesOf(size, text);
  const read = ProgramText.inPiecesOf(size, text);
  readProgram(read, {});
  assert.deepEqual([...comments(read)], [...comments(unread)]);
  for (const { bytes, pointed_words } of read.chunks) {
    if (pointed_words < 0) continue;
    const { whole, with_point } = axisPointsOf(bytes, 0, bytes.length);
    assert.deepEqual({ whole, with_point }, { whole: 0, with_point: pointed_words });
  }
}

describe('rs274: lines noted while reading', () => {
  const cases: [string, string][] = [
    ['comments of every kind', 'G21 (A) (B (C))\nX1. ; D\n/G1 X1. Y2.\nX1 // E\n(F\nX5.\n;\n'],
    ['more than are noted', 'G1 X1. (A)\n'.repeat(120)],
    ['text before and after the program', 'LEADER (A)\n%\nG21\nG0 X1. (B)\nM30\n%\n(C) X1.\n'],
    ['without a point', 'G21\nG0 X1\nU2. W-3.\nX0 (X7)\n'],
    ['a comment on the last line, which has no end', 'G21\nX1.\n(A'],
  ];
  for (const [name, text] of cases)
    for (const size of [20, 10_000]) it(`${name}, pieces of ${size}`, () => check(text, size));
  for (const name of readdirSync(FIXTURES, { recursive: true, encoding: 'utf8' }).filter(file =>
    /\.n(c|gc)$/.test(file),
  ))
    it(name, () => check(readFileSync(join(FIXTURES, name), 'latin1'), 500));
});
