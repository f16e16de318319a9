import assert from 'node:assert/strict';
import type { Flat } from '../../../../server/src/rs274/compensation/element.ts';
import { startNoseCompensation, tipShift, tipSink } from '../../../../server/src/rs274/compensation/nose.ts';
import {
  COMPENSATION_RULES,
  finishCompensation,
  pushSegment,
} from '../../../../server/src/rs274/compensation/offset.ts';
import { segments } from './paths.ts';

describe('nose radius compensation', () => {
  it('knows the nine tips', () => {
    assert.deepEqual(tipShift(3, 0.4), { first: -0.4, second: -0.4 });
    assert.deepEqual(tipShift(2, 0.8), { first: -0.8, second: 0.8 });
    assert.deepEqual(tipShift(9, 0.8), { first: 0, second: 0 });
    assert.equal(tipShift(10, 0.8), undefined);
  });

  it('shifts a 45 degree chamfer, not the diameter (worked out by hand)', () => {
    // Outside turning with G42, nose 0.4, tip 3: z 5 -> 0 at x 10, then 45 degrees to z -5 x 15.
    const shift = tipShift(3, 0.4) ?? { first: 0, second: 0 };
    const start: Flat = { first: 10, second: 30 };
    const ends: string[] = [];
    const sink = tipSink<number>(
      {
        line: to => ends.push(`${to.first.toFixed(6)} ${to.second.toFixed(6)}`),
        arc: to => ends.push(`arc ${to.first.toFixed(6)} ${to.second.toFixed(6)}`),
        problem: problem => assert.fail(problem.message),
      },
      shift,
    );
    let state = startNoseCompensation<number>(start, 0, shift);
    for (const segment of segments(start, 'l 5 10; l 0 10; l -5 15')) {
      state = pushSegment(state, segment, { side: -1, radius_mm: 0.4 }, COMPENSATION_RULES.common, sink);
    }
    finishCompensation(state, sink);
    assert.deepEqual(ends, ['4.600000 10.000000', '-0.234315 10.000000', '-5.117157 14.882843']);
  });
});
