import assert from 'node:assert/strict';
import fc from 'fast-check';
import {
  type MillCycleContext,
  type MillCycleState,
  millCycleRepeats,
  tapLead_mm,
} from '../../../../server/src/rs274/cycles/levels.ts';
import { expandMillCycle } from '../../../../server/src/rs274/cycles/mill.ts';
import type { Point } from '../../../../server/src/rs274/geometry/plane.ts';
import { BORE_CASES } from './mill-bore-cases.ts';
import { type Case, DRILL_CASES } from './mill-cases.ts';
import { expectEvents, recorder } from './recorder.ts';

function check(test: Case): void {
  const [x, y, z] = test.start;
  let position: Point = { x, y, z };
  let state: MillCycleState | undefined;
  for (const block of test.blocks) {
    const { sink, events } = recorder(position);
    const context: MillCycleContext = {
      plane: 'xy',
      position,
      incremental: block.g91 === true,
      return_to: block.g99 ? 'r' : 'initial',
      rules: 'common',
      spindle_direction: 1,
      lead_mm: Number.NaN,
      ...test.context,
    };
    const result = expandMillCycle(block, state, context, sink);
    expectEvents(events, block.moves);
    assert.deepEqual(
      result.problems.map(problem => problem.code),
      block.problems ?? [],
    );
    if (block.assumed)
      assert.deepEqual(
        result.assumptions.map(item => item.code),
        block.assumed,
      );
    position = result.position;
    state = result.state;
  }
}

describe('mill cycles', () => {
  for (const test of [...DRILL_CASES, ...BORE_CASES]) it(test.name, () => check(test));

  it('takes a tap lead from F and S', () => {
    // 30 in/min at 600 rev/min = 1/20 in: a 1/4-20 tap, worked out by hand.
    assert.ok(Math.abs(tapLead_mm(762, 'per-minute', 600) - 1.27) < 1e-12);
    assert.equal(tapLead_mm(1.5, 'per-revolution', Number.NaN), 1.5);
    assert.ok(Number.isNaN(tapLead_mm(100, 'per-minute', 0)));
    assert.ok(Number.isNaN(tapLead_mm(100, 'inverse', 600)));
  });

  it('reads repeats from L, and from a K that stands alone', () => {
    assert.equal(millCycleRepeats({ l: 3, k: 2 }, 'common'), 3);
    assert.equal(millCycleRepeats({ k: 2 }, 'common'), 2);
    assert.equal(millCycleRepeats({ k: 2 }, 'report'), undefined);
    assert.equal(millCycleRepeats({ k: 2, i: 4 }, 'common'), undefined);
    assert.equal(millCycleRepeats({ k: 0.5 }, 'common'), undefined);
  });

  it('bounds a block with a tiny peck and many repeats', () => {
    const start = { x: 0, y: 0, z: 0 };
    const context: MillCycleContext = {
      plane: 'xy',
      position: start,
      incremental: true,
      return_to: 'r',
      rules: 'common',
      spindle_direction: 1,
      lead_mm: 1,
    };
    for (const words of [
      { code: 83, z: -100, r: 0, q: 1e-7 },
      { code: 73, z: -90, r: 0, q: 0.01, repeats: 1e9 },
      { code: 81, z: -90, r: 0, repeats: 1e9 },
    ]) {
      const { sink, events } = recorder(start);
      const result = expandMillCycle(words, undefined, context, sink);
      assert.ok(events.length <= 100_000);
      assert.ok(result.problems.some(problem => problem.code === 'cycle-too-long'));
    }
  });

  it('feeds to the bottom once, whatever the pecks, and ends at clear', () => {
    const length = fc.double({ min: 0.3, max: 40, noNaN: true });
    fc.assert(
      fc.property(length, length, fc.constantFrom(73, 83), fc.boolean(), (depth, peck, code, to_r) => {
        const start = { x: 1, y: 2, z: 50 };
        const { sink, events } = recorder(start);
        const context: MillCycleContext = {
          plane: 'xy',
          position: start,
          incremental: false,
          return_to: to_r ? 'r' : 'initial',
          rules: 'common',
          spindle_direction: 1,
          lead_mm: 1,
        };
        const result = expandMillCycle({ code, z: -depth, r: 2, q: peck }, undefined, context, sink);
        const feeds = events.filter(event => event.kind === 'feed');
        // A slow model: count the pecks by subtraction.
        let pecks = 0;
        for (let left = depth + 2; left > 1e-9; left -= peck) pecks += 1;
        assert.equal(feeds.length, pecks);
        assert.equal(feeds.at(-1)?.to?.z, -depth);
        assert.equal(result.position.z, to_r ? 2 : 50);
        const fed = feeds.reduce((sum, event) => sum + (event.length ?? 0), 0);
        assert.ok(Math.abs(fed - (depth + 2 + (pecks - 1) * 0.254)) < 1e-6);
      }),
      { seed: 274, numRuns: 300 },
    );
  });
});
