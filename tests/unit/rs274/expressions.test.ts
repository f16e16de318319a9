import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Dialect } from '../../../server/src/rs274/codes/shape.ts';
import { Parameters } from '../../../server/src/rs274/expressions/parameters.ts';
import { ExpressionReader } from '../../../server/src/rs274/expressions/reader.ts';
import { STATUS, Value } from '../../../server/src/rs274/expressions/value.ts';

/** Carries out settings (one a block), reads one value and says what came of it. */
function read(text: string, dialect: Dialect, settings: string[] = []): string {
  const reader = new ExpressionReader(dialect, new Parameters(dialect));
  const out = new Value();
  for (const setting of settings) {
    const bytes = Buffer.from(setting, 'latin1');
    reader.setting(bytes, 0, bytes.length, out);
    reader.parameters.commit();
  }
  const bytes = Buffer.from(text, 'latin1');
  reader.value(bytes, 0, bytes.length, out);
  if (out.status === STATUS.vacant) return 'vacant';
  if (out.status === STATUS.unknown) return 'unknown';
  if (out.status === STATUS.wrong) return out.problem;
  return String(Math.round(out.number * 1e9) / 1e9);
}

/** Text, dialects it is for (n: the report, m: word-address macros), value, settings before it. */
const CASES: [string, string, string, ...string[]][] = [
  // NISTIR 6556 section 3.3.2: numbers, parameters, expressions, unary operations.
  ['1.5', 'nm', '1.5'],
  ['+.5', 'nm', '0.5'],
  ['-.05', 'nm', '-0.05'],
  ['007', 'nm', '7'],
  ['-0. 12 34', 'nm', '-0.1234'],
  ['123456789012345678', 'nm', '123456789012345680'],
  ['[1+2]', 'nm', '3'],
  ['[1 + 2 * 3]', 'nm', '7'],
  ['[[1 + 2] * 3]', 'nm', '9'],
  ['[8 - 3 - 2]', 'nm', '3'],
  ['[24 / 4 / 3]', 'nm', '2'],
  ['[2 ** 3]', 'n', '8'],
  ['[2 ** 3 ** 2]', 'n', '64'],
  ['[2 * 3 ** 2]', 'n', '18'],
  ['[-2 ** 2]', 'n', '4'],
  ['[7 MOD 3]', 'nm', '1'],
  ['[-7 MOD 3]', 'n', '2'],
  ['[-7 MOD 3]', 'm', '-1'],
  ['[2 + 3 MOD 2]', 'nm', '3'],
  ['ABS[-2]', 'nm', '2'],
  ['abs[-2]', 'nm', '2'],
  ['-ABS[-2]', 'nm', '-2'],
  ['- SIN[30]', 'nm', '-0.5'],
  ['COS[60]', 'nm', '0.5'],
  ['SIN[180]', 'nm', '0'],
  ['TAN[45]', 'nm', '1'],
  ['ASIN[1]', 'nm', '90'],
  ['ACOS[0]', 'nm', '90'],
  ['ATAN[1]/[1]', 'nm', '45'],
  ['ATAN[1]/[-1]', 'nm', '135'],
  ['ATAN[1,1]', 'm', '45'],
  ['ATAN[1]', 'm', '45'],
  ['[ATAN[1]/5]', 'm', '9'],
  ['ATN[1]', 'm', '45'],
  ['ATAN[1]', 'n', 'function-argument'],
  ['SQRT[9]', 'nm', '3'],
  ['SQR[9]', 'm', '3'],
  ['SQR[9]', 'n', 'function-unknown'],
  ['EXP[0]', 'nm', '1'],
  ['LN[1]', 'nm', '0'],
  ['FIX[2.8]', 'nm', '2'],
  // NISTIR 6556 section 3.3.2.4: FIX[-2.8] = -3, FUP[-2.8] = -2; other controls cut off and round away from zero.
  ['FIX[-2.8]', 'n', '-3'],
  ['FIX[-2.8]', 'm', '-2'],
  ['FUP[2.2]', 'nm', '3'],
  ['FUP[-2.8]', 'n', '-2'],
  ['FUP[-2.8]', 'm', '-3'],
  ['ROUND[2.5]', 'nm', '3'],
  ['ROUND[-2.5]', 'nm', '-3'],
  ['RND[2.4]', 'm', '2'],
  ['POW[2,10]', 'm', '1024'],
  ['POW[2]', 'm', 'function-argument'],
  ['BIN[37]', 'm', '25'],
  ['BCD[25]', 'm', '37'],
  ['ADP[5]', 'm', 'unknown'],
  // Parameters.
  ['#1', 'n', '0'],
  ['#1', 'm', 'vacant'],
  ['#0', 'm', 'vacant'],
  ['#0', 'n', 'parameter-number'],
  ['#3', 'nm', '15', '#3=15'],
  ['#3', 'nm', '-15', '#3=-15'],
  ['-#3', 'nm', '-15', '#3=15'],
  ['-[#3]', 'nm', '-15', '#3=15'],
  ['##2', 'nm', '7', '#2=5', '#5=7'],
  ['#[1+2]', 'nm', '15', '#3=15'],
  ['#1+2', 'nm', '4', '#1=4'],
  ['[#1+2]', 'nm', '6', '#1=4'],
  ['#3', 'm', '180', '#101=2', '#104=3', '#3=#104*120./#101'],
  ['#3', 'n', '4', '#1=4', '#3=#1+5'],
  ['#3', 'm', 'vacant', '#3=5', '#3=#0'],
  ['#3', 'm', '0', '#3=#0+0'],
  ['[#7+1]', 'm', '1'],
  ['[#7 EQ #0]', 'm', '1'],
  ['[#7 NE #0]', 'm', '0'],
  ['[#7 EQ 0]', 'm', '0'],
  ['[#7 GE 0]', 'm', '1'],
  ['#<width>', 'n', '30', '#<width> = 30'],
  ['#<WI DTH>', 'n', '30', '#<width> = 30'],
  ['#<_step>', 'n', '0.75', '#<_step>=.75'],
  ['#<none>', 'n', 'parameter-not-set'],
  ['EXISTS[#<none>]', 'n', '0'],
  ['EXISTS[#<width>]', 'n', '1', '#<width>=0'],
  ['EXISTS[#1]', 'm', 'function-unknown'],
  ['#5210', 'n', 'unknown'],
  ['#5221', 'm', 'unknown'],
  ['#5221', 'm', '-100', '#5221=-100.'],
  ['#500', 'm', 'unknown'],
  ['[#500*0]', 'm', 'unknown'],
  ['#100', 'm', 'vacant'],
  ['#9999', 'n', 'parameter-number'],
  ['#1.5', 'nm', 'parameter-number'],
  ['#-1', 'nm', 'parameter-number'],
  ['#<open', 'n', 'parameter-name'],
  // Comparison and logic.
  ['[1 LT 2]', 'nm', '1'],
  ['[2 LE 1]', 'nm', '0'],
  ['[1 EQ 1.00005]', 'n', '1'],
  ['[1 EQ 1.00005]', 'm', '0'],
  ['[1 AND 2]', 'n', '1'],
  ['[1 AND 2]', 'm', '0'],
  ['[5 OR 2]', 'n', '1'],
  ['[5 OR 2]', 'm', '7'],
  ['[5 XOR 1]', 'm', '4'],
  ['[1 LT 2 AND 3 GT 4]', 'n', '0'],
  ['[1 LT 2 AND 3 GT 4]', 'm', 'logic-without-brackets'],
  ['[[1 LT 2] AND [3 GT 2]]', 'nm', '1'],
  ['[1GE1]', 'nm', '1'],
  // Errors that the report lists.
  ['', 'nm', 'value-missing'],
  ['-', 'nm', 'value-missing'],
  ['.', 'nm', 'value-missing'],
  ['[1/0]', 'nm', 'division-by-zero'],
  ['[1 MOD 0]', 'nm', 'division-by-zero'],
  ['SQRT[-1]', 'nm', 'root-of-negative'],
  ['LN[0]', 'nm', 'logarithm-of-zero'],
  ['ASIN[1.1]', 'nm', 'arc-function-range'],
  ['[[-1] ** 0.5]', 'n', 'power-of-negative'],
  ['[1+2', 'nm', 'bracket-not-closed'],
  ['[1+]', 'nm', 'value-missing'],
  ['SINE[3]', 'nm', 'function-argument'],
  ['FOO[3]', 'nm', 'function-unknown'],
  ['SIN 30', 'nm', 'function-argument'],
  ['EXP[9999]', 'nm', 'number-too-large'],
];

