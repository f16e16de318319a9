import assert from 'node:assert/strict';
import { isAbsent } from '../../server/src/cutting/index.ts';
import { CHIPS_CHECKS } from './cutting/chips.ts';
import { COST_CHECKS } from './cutting/cost.ts';
import { FORCE_CHECKS } from './cutting/force.ts';
import type { Check } from './cutting/helpers.ts';
import { HOLES_CHECKS } from './cutting/holes.ts';
import { POWER_CHECKS } from './cutting/power.ts';
import { SPEEDS_CHECKS } from './cutting/speeds.ts';
import { STIFFNESS_CHECKS } from './cutting/stiffness.ts';
import { THREADS_CHECKS } from './cutting/threads.ts';
import { TIME_CHECKS } from './cutting/time.ts';

const CHECKS = [
  ...CHIPS_CHECKS,
  ...COST_CHECKS,
  ...FORCE_CHECKS,
  ...HOLES_CHECKS,
  ...POWER_CHECKS,
  ...SPEEDS_CHECKS,
  ...STIFFNESS_CHECKS,
  ...THREADS_CHECKS,
  ...TIME_CHECKS,
];

function computed(check: Check): number {
  const result = check.gives();
  assert.ok(!isAbsent(result), isAbsent(result) ? result.absent : '');
  return result;
}
const allowed = (check: Check, against: number) =>
  'rel' in check.tolerance ? check.tolerance.rel * Math.abs(against) : check.tolerance.abs;
/** Error over tolerance, against the printed figure where there is one. */
function share(check: Check): number {
  const against = check.published ?? check.expected;
  // a tolerance of 1e-12 is the rounding of the expected figure itself, which is given to ten figures
  const rounding = check.published === undefined ? 5e-10 * Math.abs(check.expected) : 0;
  return Math.abs(computed(check) - against) / Math.max(allowed(check, against), rounding);
}

describe('published figures of cutting', () => {
  for (const check of CHECKS) {
    it(`${check.id} ${check.what} (${check.source})`, () => {
      assert.ok(
        share(check) <= 1,
        `computed ${computed(check)}, published ${check.published ?? check.expected}`,
      );
      const error = Math.abs(computed(check) - check.expected);
      assert.ok(
        error <= (check.closeness ?? 1e-6) * Math.abs(check.expected),
        `computed ${computed(check)}, expected ${check.expected}`,
      );
    });
  }

  it('are all there, each once', () => {
    const worst = CHECKS.reduce((a, b) => (share(b) > share(a) ? b : a));
    console.log(
      `      ${CHECKS.length} published or exact figures hold; worst error ${share(worst).toFixed(3)} of its tolerance (${worst.id})`,
    );
    assert.equal(CHECKS.length, 166);
    assert.equal(new Set(CHECKS.map(check => check.id)).size, CHECKS.length);
  });
});
