import assert from 'node:assert/strict';
import type { Dialect } from '../../../../server/src/rs274/codes/shape.ts';
import { needsFlow } from '../../../../server/src/rs274/flow/need.ts';
import { ARC_WIDTH, STEP_KINDS } from '../../../../server/src/rs274/steps.ts';
import { EXAMPLES } from './examples.ts';
import { pathOf, type RunOptions, runProgram } from './run-program.ts';

/** Program (blocks divided by |), end X of its moves, codes of its problems with their lines. */
interface Case {
  about: string;
  dialect?: Dialect;
  program: string;
  path: string;
  problems?: string;
  options?: RunOptions;
}

const MACROS: Case[] = [
  { about: 'IF GOTO jumps forward', program: '#1=1|IF [#1 EQ 1] GOTO 10|G0 X1|N10 G0 X2|M30', path: '2 end' },
  { about: 'IF GOTO not taken', program: '#1=2|IF[#1EQ1]GOTO10|G0 X1|N10 G0 X2|M30', path: '1 2 end' },
  {
    about: 'GOTO wraps to blocks before it',
    program: '#1=0|N5 #1=#1+1|G0 X#1|IF [#1 LT 3] GOTO 5|M30',
    path: '1 2 3 end',
  },
  {
    about: 'GOTO looks forward first',
    program: '#1=1|N5 G0 X1|IF [#1 EQ 2] GOTO 9|#1=2|GOTO 5|G0 X7|N5 G0 X2|N9 M30',
    path: '1 2 end',
  },
  { about: 'GOTO a parameter', program: '#9=20|GOTO#9|G0 X1|N20 G0 X2|M30', path: '2 end' },
  { about: 'GOTO an expression', program: 'GOTO[10+10]|G0 X1|N20 G0 X2|M30', path: '2 end' },
  { about: 'IF THEN sets', program: '#1=5|IF [#1 GT 3] THEN #1=3|G0 X#1|M30', path: '3 end' },
  { about: 'IF THEN GOTO', program: '#1=5|IF [#1 GT 3] THEN GOTO 7|G0 X1|N7 G0 X2|M30', path: '2 end' },
  {
    about: 'IF with a block',
    program: '#1=5|IF [#1 GT 3] THEN G0 X4|IF [#1 LT 3] THEN G0 X9|M30',
    path: '4 end',
  },
  {
    about: 'IF THEN ELSE over lines',
    program: '#1=5|IF [#1 GT 9] THEN|G0 X1|ELSE|G0 X2|ENDIF|G0 X3|M30',
    path: '2 3 end',
  },
  {
    about: 'the taken branch passes over ELSE',
    program: '#1=5|IF [#1 GT 3] THEN|G0 X1|ELSE|G0 X2|ENDIF|G0 X3|M30',
    path: '1 3 end',
  },
  { about: 'WHILE DO END', program: '#1=0|WHILE [#1 LT 3] DO1|#1=#1+1|G0 X#1|END1|M30', path: '1 2 3 end' },
  {
    about: 'WHILE with a block on its line',
    program: '#1=0|WHILE [#1 LT 3] DO1 #1=#1+1|G0 X#1|END1|M30',
    path: '1 2 3 end',
  },
  { about: 'WHILE that is never true', program: 'WHILE [1 EQ 2] DO2|G0 X1|END2|G0 X2|M30', path: '2 end' },
  {
    about: 'loops in loops, numbers used again',
    program:
      '#1=0|WHILE [#1 LT 2] DO1|#2=0|WHILE [#2 LT 2] DO2|G0 X[#1*10+#2]|#2=#2+1|END2|#1=#1+1|END1|WHILE [#1 GT 0] DO1|#1=#1-1|G0 X#1|END1|M30',
    path: '0 1 10 11 1 0 end',
  },
  {
    about: 'GOTO out of a loop',
    program: '#1=0|WHILE [#1 LT 9] DO1|#1=#1+1|IF [#1 EQ 2] GOTO 50|G0 X#1|END1|N50 G0 X50|M30',
    path: '1 50 end',
  },
  {
    about: 'GOTO into a loop is reported',
    program: '#1=5|GOTO 20|WHILE [#1 LT 6] DO1|N20 G0 X#1|#1=#1+1|END1|M30',
    path: '5 end',
    problems: '2 jump-into-loop',
  },
  {
    about: 'a missing target',
    program: 'G0 X1|GOTO 99|G1 Y1 F9|M30',
    path: '1 ? end',
    problems: '2 jump-target-missing',
  },
  {
    about: 'END without WHILE',
    program: '#1=1|END1|G0 X1|M30',
    path: '1 end',
    problems: '2 flow-not-matched',
  },
  {
    about: 'four loops in each other',
    program:
      '#1=1|WHILE [#1 LT 0] DO1|WHILE [#1 LT 0] DO2|WHILE [#1 LT 0] DO3|WHILE [#1 LT 0] DO4|END4|END3|END2|END1|M30',
    path: 'end',
    problems: '5 loops-too-deep',
  },
  {
    about: 'a condition the program does not tell',
    program: 'G0 X1|IF [#5021 GT 3] GOTO 9|G0 Y2|N9 G0 X3|M30',
    path: '1 ? 3 end',
    problems: '2 condition-not-known',
  },
  { about: 'a vacant word is not there', program: 'G0 X1|G0 X#7 Y3|M30', path: '1 1 end' },
  {
    about: 'a value the program does not tell',
    program: 'G0 X1|G0 X#510 Y3|G0 X4|M30',
    path: '1 ? 4 end',
    problems: '2 value-not-known',
  },
  {
    about: 'an alarm ends the run',
    program: 'G0 X1|#3000=5(NO STOCK)|G0 X2|M30',
    path: '1',
    problems: '2 program-alarm',
  },
  { about: 'a stop with message', program: 'G0 X1|#3006=1(TURN PART)|G0 X2|M30', path: '1 stop 2 end' },
  { about: 'output is passed over', program: 'G0 X1|POPEN|DPRNT[X#1[53]]|PCLOS|G0 X2|M30', path: '1 2 end' },
  {
    about: 'settings in one block read the old values',
    program: '#1=1|#1=2 G0 X#1|G0 X#1|M30',
    path: '1 2 end',
  },
  {
    about: 'position of the last block',
    program: 'G0 X4|G0 X[#5001+1]|G91 X1|G90 X[#5041*2]|M30',
    path: '4 5 6 12 end',
  },
  {
    about: 'modal values',
    program: 'G90 G0 X1 F120 S500|X#4109|X#4119|X#4003|M30',
    path: '1 120 500 90 end',
  },
  { about: 'block delete is not skipped', program: '/ GOTO 5|G0 X1|N5 G0 X2|M30', path: '2 end' },
  {
    about: 'block delete is skipped',
    program: '/ GOTO 5|/ G0 X3|G0 X1|N5 G0 X2|M30',
    path: '1 2 end',
    options: { skip_deleted: true },
  },
];