describe('expressions', () => {
  for (const [text, dialects, value, ...settings] of CASES) {
    for (const mark of dialects) {
      const dialect = mark === 'n' ? 'ngc' : 'iso6983';
      it(`${text || '(nothing)'} is ${value} in ${dialect}${settings.length ? ` after ${settings.join(' ')}` : ''}`, () => {
        assert.equal(read(text, dialect, settings), value);
      });
    }
  }

  it('reads the old values until the block is done', () => {
    const parameters = new Parameters('ngc');
    const reader = new ExpressionReader('ngc', parameters);
    const out = new Value();
    const block = Buffer.from('#3=6 #3');
    parameters.set(3, 15);
    reader.setting(block, 0, 5, out);
    reader.value(block, 5, 7, out);
    assert.equal(out.number, 15);
    parameters.commit();
    reader.value(block, 5, 7, out);
    assert.equal(out.number, 6);
  });

  it('keeps locals by call level', () => {
    const parameters = new Parameters('iso6983');
    const out = new Value();
    parameters.set(1, 10);
    parameters.set(101, 5);
    parameters.enter(new Map([[24, 3]]));
    parameters.read(1, out);
    assert.equal(out.status, STATUS.vacant);
    parameters.read(24, out);
    assert.equal(out.number, 3);
    parameters.set(101, 6);
    parameters.leave();
    parameters.read(1, out);
    assert.equal(out.number, 10);
    parameters.read(101, out);
    assert.equal(out.number, 6);
  });

  it('marks the exact span of a problem', () => {
    const bytes = Buffer.from('X[1 + SQRT[0-4]] Y1');
    const out = new Value();
    new ExpressionReader('ngc', new Parameters('ngc')).value(bytes, 1, bytes.length, out);
    assert.deepEqual([out.problem, out.start, out.end, out.next], ['root-of-negative', 6, 15, 16]);
  });

  it('stops at too many brackets', () => {
    assert.equal(read('['.repeat(5000), 'ngc'), 'expression-too-deep');
    assert.equal(read('#'.repeat(5000), 'iso6983'), 'expression-too-deep');
    assert.equal(read('['.repeat(60) + '1' + ']'.repeat(60), 'ngc'), '1');
  });

  it('never throws and always moves on or stays', () => {
    const letters = fc.constantFrom(...'[]#<>+-*/.,0123456789 SINCOSATANEXISTSMODEQANDOR=()'.split(''));
    fc.assert(
      fc.property(
        fc.array(letters, { maxLength: 40 }),
        fc.constantFrom<Dialect>('ngc', 'lathe-a'),
        (parts, dialect) => {
          const bytes = Buffer.from(parts.join(''));
          const out = new Value();
          const reader = new ExpressionReader(dialect, new Parameters(dialect));
          reader.expression(bytes, 0, bytes.length, out);
          assert.ok(out.next >= 0 && out.next <= bytes.length);
          if (out.status === STATUS.wrong)
            assert.ok(out.problem !== '' && out.end >= out.start && out.end <= bytes.length);
          if (out.status === STATUS.known) assert.ok(Number.isFinite(out.number));
        },
      ),
      { numRuns: 2000, seed: 7 },
    );
  });
});

