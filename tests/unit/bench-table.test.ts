import assert from 'node:assert/strict';
import type { Figure } from '../bench/figures.ts';
import { header, row } from '../bench/table.ts';

const figure = (more: Partial<Figure>): Figure => ({
  name: 'a key',
  against: 'empty round trip',
  least: 3,
  median: 4.5,
  most: 12.34,
  samples: 7,
  ...more,
});

/** A line in its columns: blanks between them are of no account. */
const columns = (line: string) => line.trim().split(/ {2,}/);

describe('table of measured figures', () => {
  const cases: [name: string, of: Figure, before: Figure[] | undefined, line: string[]][] = [
    ['no target', figure({}), undefined, ['a key', 'empty round trip', '3.00', '4.50', '12.3']],
    [
      'at most, met at the very number',
      figure({ target: 4.5 }),
      undefined,
      ['a key', 'empty round trip', '3.00', '4.50', '12.3', '<= 4.5 ok'],
    ],
    [
      'at most, not met',
      figure({ target: 4.4 }),
      undefined,
      ['a key', 'empty round trip', '3.00', '4.50', '12.3', '<= 4.4 --'],
    ],
    [
      'at least, met',
      figure({ target: 4, over: true }),
      undefined,
      ['a key', 'empty round trip', '3.00', '4.50', '12.3', '>= 4 ok'],
    ],
    [
      'at least, not met',
      figure({ target: 5, over: true }),
      undefined,
      ['a key', 'empty round trip', '3.00', '4.50', '12.3', '>= 5 --'],
    ],
    [
      'beside the figure of the same name of an earlier run',
      figure({ target: 6 }),
      [figure({ name: 'another', median: 1 }), figure({ median: 23.04 })],
      ['a key', 'empty round trip', '3.00', '4.50', '12.3', '<= 6 ok', '23.0'],
    ],
    [
      'new since the earlier run, with plain numbers',
      figure({ target: 6, plain: '0.8 ms' }),
      [figure({ name: 'another', median: 1 })],
      ['a key', 'empty round trip', '3.00', '4.50', '12.3', '<= 6 ok', '0.8 ms'],
    ],
  ];
  for (const [name, of, before, line] of cases)
    it(name, () => {
      assert.deepEqual(columns(row(of, before)), line);
    });

  it('has a column more beside an earlier run', () => {
    assert.deepEqual(columns(header(true)).slice(-1), ['earlier']);
    assert.deepEqual(columns(header(false)).slice(-1), ['wanted']);
  });
});