const CALLS: Case[] = [
  { about: 'M98 and back', program: 'O1|M98 P2|G0 X1|M30|O2|G0 X5|M99', path: '5 1 end' },
  { about: 'M98 L repeats', program: 'O1|G91|M98 P2 L3|M30|O2|G0 X5|M99', path: '? ? ? end' },
  {
    about: 'leading digits repeat',
    program: 'O1|G0 X0|M98 P30020|M30|O20|G91 X1|G90|M99',
    path: '0 1 2 3 end',
  },
  { about: 'leading zeros', program: 'O1|G0 X0|M98 P00020020|M30|O0020|G91 X1|G90|M99', path: '0 1 2 end' },
  {
    about: 'an eight-digit program is one',
    program: 'O1|G0 X0|M98 P30020|M30|O30020|X9|M99|O20|X1|M99',
    path: '0 9 end',
  },
  { about: 'M98 moves first, then calls', program: 'O1|G0 X3 M98 P2|M30|O2|X4|M99', path: '3 4 end' },
  {
    about: 'M99 P returns to a block',
    program: 'O1|M98 P2|G0 X1|N30 G0 X2|M30|O2|G0 X5|M99 P30',
    path: '5 2 end',
  },
  { about: 'M99 in the main program ends a pass', program: 'O1|#1=1|G0 X1|M99', path: '1 end' },
  {
    about: 'M99 P in the main program jumps',
    program: 'O1|G0 X1|M99 P9|G0 X2|N9 G0 X3|M30',
    path: '1 3 end',
  },
  { about: 'M97 calls a block', program: 'O1|M97 P100 L2|G0 X1|M30|N100 G0 X5|M99', path: '5 5 1 end' },
  { about: 'M98 starts at a block', program: 'O1|M98 P2 Q20|M30|O2|G0 X1|N20 G0 X2|M99', path: '2 end' },
  {
    about: 'calls within calls',
    program: 'O1|M98 P2|G0 X1|M30|O2|M98 P3|G0 X2|M99|O3|G0 X3|M99',
    path: '3 2 1 end',
  },
  {
    about: 'a subprogram shares the locals',
    program: 'O1|#1=7|M98 P2|G0 X#1|M30|O2|G0 X#1|#1=8|M99',
    path: '7 8 end',
  },
  { about: 'subprograms first in the file', program: 'O2|G0 X5|M99|O1|M98 P2|G0 X1|M30', path: '5 1 end' },
  {
    about: 'a subprogram without return',
    program: 'O1|M98 P2|G0 X1|M30|O2|G0 X5',
    path: '5 1 end',
    problems: '6 subprogram-without-return',
  },
  {
    about: 'a program that is not there',
    program: 'G0 X1|M98 P77|G0 Y1|G0 X2|M30',
    path: '1 ? 2 end',
    problems: '2 subprogram-missing',
  },
  {
    about: 'a program in a file of its own',
    program: 'O1|M98 P77|M30',
    path: '6 end',
    options: { files: { O77: '%\nO77\nG0 X6\nM99\n%\n' } },
  },
  {
    about: 'a call from outside',
    program: 'O1|M198 P77|M30',
    path: '6 end',
    options: { files: { O0077: 'G0 X6\nM99\n' } },
  },
  {
    about: 'a call that calls itself',
    program: 'O1|M98 P2|M30|O2|G0 X1|M98 P2|M99',
    path: Array(20).fill('1').join(' '),
    problems: '6 calls-too-deep',
  },
  {
    about: 'G65 gives arguments',
    program: 'O1|G65 P2 A1. B2. X3.|M30|O2|G0 X[#1+#2*10+#24*100]|M99',
    path: '321 end',
  },
  {
    about: 'G65 in the second form',
    program: 'O1|G65 P2 A1. I2. J3. K4. I5. K7.|M30|O2|G0 X#1|X#4|X#5|X#6|X#7|X#9|M99',
    path: '1 2 3 4 5 7 end',
  },
  {
    about: 'G65 letters are data',
    program: 'O1|G0 X0 F50 S60 T7 M6|G65 P2 F1. S2. T3.|X#4109|M30|O2|X#9|X#19|X#20|M99',
    path: '? 0 1 2 3 50 end',
  },
  {
    about: 'G65 repeats with fresh locals',
    program: 'O1|G65 P2 L2 A1.|M30|O2|G0 X#1|#1=#1+5|X#1|M99',
    path: '1 6 1 6 end',
  },
  {
    about: "G65 keeps the caller's locals",
    program: 'O1|#1=9|G65 P2 A1.|G0 X#1|M30|O2|G0 X#1|M99',
    path: '1 9 end',
  },
  {
    about: 'a missing argument is vacant',
    program: 'O1|G65 P2 A1.|M30|O2|IF [#2 EQ #0] THEN #2=4|G0 X#2|M99',
    path: '4 end',
  },
  {
    about: 'arguments in least increments',
    program: 'O1|G65 P2 A1500 S1500|M30|O2|G0 X#1|X#19|M99',
    path: '1.5 1500 end',
    options: { least_increment_mm: 0.001 },
  },
  {
    about: 'G66 after every move until G67',
    program: 'O1|G66 P2 A7.|G0 X1|M8|X2|G67|X3|M30|O2|X[#1+10]|M99',
    path: '1 17 2 17 3 end',
  },
  { about: 'the second program is not run after the end', program: 'O1|#1=1|G0 X1|O2|G0 X2|M99', path: '1' },
];

