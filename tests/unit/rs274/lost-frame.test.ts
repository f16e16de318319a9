import assert from 'node:assert/strict';
import { KIND, ProgramText, type ReadOptions, readProgram } from '../../../server/src/rs274/index.ts';

/** End points of the moves, `?` where the position is not known. */
function path(text: string, options: ReadOptions): string {
  const cursor = readProgram(ProgramText.fromString(text.replaceAll('|', '\n')), options).cursor();
  const ends: string[] = [];
  const number = (value: number): string => (Number.isNaN(value) ? '?' : String(value));
  while (cursor.next())
    if (cursor.kind !== KIND.place) ends.push(`${number(cursor.x)},${number(cursor.y)},${number(cursor.z)}`);
  return ends.join(' ');
}

const MILL: ReadOptions = { dialect: 'iso6983', kind: 'mill' };
const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };

describe('positions after what turns the coordinates and is not followed', () => {
  const cases: [string, string, ReadOptions, string][] = [
    [
      'a tilted plane until G69',
      'G0 X0 Y0 Z0|G68.2 X1. I30.|X2. Y2. Z2.|G69|X3.|Y3. Z3.',
      MILL,
      '0,0,0 3,?,? 3,3,3',
    ],
    ['tool centre control until G49', 'G0 X0 Y0 Z0|G43.4 H1|X2.|G49|X3. Y3. Z3.', MILL, '0,0,0 3,3,3'],
    ['a cylinder until C0', 'G0 X0 Y0 Z0|G7.1 C20.|X2.|G7.1 C0|X3. Y3. Z3.', MILL, '0,0,0 3,3,3'],
    [
      'two at once end one by one',
      'G0 X0 Y0 Z0|G68.2 X1. I30.|G43.4 H1|G69|X2.|G49|X3. Y3. Z3.',
      MILL,
      '0,0,0 3,3,3',
    ],
    ['a tool length in words is no move', 'G0 X0 Y0 Z0|G43.1 Z10|X1', NGC, '0,0,0 1,0,-10'],
    ['a stroke check is no move', 'G0 X0 Y0 Z0|G22 X9. Y9. Z9. I0 J0 K0|X1.', MILL, '0,0,0 1,0,0'],
  ];
  for (const [about, text, options, wanted] of cases)
    it(about, () => assert.equal(path(text, options), wanted));
});
