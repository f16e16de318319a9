import assert from 'node:assert/strict';
import { ProgramText, type ReadOptions, readProgram, settle } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

/** Slips and odd files: one fault is told once. All of common practice, no source. */
const SLIPS: [about: string, program: string, options: ReadOptions][] = [
  ['a dollar sign for S is one slip', 'N15 $1500 M3 => !bad-character 4-9', { dialect: 'iso6983' }],
  [
    'a letter many times in a block is told once',
    'G1 X1. X2. X3. X4. F1. => !letter-repeated',
    { dialect: 'iso6983' },
  ],
  [
    'a jump takes the next block of its number, then wraps to the first',
    `
    #1=0
    N5 #1=#1+1
    G0 X#1
    IF [#1 EQ 1] GOTO 7
    IF [#1 EQ 2] GOTO 5
    GOTO 9
    N7 G0 Y1.  => rapid 1 1 -
    N5 #1=5
    GOTO 9
    N7 G0 Y2.  => none
    N9 M30     => end 1 1 -
    `,
    { dialect: 'iso6983' },
  ],
  [
    'BREAK leaves the loop of its label where labels are used again',
    `
    G21 G90 F100
    o1 while [1]
    G1 X1      => feed 1 - -
    o1 break
    o1 endwhile
    o1 repeat [2]
    G1 X2      => feed 2 - -
    o1 break
    o1 endrepeat
    M2
    `,
    { dialect: 'ngc' },
  ],
];

const settled = (program: string) => settle(ProgramText.fromString(program)).dialect.value;

describe('rs274: hard files', () => {
  for (const [about, program, options] of SLIPS) it(about, () => void check(program, options));

  it('tells once that a block has too many words', () => {
    const reading = readProgram(ProgramText.fromString(`G1 ${'X1. Y2. '.repeat(500)}`), {
      dialect: 'iso6983',
    });
    assert.deepEqual(
      reading.problems().map(problem => problem.code),
      ['letter-repeated', 'letter-repeated', 'too-many-words'],
    );
  });

  it('passes over a byte order mark of a file that is not UTF-8', () => {
    const bytes = Uint8Array.from([
      0xef,
      0xbb,
      0xbf,
      ...Buffer.from('G21\n(caf'),
      0xe9,
      ...Buffer.from(')\n'),
    ]);
    const text = ProgramText.fromBytes(bytes);
    assert.equal(text.lineText(0), 'G21');
    assert.deepEqual(readProgram(text, {}).problems(), []);
  });

  it('does not take G61.1 for a sign of one dialect', () => {
    assert.equal(settled('G17 G21\nG61.1\nG0 X0 Y0\nG68 X0 Y0 R30.\n'), 'iso6983');
  });

  it('takes G71 alone as millimetres of code system C, also where it roughs by G73', () => {
    const program =
      'G71\nG92 S2000\nG96 S150 M4\nG95 F0.2\nG73 U2. R1.\nG73 P90 Q120 U0.5 W0.1\nN90 G0 X20.\nN120 X50.\n';
    assert.equal(settled(program), 'lathe-c');
  });

  it('finds profiles across a long text', () => {
    const pad = '(TEXT THAT FILLS)\n'.repeat(1500);
    const program = `G21 G0 X50. Z2.\nG70 P10 Q20\n${pad}N10 G0 X20.\nN20 G1 Z-5. F0.1\n`;
    const reading = readProgram(ProgramText.fromString(program), { dialect: 'lathe-a' });
    assert.deepEqual(reading.problems(), []);
    const cursor = reading.stepsOfLine(1);
    let count = 0;
    while (cursor.next()) count += 1;
    assert.equal(count, 4);
  });
});
