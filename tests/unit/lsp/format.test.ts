import assert from 'node:assert/strict';
import type { TextEdit } from 'vscode-languageserver';
import { formatEdits, USUAL_FORMAT } from '../../../server/src/lsp/format.ts';
import { renumber } from '../../../server/src/lsp/renumber.ts';
import { ProgramText, readProgram } from '../../../server/src/rs274/index.ts';
import { movesOf } from './at-cursor.ts';
import { allPrograms } from './programs.ts';

/** Carries out edits, last first. */
function edited(text: string, edits: readonly TextEdit[]): string {
  const program = ProgramText.fromString(text);
  const spans = edits.map(({ range, newText }) => ({
    start: program.offsetAt(range.start),
    end: program.offsetAt(range.end),
    newText,
  }));
  let result = text;
  for (const { start, end, newText } of spans.sort((a, b) => b.start - a.start))
    result = result.slice(0, start) + newText + result.slice(end);
  return result;
}

function formatted(text: string, options = USUAL_FORMAT): string {
  const program = ProgramText.fromString(text);
  return edited(text, formatEdits(program, readProgram(program).settled, undefined, options));
}

describe('formatting', () => {
  const cases: [string, string][] = [
    ['g0x1.y2.', 'G0 X1. Y2.'],
    ['  N10   G01 X 10.5   (  kept  as it is )  ', 'N10 G01 X10.5 (  kept  as it is )'],
    ['/ g0 x1', '/G0 X1'],
    ['G1 X1.(a)Y2.', 'G1 X1. (a) Y2.'],
    ['x +0. 12 34', 'X+0.1234'],
    ['G1X1.;end', 'G1 X1. ;end'],
    ['#1 = [ #2+3 ]  ', '#1 = [ #2+3 ]'],
    ['o<Side> call [1]  ', 'o<Side> call [1]'],
    ['roughing pass  ', 'roughing pass'],
    ['G1 X1O. Y2 ', 'G1 X1O. Y2'],
    ['(G0X1)', '(G0X1)'],
    ['', ''],
  ];
  for (const [before, after] of cases) {
    it(`${before} becomes ${after}`, () =>
      assert.equal(formatted(`G21\n${before}\nM30\n`), `G21\n${after}\nM30\n`));
  }

  it('leaves blanks out where that is wanted', () => {
    assert.equal(formatted('g0 x1. y2.\n', { upper_case: false, blanks: false }), 'g0x1.y2.\n');
  });

  for (const { name, text } of allPrograms()) {
    it(`changes no move of ${name}`, () => {
      const before = readProgram(ProgramText.fromString(text));
      const result = formatted(text);
      const after = readProgram(ProgramText.fromString(result));
      assert.ok(movesOf(before).length > 0);
      assert.equal(movesOf(after), movesOf(before));
      assert.equal(after.problems().length, before.problems().length);
      assert.equal(formatted(result), result, 'formatting twice changes nothing more');
    });
  }
});

describe('renumbering', () => {
  const run = (text: string, options = { first: 10, step: 10, all: false }): string => {
    const result = renumber(readProgram(ProgramText.fromString(text)), options);
    return 'refused' in result ? `refused: ${result.refused}` : edited(text, result.edits);
  };

  it('numbers the blocks that have a number', () => {
    assert.equal(run('N1 G0 X1.\nX2.\nn7 X3.\nM30\n'), 'N10 G0 X1.\nX2.\nn20 X3.\nM30\n');
  });
  it('numbers all blocks', () => {
    assert.equal(
      run('%\nO1\n(A)\nG0 X1.\n/X2.\n\nM30\n%\n', { first: 5, step: 5, all: true }),
      '%\nO1\n(A)\nN5 G0 X1.\n/N10 X2.\n\nN15 M30\n%\n',
    );
  });
  it('keeps jumps on their blocks', () => {
    assert.equal(
      run('N1 #1=0\nN2 #1=#1+1\nN3 IF [#1 LT 3] GOTO 2\nN4 M30\n'),
      'N10 #1=0\nN20 #1=#1+1\nN30 IF [#1 LT 3] GOTO 20\nN40 M30\n',
    );
  });
  it('keeps P and Q of a profile', () => {
    assert.match(
      run(allPrograms().find(({ name }) => name === 'lathe profile')?.text ?? ''),
      /G71 P10 Q50 U0\.4[\s\S]*N10 G0 X26\.[\s\S]*N50 X60\.\nG70 P10 Q50/,
    );
  });
  it('follows a number used twice as the run would', () => {
    const text = allPrograms().find(({ name }) => name === 'numbers used twice')?.text ?? '';
    assert.match(run(text), /N20 #1=#1\+1[\s\S]*GOTO 40\nGOTO 30\nN30 G0 X77\.\nN40 M30/);
  });
  const refused: [string, string, RegExp][] = [
    ['a computed jump', 'N1 #1=1\nGOTO#1\nM30\n', /known only while/],
    ['a missing block', 'N1 G0 X1.\nGOTO 7\nM30\n', /no block N7/],
    ['a return to a number used twice', 'O1\nN5 M98 P2\nN5 M30\nO2\nG0 X1.\nM99 P5\n', /more than once/],
    ['too many numbers', 'N1 G0 X1.\nN2 X2.\n', /beyond/],
  ];
  for (const [about, text, why] of refused) {
    it(`refuses ${about}`, () =>
      assert.match(
        run(text, { first: 90_000, step: about.startsWith('too') ? 20_000 : 1, all: false }),
        why,
      ));
  }

  for (const { name, text } of allPrograms()) {
    for (const all of [false, true]) {
      it(`changes no move of ${name}${all ? ', all blocks' : ''}`, () => {
        const result = run(text, { first: 1, step: 1, all });
        assert.ok(!result.startsWith('refused'), result);
        assert.equal(
          movesOf(readProgram(ProgramText.fromString(result))),
          movesOf(readProgram(ProgramText.fromString(text))),
        );
      });
    }
  }
});
