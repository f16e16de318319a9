import assert from 'node:assert/strict';
import { openJob } from '../../../server/src/job/open-job.ts';
import { moves } from '../../../server/src/report/moves.ts';
import { programTimes } from '../../../server/src/review/times.ts';

const SHEET = (acceleration: string) =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "ngc", "acceleration_m_s2": ${acceleration} }, "tools": {} }`;

/** Seconds of the cutting moves, and the whole time, of a program that starts at X0 Y0 Z0. */
function times(
  body: string,
  acceleration = '1',
): { cut: number[]; ideal: (number | undefined)[]; total: number | undefined } {
  const { review } = openJob({
    bytes: new TextEncoder().encode(`G21 G17 G90 G94\nS1000 M3\nG0 X0 Y0 Z0\n${body}\nM2\n`),
    name: 'm.ngc',
    files: acceleration === '' ? {} : { sheet: { path: 'm.setup.json', text: SHEET(acceleration) } },
  });
  const cut: number[] = [];
  const ideal: (number | undefined)[] = [];
  moves(review.program, move => {
    if (move.kind !== 'feed' && move.kind !== 'arc') return;
    cut.push(move.time_s as number);
    ideal.push(move.programmed_time_s as number | undefined);
  });
  return { cut, ideal, total: programTimes(review).time_s };
}

/** Kinematics of constant acceleration, worked out by hand: 6000 mm/min is 100 mm/s, 1 m/s2 is 1000 mm/s2. */
const CASES: { name: string; body: string; cut: number[]; acceleration?: string }[] = [
  { name: 'long move: L/v + v/a', body: 'G1 X100 F6000', cut: [1.1] },
  { name: 'short move never reaches its feed: 2 sqrt(L/a)', body: 'G1 X5 F6000', cut: [0.141421] },
  { name: 'straight on there is no stop between', body: 'G1 X50 F6000\nX100', cut: [0.55, 0.55] },
  { name: 'exact stop halts at each end', body: 'G61 G1 X50 F6000\nX100', cut: [0.6, 0.6] },
  { name: 'turning back halts', body: 'G1 X50 F6000\nX0', cut: [0.6, 0.6] },
  {
    name: 'the least of the axes counts',
    body: 'G1 X100 F6000',
    cut: [1.2],
    acceleration: '{ "x": 2, "y": 0.5 }',
  },
  // a quarter of radius 10 is 15.708 mm; sqrt(a R) = 100 mm/s is just the feed
  {
    name: 'a tangent arc is entered at full feed',
    body: 'G1 X100 F6000\nG3 X110 Y10 I0 J10\nG1 Y110',
    cut: [1.05, 0.15708, 1.05],
  },
];

describe('times that the machine can follow', () => {
  for (const { name, body, cut, acceleration } of CASES) {
    it(name, () => {
      const found = times(body, acceleration).cut;
      assert.equal(found.length, cut.length);
      found.forEach((seconds, i) => {
        assert.ok(Math.abs(seconds - cut[i]) < 2e-4, `${found} against ${cut}`);
      });
    });
  }

  it('a corner is passed slower than straight on and faster than a stop', () => {
    const [corner, straight, stop] = ['G1 X50 F6000\nY50', 'G1 X50 F6000\nX100', 'G61 G1 X50 F6000\nY50'].map(
      body => times(body).total as number,
    );
    assert.ok(straight < corner && corner < stop, `${straight} ${corner} ${stop}`);
  });

  it('keeps the ideal time beside it, and is the ideal one where no acceleration is known', () => {
    assert.deepEqual(times('G1 X100 F6000').ideal, [1]);
    const bare = times('G1 X100 F6000', '');
    assert.deepEqual(bare.ideal, [undefined]);
    assert.ok(Math.abs(bare.cut[0] - 1) < 1e-9);
  });
});