const O_WORDS: Case[] = [
  {
    about: 'SUB and CALL with arguments',
    program: 'o<a> sub|G0 X[#1+#2]|o<a> endsub|o<a> call [1] [20]|M2',
    path: '21 end',
  },
  { about: 'arguments not given are 0', program: 'o1 sub|G0 X#2|o1 endsub|o1 call [5]|M2', path: '0 end' },
  {
    about: 'names without case and blanks',
    program: 'O< My Sub > SUB|G0 X1|O<mysub> ENDSUB|o<MYSUB> call|M2',
    path: '1 end',
  },
  {
    about: 'computed labels',
    program: 'o101 sub|G0 X1|o101 endsub|o102 sub|G0 X2|o102 endsub|#1=102|o#1 call|o[#1-1] call|M2',
    path: '2 1 end',
  },
  {
    about: 'a value comes back',
    program: 'o1 sub|o1 return [#1*2]|o1 endsub|o1 call [4]|G0 X#<_value>|M2',
    path: '8 end',
  },
  {
    about: 'a value comes back from ENDSUB',
    program: 'o1 sub|o1 endsub [7]|o1 call|G0 X[#<_value> + #<_value_returned>]|M2',
    path: '8 end',
  },
  {
    about: 'locals of the caller stay',
    program: '#1=5|#<n>=6|o1 sub|#1=9|#<n>=9|o1 endsub|o1 call [1]|G0 X#1|X#<n>|M2',
    path: '5 6 end',
  },
  { about: 'IF', program: 'o1 if [1 GT 2]|G0 X1|o1 endif|G0 X2|M2', path: '2 end' },
  { about: 'IF ELSE', program: 'o1 if [1 LT 2]|G0 X1|o1 else|G0 X2|o1 endif|G0 X3|M2', path: '1 3 end' },
  {
    about: 'ELSEIF',
    program:
      '#5=2|o1 if [#5 EQ 1]|G0 X1|o1 elseif [#5 EQ 2]|G0 X2|o1 elseif [#5 EQ 2]|G0 X9|o1 else|G0 X3|o1 endif|M2',
    path: '2 end',
  },
  {
    about: 'ELSE after ELSEIF',
    program: '#5=7|o1 if [#5 EQ 1]|G0 X1|o1 elseif [#5 EQ 2]|G0 X2|o1 else|G0 X3|o1 endif|M2',
    path: '3 end',
  },
  { about: 'WHILE', program: '#5=0|o1 while [#5 LT 2]|#5=[#5+1]|G0 X#5|o1 endwhile|M2', path: '1 2 end' },
  { about: 'DO WHILE', program: '#5=0|o1 do|#5=[#5+1]|G0 X#5|o1 while [#5 LT 3]|M2', path: '1 2 3 end' },
  { about: 'REPEAT', program: '#5=0|o1 repeat [3]|#5=[#5+1]|G0 X#5|o1 endrepeat|M2', path: '1 2 3 end' },
  { about: 'REPEAT nothing', program: 'o1 repeat [0]|G0 X1|o1 endrepeat|G0 X2|M2', path: '2 end' },
  {
    about: 'BREAK',
    program: '#5=0|o1 while [1]|#5=[#5+1]|o2 if [#5 GT 2]|o1 break|o2 endif|G0 X#5|o1 endwhile|G0 X9|M2',
    path: '1 2 9 end',
  },
  {
    about: 'CONTINUE',
    program: '#5=0|o1 while [#5 LT 3]|#5=[#5+1]|o2 if [#5 EQ 2]|o1 continue|o2 endif|G0 X#5|o1 endwhile|M2',
    path: '1 3 end',
  },
  {
    about: 'RETURN out of a loop',
    program: 'o1 sub|o2 repeat [5]|G0 X1|o1 return|o2 endrepeat|o1 endsub|o1 call|G0 X2|M2',
    path: '1 2 end',
  },
  {
    about: 'a sub in a file of its own',
    program: 'o<side> call [3]|M2',
    path: '3 end',
    options: { files: { side: 'o<side> sub\nG0 X#1\no<side> endsub\nM2\n' } },
  },
  {
    about: 'a sub that is not there',
    program: 'G0 X1|o<none> call|G0 Y1|M2',
    path: '1 ? end',
    problems: '2 subprogram-missing',
  },
  {
    about: 'ENDIF without IF',
    program: '#1=1|o1 endif|G0 X1|M2',
    path: '1 end',
    problems: '2 flow-not-matched',
  },
  {
    about: 'IF without ENDIF',
    program: '#1=1|o1 if [#1 EQ 1]|G0 X1|M2',
    path: '1 end',
    problems: '2 flow-not-matched',
  },
  {
    about: 'RETURN without call',
    program: '#1=1|o1 return|G0 X1|M2',
    path: '1 end',
    problems: '2 return-without-call',
  },
  {
    about: 'position and units by name',
    program: 'G21 G0 X4|X[#<_x> + 1]|X[#5420 + 1]|X#<_metric>|M2',
    path: '4 5 6 1 end',
  },
  {
    about: 'a name never set',
    program: 'G0 X1|X#<none>|X2|M2',
    path: '1 ? 2 end',
    problems: '2 parameter-not-set',
  },
];

