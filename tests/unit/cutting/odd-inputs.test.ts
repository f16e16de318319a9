import assert from 'node:assert/strict';
import { CUTTING_SAMPLES, typical } from '../../../server/scripts/cutting-samples/index.ts';
import { isAbsent } from '../../../server/src/cutting/index.ts';
import { FUNCTIONS, notFiniteIn, tryOddInputs } from './odd-inputs.ts';

const ANSWERS_WITH_ABSENT = new Set(['absent']);

describe('odd inputs to the cutting library', () => {
  it('has typical arguments for every exported function, and none too many', () => {
    const names = FUNCTIONS.map(([name]) => name).sort();
    assert.deepEqual(Object.keys(CUTTING_SAMPLES).sort(), names);
  });

  for (const [name, call] of FUNCTIONS) {
    it(`answers typical arguments: ${name}`, () => {
      const args = typical(CUTTING_SAMPLES[name]) as readonly unknown[];
      const result = call(...args);
      assert.equal(notFiniteIn(result), undefined);
      if (!ANSWERS_WITH_ABSENT.has(name)) assert.equal(isAbsent(result), false, JSON.stringify(result));
    });
  }

  it('never gives NaN or infinity, never throws (20000 inputs)', () => {
    const { faults, answered } = tryOddInputs(20_000, 1);
    assert.deepEqual(faults, []);
    assert.ok(answered > 3000, `only ${answered} inputs were answered with a value`);
  });
});
