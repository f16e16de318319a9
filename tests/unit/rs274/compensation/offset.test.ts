import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Flat } from '../../../../server/src/rs274/compensation/element.ts';
import { startNoseCompensation, tipShift, tipSink } from '../../../../server/src/rs274/compensation/nose.ts';
import {
  COMPENSATION_RULES,
  finishCompensation,
  pushSegment,
} from '../../../../server/src/rs274/compensation/offset.ts';
import { compensate, expectSent, type Sent, segments } from './paths.ts';

interface Case {
  readonly name: string;
  readonly start: readonly [number, number];
  readonly path: string;
  readonly side: 'left' | 'right';
  readonly radius: number;
  readonly rules: keyof typeof COMPENSATION_RULES;
  readonly sent?: string;
  readonly problems?: readonly string[];
  /** Length of all but the first move sent. */
  readonly length?: number;
}

const check = (test: Case) => {
  const start = { first: test.start[0], second: test.start[1] };
  const side = test.side === 'left' ? 1 : -1;
  const rules = COMPENSATION_RULES[test.rules];
  const { sent, problems } = compensate(start, segments(start, test.path), side, test.radius, rules);
  assert.deepEqual(problems, test.problems ?? []);
  if (test.sent !== undefined) expectSent(sent, test.sent);
  if (test.length !== undefined) {
    const length = sent.slice(1).reduce((sum, move) => sum + move.length, 0);
    assert.ok(Math.abs(length - test.length) < 1e-6, `length ${length}`);
  }
};

