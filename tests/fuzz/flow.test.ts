import assert from 'node:assert/strict';
import fc from 'fast-check';
import { runProgram } from '../unit/rs274/flow/run-program.ts';

const PIECES = [
  'G0',
  'G1',
  'X',
  'Y',
  '1',
  '2.5',
  '-',
  '#1',
  '#2',
  '#[',
  ']',
  '[',
  '=',
  '+',
  '*',
  ' ',
  'IF',
  'GOTO',
  'THEN',
  'ELSE',
  'ENDIF',
  'WHILE',
  'DO',
  'END',
  'N1',
  'N2',
  'M98',
  'M99',
  'M97',
  'G65',
  'G66',
  'G67',
  'P1',
  'P2',
  'L3',
  'Q1',
  'O1',
  'O2',
  'o1',
  'o<a>',
  'o#1',
  ' sub',
  ' endsub',
  ' call',
  ' if',
  ' else',
  ' elseif',
  ' endif',
  ' while',
  ' endwhile',
  ' do',
  ' repeat',
  ' endrepeat',
  ' break',
  ' continue',
  ' return',
  '[1]',
  '[#1 LT 3]',
  '#1=[#1+1]',
  'EQ',
  'LT',
  '(',
  ')',
  '%',
  '/',
  '#3000=1',
  'M30',
  'M2',
  '\n',
  '\n',
  '\n',
  '\n',
  '\r\n',
  ';',
  '<',
  '>',
  ',',
];

describe('control flow with any text', () => {
  it('always ends and never throws', () => {
    const bounds = { blocks: 2000, steps: 2000, depth: 6 };
    let moved = 0;
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...PIECES), { maxLength: 80 }),
        fc.constantFrom('ngc' as const, 'iso6983' as const, 'lathe-a' as const),
        (pieces, dialect) => {
          const text = pieces.join('');
          const { stretch } = runProgram(text, dialect, { bounds, files: { a: text, O2: text } });
          const lines = text.split(/\r\n|\r|\n/);
          for (const { line, start, end, code, file } of stretch.problems) {
            assert.ok(code !== '' && line >= 0 && line < lines.length, `${code} at line ${line}`);
            assert.ok(
              file !== undefined || (start >= 0 && end >= start && end <= lines[line].length),
              `${code} at ${start} to ${end} of ${JSON.stringify(lines[line])}`,
            );
          }
          moved += Number(stretch.steps.count > 0);
        },
      ),
      { numRuns: 3000, seed: 5 },
    );
    assert.ok(moved > 100, `${moved} of the programs moved`);
  });
});
