import assert from 'node:assert/strict';
import { tryOddInputs } from '../unit/cutting/odd-inputs.ts';

describe('odd inputs to the cutting library, long run', () => {
  it('never gives NaN or infinity, never throws (1000000 inputs)', function () {
    this.timeout(1_800_000);
    const { faults, tried, answered } = tryOddInputs(1_000_000, 20_261_125);
    console.log(`      ${tried} inputs tried, ${answered} answered with a value, ${faults.length} faults`);
    assert.deepEqual(faults, []);
  });
});
