import assert from 'node:assert/strict';
import { ProgramText, type ReadOptions, readProgram } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const NGC: ReadOptions = { dialect: 'ngc', kind: 'lathe' };
const START = 'G21 G18 G90 G94 G8 F100';
const PROFILE = `o100 sub
    G0 X10
    G1 Z0
    X13 Z-3
    Z-8 F60
    X20
    o100 endsub`;

/**
 * G70 to G72.2 of the report's successor with the profile in subroutine Q: D distance left (square to the profile), I depth, R
 * retract; G70 P passes from D to E. Levels worked out by hand; escape and the pass along the profile as in the other
 * lathe cycles (common practice, no source).
 */
const CASES: [name: string, program: string, options?: ReadOptions][] = [
  [
    'G71: levels of I down to the profile moved by D, then along it',
    `
    ${START}
    ${PROFILE}
    G0 X21 Z2
    G71 Q100 D0.2 I4 R0.5 => rapid 17 - 2; feed 17 - -7.8; rapid 17.5 - -7.3; rapid 17.5 - 2; rapid 13 - 2; feed 13 - -2.717157288; rapid 13.5 - -2.217157288; rapid 13.5 - 2; rapid 10.2 - 2; feed 10.2 - 0.082842712; feed 13.141421356 - -2.858578644; arc 13.2 - -3; feed 13.2 - -7.8; feed 20 - -7.8; rapid 21 - -7.8; rapid 21 - 2
    G0 X30                => rapid 30 - 2
    `,
  ],
  [
    'G70 runs the profile once, at its own feed, and returns',
    `
    ${START}
    ${PROFILE}
    G0 X21 Z2
    G70 Q100  => rapid 10 - 2 feed=100; feed 10 - 0; feed 13 - -3; feed 13 - -8 feed=60; feed 20 - -8; rapid 21 - -8; rapid 21 - 2
    `,
  ],
  [
    'G70 in two passes, the first at D, the last at E; X and Z say where it starts',
    `
    ${START}
    o1 sub
    G0 X10 Z0
    G1 Z-8
    o1 endsub
    G0 X30 Z10
    G70 Q1 X20 Z2 D0.5 P2 => rapid 20 - 2; rapid 10.5 - 0; feed 10.5 - -8; rapid 20 - -8; rapid 20 - 2; rapid 10 - 0; feed 10 - -8; rapid 20 - -8; rapid 20 - 2
    `,
  ],
  [
    'G72: levels in Z',
    `
    ${START}
    o2 sub
    G0 Z-4
    G1 X12
    X8 Z0
    X0
    o2 endsub
    G0 X20 Z2
    G72 Q2 I3 R1 => rapid 20 - -1; feed 9 - -1; rapid 10 - 0; rapid 20 - 0; rapid 20 - -4; feed 12 - -4; feed 8 - 0; feed 0 - 0; rapid 0 - 2; rapid 20 - 2
    `,
  ],
  [
    'the profile may have flow of its own, and G7 words are diameters',
    `
    G21 G18 G90 G94 G7 F100
    o3 sub
    #1=20
    G0 X#1
    o31 while [#1 LT 24]
    #1=[#1+2]
    G1 X#1 Z[10-#1/2-0.5]
    o31 endwhile
    o3 endsub
    G0 X40 Z2
    G70 Q3 => rapid 10 - 2; feed 11 - -1.5; feed 12 - -2.5; rapid 20 - -2.5; rapid 20 - 2
    `.replaceAll('[10-#1/2-0.5]', '[9.5-#1/2]'),
  ],
  [
    'a subroutine that is not there leaves the positions not known',
    `
    ${START}
    G0 X21 Z2
    G71 Q7 I1 => !cycle-profile-missing
    G1 Z0     => feed - - 0
    `,
  ],
  [
    'without I the depth is one unit, in inches as in millimetres',
    `
    G20 G18 G90 G94 G8 F10
    o1 sub
    G0 X1
    G1 Z-2
    X3
    o1 endsub
    G0 X3 Z0
    G71 Q1 R0.1 => rapid 50.8 - 0; feed 50.8 - -50.8; rapid 53.34 - -48.26; rapid 53.34 - 0; rapid 25.4 - 0; feed 25.4 - -50.8; feed 76.2 - -50.8; rapid 76.2 - 0
    `,
  ],
  [
    'a pocket is only cut by G71.1 and G71.2',
    `
    ${START}
    o1 sub
    G0 X10
    G1 Z-2
    X8 Z-4
    X10 Z-6
    Z-8
    X20
    o1 endsub
    G0 X20 Z1
    G71 Q1 I9   => !cycle-profile-not-monotone
    `,
  ],
  [
    'nose compensation acts in G70, not in G71',
    `
    ${START}
    ${PROFILE}
    G10 L1 P1 R0.8 Q2
    G0 X21 Z2
    G42 D1
    G71 Q100 I20 => rapid 10 - 2; feed 10 - 0; feed 13 - -3; feed 13 - -8; feed 20 - -8; rapid 21 - -8; rapid 21 - 2
    G70 Q100     => rapid 10 - 0.4; feed 10 - -0.468629150; feed 12.765685425 - -3.234314575; arc 13 - -3.8; feed 13 - -8; feed 19.2 - -8; rapid 21 - -8; rapid 21 - 2
    G40
    G0 X30 Z10   => rapid 30 - 10
    `,
  ],
];

describe('rs274: lathe cycles with their profile in a subroutine', () => {
  for (const [name, program, options] of CASES) it(name, () => void check(program, options ?? NGC));

  it('says what the program leaves open', () => {
    const text = `${START}\no1 sub\nG0 X5\nG1 Z-9\nX9\no1 endsub\nG0 X9 Z2\nG71 Q1\nM2\n`;
    const codes = readProgram(ProgramText.fromString(text), NGC)
      .assumptions()
      .map(assumed => assumed.code);
    assert.deepEqual(codes, ['rough-depth-usual', 'rough-profile-pass', 'rough-escape-rapid']);
  });

  it('ends when a profile calls itself', () => {
    const text = `${START}\no1 sub\nG0 X5\nG71 Q1\nG1 Z-9\no1 endsub\nG0 X9 Z2\nG71 Q1\nM2\n`;
    const problems = readProgram(ProgramText.fromString(text), NGC).problems();
    assert.ok(problems.some(problem => problem.code === 'calls-too-deep'));
  });
});
