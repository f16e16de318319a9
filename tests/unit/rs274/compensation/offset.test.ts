import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Flat } from '../../../../server/src/rs274/compensation/element.ts';
import { COMPENSATION_RULES } from '../../../../server/src/rs274/compensation/offset.ts';
import { CASES, type Case } from './offset-cases.ts';
import { compensate, expectSent, type Sent, segments } from './paths.ts';

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