/** A plain model: trees that are written as text in one way and worked out directly in another. */
type Tree = number | { sign: Tree } | { op: string; left: Tree; right: Tree } | { of: string; x: Tree };

const MODEL: Record<string, (a: number, b: number) => number> = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => (b === 0 ? Number.NaN : a / b),
  LT: (a, b) => (Number.isFinite(a) && Number.isFinite(b) ? Number(a < b) : Number.NaN),
  GE: (a, b) => (Number.isFinite(a) && Number.isFinite(b) ? Number(a >= b) : Number.NaN),
};
const CLASS: Record<string, number> = { '*': 3, '/': 3, '+': 2, '-': 2, LT: 1, GE: 1 };

function work(tree: Tree): number {
  if (typeof tree === 'number') return tree;
  if ('sign' in tree) return -work(tree.sign);
  if ('of' in tree) return tree.of === 'ABS' ? Math.abs(work(tree.x)) : Math.floor(work(tree.x));
  return MODEL[tree.op](work(tree.left), work(tree.right));
}

/** Writes with as few brackets as the strength of the operators allows. */
function write(tree: Tree): string {
  if (typeof tree === 'number') return String(tree);
  if ('sign' in tree) return typeof tree.sign === 'number' ? `-${tree.sign}` : `-[${write(tree.sign)}]`;
  if ('of' in tree) return `${tree.of}[${write(tree.x)}]`;
  const strength = CLASS[tree.op];
  const side = (part: Tree, least: number): string =>
    typeof part === 'object' && 'op' in part && CLASS[part.op] < least ? `[${write(part)}]` : write(part);
  return `${side(tree.left, strength)} ${tree.op} ${side(tree.right, strength + 1)}`;
}

const { tree } = fc.letrec<{ tree: Tree }>(tie => ({
  tree: fc.oneof(
    { maxDepth: 6, withCrossShrink: true },
    fc.integer({ min: 0, max: 9999 }).map(n => n / 8),
    fc.record({ sign: tie('tree') }),
    fc.record({ op: fc.constantFrom('+', '-', '*', '/', 'LT', 'GE'), left: tie('tree'), right: tie('tree') }),
    fc.record({ of: fc.constantFrom('ABS', 'FIX'), x: tie('tree') }),
  ),
}));

describe('expressions against a plain model', () => {
  it('gives what working out the tree gives', () => {
    let known = 0;
    fc.assert(
      fc.property(tree, made => {
        const text = `[${write(made)}]`;
        const wanted = work(made);
        const bytes = Buffer.from(text);
        const out = new Value();
        new ExpressionReader('ngc', new Parameters('ngc')).value(bytes, 0, bytes.length, out);
        if (!Number.isFinite(wanted)) {
          assert.equal(out.status, STATUS.wrong);
          return;
        }
        known += 1;
        assert.equal(out.next, bytes.length, text);
        assert.ok(
          Object.is(out.number + 0, wanted + 0) || Math.abs(out.number - wanted) <= 1e-12 * Math.abs(wanted),
          `${text}: ${out.number}, not ${wanted}`,
        );
      }),
      { numRuns: 3000, seed: 11 },
    );
    assert.ok(known > 1500);
  });
});