// Figures worked out by hand. 231.4159265 = 4 x 50 + 2 pi 5.
const CASES: readonly Case[] = [
  {
    name: 'outside square of 50 with a 10 mm tool, clockwise, left',
    start: [25, -20],
    path: 'l 25 0; l 0 0; l 0 50; l 50 50; l 50 0; l 25 0',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 25 -5; l 0 -5; a -5 0 -90; l -5 50; a 0 55 -90; l 50 55; a 55 50 -90; l 55 0; a 50 -5 -90; l 25 -5',
    length: 231.4159265,
  },
  {
    name: 'outside square, counter-clockwise, right',
    start: [25, -20],
    path: 'l 25 0; l 50 0; l 50 50; l 0 50; l 0 0; l 25 0',
    side: 'right',
    radius: 5,
    rules: 'common',
    length: 231.4159265,
  },
  {
    name: 'outside square, entry along the side, successor',
    start: [75, 0],
    path: 'l 25 0; l 0 0; l 0 50; l 50 50; l 50 0; l 25 0',
    side: 'left',
    radius: 5,
    rules: 'successor',
    length: 231.4159265,
  },
  {
    name: 'inside square of 50',
    start: [25, 25],
    path: 'l 25 0; l 50 0; l 50 50; l 0 50; l 0 0; l 25 0',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 25 5; l 45 5; l 45 45; l 5 45; l 5 5; l 25 5',
    length: 160,
  },
  {
    name: 'inside square by the report: every inside corner is an error',
    start: [25, 25],
    path: 'l 40 0; l 50 0; l 50 50',
    side: 'left',
    radius: 5,
    rules: 'report',
    problems: ['comp-concave-corner 1', 'comp-concave-corner 2'],
  },
  {
    name: 'inside fillet of 10 becomes 5',
    start: [10, 20],
    path: 'l 10 0; l 40 0; a 50 10 40 10; l 50 50',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 10 5; l 40 5; a 45 10 90; l 45 50',
    length: 30 + 7.853981634 + 40,
  },
  {
    name: 'outside fillet of 10 becomes 15',
    start: [10, -20],
    path: 'l 10 0; l 40 0; a 50 10 40 10; l 50 50',
    side: 'right',
    radius: 5,
    rules: 'common',
    sent: 'l 10 -5; l 40 -5; a 55 10 90; l 55 50',
  },
  {
    name: 'inside fillet of the tool radius: the tool turns on the spot',
    start: [10, 20],
    path: 'l 10 0; l 45 0; a 50 5 45 5; l 50 50',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 10 5; l 45 5; l 45 50',
  },
  {
    name: 'inside fillet of the tool radius is an error of the successor',
    start: [-30, 0],
    path: 'l 10 0; l 45 0; a 50 5 45 5; l 50 50',
    side: 'left',
    radius: 5,
    rules: 'successor',
    problems: ['comp-arc-too-small 2'],
  },
  {
    name: 'inside fillet smaller than the tool',
    start: [10, 20],
    path: 'l 10 0; l 47 0; a 50 3 47 3; l 50 50',
    side: 'left',
    radius: 5,
    rules: 'common',
    problems: ['comp-arc-too-small 2'],
  },
  {
    name: 'slot narrower than the tool',
    start: [-10, 10],
    path: 'l 0 0; l 30 0; l 30 8; l 0 8',
    side: 'left',
    radius: 5,
    rules: 'common',
    problems: ['comp-inside-corner 3'],
  },
  {
    name: 'step lower than the tool radius',
    start: [-10, 10],
    path: 'l 0 0; l 30 0; l 30 2; l 60 2',
    side: 'left',
    radius: 5,
    rules: 'common',
    problems: ['comp-inside-corner 2'],
  },
  {
    name: 'a slot of just the tool width is no gouge',
    start: [-10, 10],
    path: 'l 0 0; l 30 0; l 30 10; l 0 10',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 0 5; l 25 5; l 0 5',
  },
  {
    name: 'inside corner between a line and an arc',
    start: [-20, 20],
    path: 'l -20 0; l 0 0; a -6 18 -6 8',
    side: 'left',
    radius: 2,
    rules: 'common',
    sent: 'l -20 2; l -0.7084974 2; a -6 16 138.5903779',
  },
  {
    name: 'inside corner between an arc and a line',
    start: [-20, 18],
    path: 'l -6 18; c 0 0 -6 8; l -20 0',
    side: 'right',
    radius: 2,
    rules: 'common',
    sent: 'l -6 16; a -0.7084974 2 -138.5903779; l -20 2',
  },
  {
    name: 'hook narrower than the tool',
    start: [-20, -2],
    path: 'l -6 -2; c 0 16 -6 8; l -20 16',
    side: 'right',
    radius: 2,
    rules: 'common',
    problems: ['comp-inside-corner 2'],
  },
  {
    name: 'full circle outside and inside',
    start: [40, 0],
    path: 'l 20 0; c 20 0 0 0; l 20 -30',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 25 0; a 25 0 -360; l 25 -30',
  },
  {
    name: 'reversal: the tool goes half round the end',
    start: [0, 20],
    path: 'l 0 0; l 30 0; l 0 0',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 0 5; l 30 5; a 30 -5 -180; l 0 -5',
  },
  {
    name: 'entry of the report: tangent to the tool circle around the end',
    start: [0, 0],
    path: 'l 10 0; l 20 0',
    side: 'left',
    radius: 5,
    rules: 'report',
    sent: 'l 7.5 4.330127; a 10 5 -30; l 20 5',
  },
  {
    name: 'entry of the report, right',
    start: [0, 0],
    path: 'l 10 0; l 20 0',
    side: 'right',
    radius: 5,
    rules: 'report',
    sent: 'l 7.5 -4.330127; a 10 -5 30; l 20 -5',
  },
  {
    name: 'entry of the successor: square to the entry move, outside corner after it',
    start: [0, 0],
    path: 'l 10 0; l 10 -20',
    side: 'left',
    radius: 5,
    rules: 'successor',
    sent: 'l 10 5; a 15 0 -90; l 15 -20',
  },
  {
    name: 'entry of the successor into an inside corner ends at the crossing',
    start: [0, 0],
    path: 'l 10 0; l 10 20',
    side: 'left',
    radius: 4,
    rules: 'successor',
    sent: 'l 6 4; l 6 20',
  },
  {
    name: 'entry shorter than the tool radius',
    start: [0, 0],
    path: 'l 4 0; l 20 0',
    side: 'left',
    radius: 5,
    rules: 'successor',
    problems: ['comp-entry-short 0'],
  },
  {
    name: 'entry along an arc ends tangent to the offset arc',
    start: [0, 0],
    path: 'a 10 10 0 10; l 10 30',
    side: 'left',
    radius: 2,
    rules: 'successor',
    sent: 'a 8 10 77.3196165; l 8 30',
  },
  {
    name: 'entry along an arc is refused elsewhere',
    start: [0, 0],
    path: 'a 10 10 0 10; l 10 30',
    side: 'left',
    radius: 2,
    rules: 'common',
    problems: ['comp-entry-arc 0'],
  },
  {
    name: 'small turns get no corner in the successor',
    start: [-20, 0],
    path: 'l 0 0; l 10 -0.1; l 20 0',
    side: 'left',
    radius: 5,
    rules: 'successor',
    sent: 'l 0 5; l 10.0499975 4.89975; l 19.9500025 4.99975',
  },
  {
    name: 'entry alone',
    start: [0, 0],
    path: 'l 10 0',
    side: 'left',
    radius: 5,
    rules: 'common',
    sent: 'l 10 5',
  },
];

