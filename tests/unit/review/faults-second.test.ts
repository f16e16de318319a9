import assert from 'node:assert/strict';
import { findingsOf, secondJobs, tryFault } from '../../faults/fault.ts';
import { secondFaults } from '../../faults/second.ts';

/** Every so many faults are tried here; `npm run faults` tries them all. */
const EVERY = 6;
/** Take seconds each. */
const SLOW = new Set(['G0 for G1', 'peck in microns']);
const all = secondJobs();

describe('second set of programs', () => {
  for (const job of all)
    it(`${job.name} gets no error and no warning`, () => {
      assert.deepEqual(
        findingsOf(job, true)
          .filter(f => f.severity === 'error' || f.severity === 'warning')
          .map(f => `${f.severity} ${f.code} at line ${f.line + 1}`),
        [],
      );
    });

  for (const fault of secondFaults().filter((fault, index) => index % EVERY === 0 && !SLOW.has(fault.name)))
    it(`${fault.name} (${fault.job})`, () => {
      const { caught, said } = tryFault(fault, all);
      assert.ok(caught, `said instead: ${said || 'nothing'}`);
    });
});