const MODES: Case[] = [
  { about: 'M70 and M72', program: 'G21 G90 G0 X0|M70|G91|X5|X5|M72|X3|M2', path: '0 5 10 3 end' },
  { about: 'M72 twice', program: 'G90 G0 X0|M70|G91|X5|M72|X3|G91|X1|M72|X3|M2', path: '0 5 3 4 3 end' },
  {
    about: 'M71 forgets',
    program: 'G90 G0 X0|M70|M71|G91|M72|X3|X3|M2',
    path: '0 3 6 end',
    problems: '5 modes-not-saved',
  },
  {
    about: 'M73 restores at the return',
    program: 'o1 sub|M73|G91|G0 X5|o1 endsub|G90 G0 X0|o1 call|X2|X2|M2',
    path: '0 5 2 2 end',
  },
  {
    about: 'M70 alone does not',
    program: 'o1 sub|M70|G91|G0 X5|o1 endsub|G90 G0 X0|o1 call|X2|X2|M2',
    path: '0 5 7 9 end',
  },
];

const ENDLESS: Case[] = [
  { about: 'a jump to itself', program: '#1=1|N10 GOTO 10', path: '', problems: '2 never-ends' },
  {
    about: 'a loop that changes nothing',
    program: '#1=1|N10 G0 X1|X2|GOTO 10',
    path: '1 2 1 2',
    problems: '4 never-ends',
  },
  { about: 'DO without a way out', program: '#1=1|DO1|G0 X1|END1', path: '1 1', problems: '4 never-ends' },
  {
    about: 'an O-word loop',
    dialect: 'ngc',
    program: 'o1 while [1]|G0 X1|o1 endwhile',
    path: '1 1',
    problems: '3 never-ends',
  },
  {
    about: 'a loop that counts',
    program: '#1=0|N10 #1=#1+1|GOTO 10',
    path: '',
    problems: '3 run-too-long',
    options: { bounds: { blocks: 50, steps: 50, depth: 5 } },
  },
  {
    about: 'a loop that moves',
    program: '#1=0|N10 #1=#1+1|G0 X#1|GOTO 10',
    path: '1 2 3 4',
    problems: '4 run-too-long',
    options: { bounds: { blocks: 500, steps: 3, depth: 5 } },
  },
  {
    about: 'no time',
    program: '#1=0|N10 #1=#1+1|GOTO 10',
    path: '',
    problems: '2 run-too-slow',
    options: { bounds: { blocks: 1e6, steps: 1e6, depth: 5, late: () => true } },
  },
];