describe('cutter radius compensation', () => {
  for (const test of CASES) it(test.name, () => check(test));

  it('plunges at the end of the move before the corner', () => {
    const start = { first: 0, second: -20 };
    const path = segments(start, 'l 0 0 5; l 0 0 -2; l -30 0; l -30 0 -4; l -30 30; l -30 30 5');
    const { sent } = compensate(start, path, 1, 5, COMPENSATION_RULES.common);
    const rows = sent.map(move =>
      [move.kind, move.to.first, move.to.second, move.normal, move.tag].join(' '),
    );
    assert.deepEqual(rows, [
      'line 0 -5 5 0',
      'line 0 -5 -2 1',
      'line -30 -5 -2 2',
      'line -30 -5 -4 3',
      'arc -35 0 -4 2',
      'line -35 30 -4 4',
      'line -35 30 5 5',
    ]);
  });

  it('closes the corner when many tool-axis moves wait', () => {
    const start = { first: 0, second: -20 };
    const pecks = Array.from({ length: 40 }, (_, n) => `l -30 0 ${-n - 1}`).join(';');
    const path = segments(start, `l 0 0; l -30 0; ${pecks}; l -60 0`);
    const { sent } = compensate(start, path, 1, 5, COMPENSATION_RULES.common);
    assert.equal(sent.length, 43);
    assert.equal(sent.at(-1)?.normal, -40);
    assert.equal(sent.at(-1)?.to.first, -60);
  });

  it('keeps the tool at its radius from a convex outline, and no closer', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 12 }),
        fc.double({ min: 0.1, max: 30, noNaN: true }),
        fc.boolean(),
        (parts, radius, clockwise) => {
          // Points of a circle of 40 make a convex outline; spread so that no turn is under the threshold.
          const total = parts.reduce((sum, part) => sum + part + 0.2, 0);
          let angle = 0;
          const corners = parts.map(part => {
            angle += ((part + 0.2) / total) * 2 * Math.PI * (clockwise ? -1 : 1);
            return { first: 40 * Math.cos(angle), second: 40 * Math.sin(angle) };
          });
          const middle = {
            first: (corners[0].first + corners[1].first) / 2,
            second: (corners[0].second + corners[1].second) / 2,
          };
          const start = { first: middle.first * 4, second: middle.second * 4 };
          const order = [middle, ...corners.slice(1), corners[0], middle];
          const path = segments(start, order.map(at => `l ${at.first} ${at.second}`).join(';'));
          const { sent, problems } = compensate(
            start,
            path,
            clockwise ? 1 : -1,
            radius,
            COMPENSATION_RULES.common,
          );
          assert.deepEqual(problems, []);
          const perimeter = order.slice(1).reduce((sum, at, n) => sum + apart(order[n], at), 0);
          const length = sent.slice(1).reduce((sum, move) => sum + move.length, 0);
          assert.ok(Math.abs(length - perimeter - 2 * Math.PI * radius) < 1e-6);
          for (const at of sent.slice(1).flatMap(samples)) {
            const gap = Math.min(...order.slice(1).map((to, n) => toLine(at, order[n], to)));
            assert.ok(Math.abs(gap - radius) < 1e-6, `gap ${gap}, radius ${radius}`);
          }
        },
      ),
      { seed: 274, numRuns: 100 },
    );
  });

  it('never breaks the path, whatever the outline', () => {
    const place = fc.integer({ min: -20, max: 20 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 20 }),
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.constantFrom(...Object.values(COMPENSATION_RULES)),
        fc.constantFrom(1 as const, -1 as const),
        (places, radius, rules, side) => {
          const start = { first: 50, second: 50 };
          const path = segments(start, places.map(([x, y]) => `l ${x} ${y}`).join(';'));
          const { sent } = compensate(start, path, side, radius, rules);
          for (const move of sent) {
            assert.ok(Number.isFinite(move.to.first + move.to.second + move.length));
            if (move.centre === undefined) continue;
            assert.ok(Math.abs(apart(move.centre, move.from) - apart(move.centre, move.to)) < 1e-6);
          }
        },
      ),
      { seed: 274, numRuns: 300 },
    );
  });
});

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

function samples(move: Sent): Flat[] {
  return [0, 0.3, 0.5, 0.9].map(share => {
    if (move.centre === undefined) {
      return {
        first: move.from.first + share * (move.to.first - move.from.first),
        second: move.from.second + share * (move.to.second - move.from.second),
      };
    }
    const radius = apart(move.centre, move.from);
    const angle = Math.atan2(move.from.second - move.centre.second, move.from.first - move.centre.first);
    return {
      first: move.centre.first + radius * Math.cos(angle + share * move.sweep_rad),
      second: move.centre.second + radius * Math.sin(angle + share * move.sweep_rad),
    };
  });
}

function apart(a: Flat, b: Flat): number {
  return Math.hypot(a.first - b.first, a.second - b.second);
}

function toLine(at: Flat, from: Flat, to: Flat): number {
  const length = apart(from, to);
  if (length === 0) return apart(at, from);
  const share =
    ((at.first - from.first) * (to.first - from.first) +
      (at.second - from.second) * (to.second - from.second)) /
    (length * length);
  const clamped = Math.max(0, Math.min(1, share));
  return apart(at, {
    first: from.first + clamped * (to.first - from.first),
    second: from.second + clamped * (to.second - from.second),
  });
}