function check({ dialect, program, path, problems, options }: Case, usual: Dialect): void {
  const result = runProgram(program.replaceAll('|', '\n'), dialect ?? usual, options);
  assert.equal(pathOf(result.stretch.steps), path);
  assert.equal(
    result.stretch.problems.map(problem => `${problem.line + 1} ${problem.code}`).join(', '),
    problems ?? '',
  );
  const bitten = /never-ends|run-too|calls-too/.test(problems ?? '');
  assert.equal(result.complete, !bitten);
}

describe('control flow', () => {
  for (const one of MACROS) it(`macro: ${one.about}`, () => check(one, 'iso6983'));
  for (const one of CALLS) it(`call: ${one.about}`, () => check(one, 'iso6983'));
  for (const one of O_WORDS) it(`O-word: ${one.about}`, () => check(one, 'ngc'));
  for (const one of MODES) it(`modes: ${one.about}`, () => check(one, 'ngc'));
  for (const one of ENDLESS) it(`bounded: ${one.about}`, () => check(one, 'iso6983'));

  it('names the file of moves and problems', () => {
    const { stretch } = runProgram('O1\nM98 P5\nG0 X2\nM30\n', 'iso6983', {
      files: { O5: 'O5\nG0 X1\nX-\nM99\n' },
    });
    assert.deepEqual(
      [...stretch.steps.files],
      [
        [0, 'O5'],
        [2, ''],
      ],
    );
    assert.deepEqual(
      stretch.problems.map(({ code, file, line }) => [code, file, line]),
      [['number-missing', 'O5', 2]],
    );
  });

  it('reads blocks that are never executed', () => {
    const { stretch } = runProgram('#1=1\nGOTO 9\nG0 X-\nN9 M30\n', 'iso6983');
    assert.deepEqual(
      stretch.problems.map(({ code, line }) => [code, line]),
      [['number-missing', 2]],
    );
  });

  it('reports a place once, however often it runs', () => {
    const { stretch } = runProgram('#1=0\nWHILE [#1 LT 5] DO1\n#1=#1+1\nG0 X-\nEND1\nM30\n', 'iso6983');
    assert.equal(stretch.problems.length, 1);
  });
});

describe('a profile written with parameters', () => {
  const text = (end: string, depth: string): string =>
    `G0 X40. Z2.\n#1=40.\nG71 U1. R.5\nG71 P10 Q20 U.4 W.1 F.2\nN10 G0 X${end}\nG1 Z${depth}\nN20 X40.\nG70 P10 Q20\nM30\n`;
  it('gives the moves of the same profile in numbers', () => {
    const plain = runProgram(text('20.', '-10.'), 'lathe-a').stretch;
    const worked_out = runProgram(text('[#1-20.]', '-[#1/4]'), 'lathe-a').stretch;
    assert.deepEqual(worked_out.problems, []);
    assert.ok(plain.steps.count > 20);
    assert.equal(pathOf(worked_out.steps), pathOf(plain.steps));
  });
});

describe('programs that need control flow', () => {
  const texts: [string, boolean][] = [
    ['G0 X1\nM30\n', false],
    ['G0 X#1\n', true],
    ['X[1]\n', true],
    ['(#1 [x] M98)\nG0 X1\n', false],
    ['; GOTO 1\n', false],
    ['[BILLET X50\n', false],
    ['M98 P1\n', true],
    ['m098p1\n', true],
    ['M 98 P1\n', true],
    ['M99\n', false],
    ['M99 P5\n', true],
    ['M99 (P5)\n', false],
    ['G65 P1\n', true],
    ['G66 P1\n', true],
    ['G650\n', false],
    ['GOTO 5\n', true],
    ['o<a> call\n', true],
    ['o100 sub\n', true],
    ['O1234 (NAME)\n', false],
    ['M980\n', false],
  ];
  for (const [text, needed] of texts) {
    it(`${JSON.stringify(text)}: ${needed}`, () =>
      assert.equal(needsFlow(Buffer.from(text), 0, text.length), needed));
  }
});

describe('worked examples with control flow', () => {
  for (const { title, dialect, text, moves, lengths } of EXAMPLES) {
    it(title, () => {
      const { stretch, complete } = runProgram(text, dialect);
      const { steps } = stretch;
      assert.deepEqual(stretch.problems, []);
      assert.ok(complete);
      const wanted = moves
        .trim()
        .split('\n')
        .map(row => row.split(' '));
      const sums: Record<string, number> = { rapid: 0, feed: 0, arc: 0 };
      let at = 0;
      for (let step = 0; step < steps.count; step += 1) {
        const kind = STEP_KINDS[steps.kind[step]];
        if (kind === 'place' || kind === 'end') continue;
        const [line, name, x, y, z, length] = wanted[at];
        at += 1;
        assert.deepEqual([String(steps.line[step] + 1), kind], [line, name]);
        for (const [value, text] of [
          [steps.x[step], x],
          [steps.y[step], y],
          [steps.z[step], z],
        ] as const) {
          if (text === '?') assert.ok(Number.isNaN(value));
          else assert.ok(Math.abs(value - Number(text)) < 1e-6, `line ${line}: ${value}, not ${text}`);
        }
        if (length === '?' || !(kind in sums)) continue;
        const long = lengthOf(steps, step);
        assert.ok(Math.abs(long - Number(length)) < 1e-6, `line ${line}: length ${long}, not ${length}`);
        sums[kind] += long;
      }
      assert.equal(at, wanted.length);
      for (const [kind, length] of Object.entries(lengths))
        assert.ok(Math.abs(sums[kind] - length) < 1e-5, `${kind}: ${sums[kind]}`);
    });
  }
});

/** True length of a line or an arc in the XY plane, mm. */
function lengthOf(steps: ReturnType<typeof runProgram>['stretch']['steps'], at: number): number {
  const dz = steps.z[at] - steps.z[at - 1] || 0;
  const row = steps.aux[at];
  if (STEP_KINDS[steps.kind[at]] === 'arc') {
    const radius = Math.hypot(
      steps.x[at] - steps.arcs[row * ARC_WIDTH],
      steps.y[at] - steps.arcs[row * ARC_WIDTH + 1],
    );
    return Math.hypot(radius * steps.arcs[row * ARC_WIDTH + 2], dz);
  }
  return Math.hypot(steps.x[at] - steps.x[at - 1], steps.y[at] - steps.y[at - 1], dz);
}
