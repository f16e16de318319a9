import assert from 'node:assert/strict';
import fc from 'fast-check';
import {
  type MillCycleContext,
  type MillCycleState,
  type MillCycleWords,
  millCycleRepeats,
  tapLead_mm,
} from '../../../../server/src/rs274/cycles/levels.ts';
import { expandMillCycle } from '../../../../server/src/rs274/cycles/mill.ts';
import type { Point } from '../../../../server/src/rs274/geometry/plane.ts';
import { expectEvents, recorder } from './recorder.ts';

type Block = MillCycleWords & {
  readonly g99?: boolean;
  readonly g91?: boolean;
  readonly moves: string;
  readonly problems?: readonly string[];
  readonly assumed?: readonly string[];
};

interface Case {
  readonly name: string;
  readonly start: readonly [number, number, number];
  readonly context?: Partial<MillCycleContext>;
  readonly blocks: readonly Block[];
}

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

// Worked out by hand from the rules of each cycle.
const CASES: readonly Case[] = [
  {
    name: 'G82 at four places, R level then initial level',
    start: [15, 15, 20],
    blocks: [
      {
        code: 82,
        z: -2.5,
        r: 2,
        p_seconds: 0.2,
        g99: true,
        moves: 'r 15 15 2; f 15 15 -2.5; d 0.2; r 15 15 2',
      },
      { x: 75, g99: true, moves: 'r 75 15 2; f 75 15 -2.5; d 0.2; r 75 15 2' },
      { y: 45, g99: true, moves: 'r 75 45 2; f 75 45 -2.5; d 0.2; r 75 45 2' },
      { x: 15, moves: 'r 15 45 2; f 15 45 -2.5; d 0.2; r 15 45 20' },
    ],
  },
  {
    name: 'G83 with the gap named as assumed',
    start: [15, 15, 20],
    blocks: [
      {
        code: 83,
        z: -22,
        r: 2,
        q: 6,
        g99: true,
        assumed: ['peck-clearance'],
        moves: `r 15 15 2
          f 15 15 -4; r 15 15 2; r 15 15 -3.746
          f 15 15 -10; r 15 15 2; r 15 15 -9.746
          f 15 15 -16; r 15 15 2; r 15 15 -15.746
          f 15 15 -22; r 15 15 2`,
      },
    ],
  },
  {
    name: 'G73 repeated in G91: R from the initial level, Z from R',
    start: [30, 30, 5],
    blocks: [
      {
        code: 73,
        x: 7.5,
        y: 0,
        z: -14,
        r: -3,
        q: 4,
        repeats: 2,
        g91: true,
        g99: true,
        moves: `r 37.5 30 5; r 37.5 30 2
          f 37.5 30 -2; r 37.5 30 -1.746; f 37.5 30 -6; r 37.5 30 -5.746; f 37.5 30 -10; r 37.5 30 -9.746
          f 37.5 30 -12; r 37.5 30 2
          r 45 30 2
          f 45 30 -2; r 45 30 -1.746; f 45 30 -6; r 45 30 -5.746; f 45 30 -10; r 45 30 -9.746
          f 45 30 -12; r 45 30 2`,
      },
      {
        x: 7.5,
        g91: true,
        g99: true,
        moves: `r 52.5 30 2
          f 52.5 30 -2; r 52.5 30 -1.746; f 52.5 30 -6; r 52.5 30 -5.746; f 52.5 30 -10; r 52.5 30 -9.746
          f 52.5 30 -12; r 52.5 30 2`,
      },
    ],
  },
  {
    name: 'G81 below R: up to R first',
    start: [0, 0, 1],
    blocks: [{ code: 81, x: 5, z: -1, r: 3, moves: 'r 0 0 3; r 5 0 3; f 5 0 -1; r 5 0 3' }],
  },
  {
    name: 'repeats in G90 drill the same place',
    start: [0, 0, 3],
    blocks: [
      { code: 81, x: 5, z: -1, r: 3, repeats: 2, moves: 'r 5 0 3; f 5 0 -1; r 5 0 3; f 5 0 -1; r 5 0 3' },
    ],
  },
  {
    name: 'L0 stores the words and drills nothing',
    start: [0, 0, 10],
    blocks: [
      { code: 81, z: -1, r: 2, repeats: 0, g99: true, moves: '' },
      { x: 4, g99: true, moves: 'r 4 0 10; r 4 0 2; f 4 0 -1; r 4 0 2' },
    ],
  },
  {
    name: 'L0 is an error of the report',
    start: [0, 0, 10],
    context: { rules: 'report' },
    blocks: [{ code: 81, z: -1, r: 2, repeats: 0, moves: '', problems: ['cycle-repeat-zero'] }],
  },
  {
    name: 'initial level stays over a changed cycle number, words are inherited and reported',
    start: [0, 0, 10],
    blocks: [
      { code: 81, z: -1, r: 2, g99: true, moves: 'r 0 0 2; f 0 0 -1; r 0 0 2' },
      {
        code: 83,
        x: 5,
        q: 3,
        moves: 'r 5 0 2; f 5 0 -1; r 5 0 10',
        problems: ['cycle-words-inherited'],
      },
    ],
  },
  {
    name: 'the report wants the words again after a changed cycle number',
    start: [0, 0, 10],
    context: { rules: 'report' },
    blocks: [
      { code: 81, x: 0, z: -1, r: 2, g99: true, moves: 'r 0 0 2; f 0 0 -1; r 0 0 2' },
      {
        code: 83,
        x: 5,
        q: 3,
        moves: '',
        problems: ['cycle-word-missing'],
      },
    ],
  },
  {
    name: 'G83 by first peck, reduction, least peck',
    start: [0, 0, 0],
    context: { peck_clearance_mm: 1 },
    blocks: [
      {
        code: 83,
        z: -10,
        r: 0,
        i: 4,
        j: 1,
        k: 2.5,
        assumed: [],
        moves: `f 0 0 -4; r 0 0 0; r 0 0 -3
          f 0 0 -7; r 0 0 0; r 0 0 -6
          f 0 0 -9.5; r 0 0 0; r 0 0 -8.5
          f 0 0 -10; r 0 0 0`,
      },
    ],
  },
  {
    name: 'G83 with D of the successor and negative Q elsewhere',
    start: [0, 0, 0],
    blocks: [
      {
        code: 83,
        z: -4,
        r: 0,
        q: -2,
        moves: 'f 0 0 -2; r 0 0 0; r 0 0 -1.746; f 0 0 -4; r 0 0 0',
      },
    ],
  },
  {
    name: 'negative Q is an error of the report; D sets the gap',
    start: [0, 0, 0],
    context: { rules: 'report' },
    blocks: [
      {
        code: 83,
        x: 0,
        z: -4,
        r: 0,
        q: -2,
        d: 0.5,
        assumed: [],
        moves: 'f 0 0 -2; r 0 0 0; r 0 0 -1.5; f 0 0 -4; r 0 0 0',
        problems: ['cycle-word-negative'],
      },
    ],
  },
  {
    name: 'G83 without Q goes down in one and says so',
    start: [0, 0, 5],
    blocks: [
      { code: 83, z: -4, r: 1, moves: 'r 0 0 1; f 0 0 -4; r 0 0 5', problems: ['cycle-word-missing'] },
    ],
  },
  {
    name: 'G84 on common controls: locked feed to R, rapid to clear',
    start: [12.7, 12.7, 25.4],
    context: { lead_mm: 1.27 },
    blocks: [
      {
        code: 84,
        z: -12.7,
        r: 5.08,
        moves: 'r 12.7 12.7 5.08; t 12.7 12.7 -12.7; reverse; t 12.7 12.7 5.08; reverse; r 12.7 12.7 25.4',
      },
    ],
  },
  {
    name: 'G84 of the report: locked feed all the way out',
    start: [0, 0, 20],
    context: { rules: 'report', lead_mm: 1 },
    blocks: [{ code: 84, x: 0, z: -10, r: 2, moves: 'r 0 0 2; t 0 0 -10; reverse; t 0 0 20; reverse' }],
  },
  {
    name: 'G84 with Q taps in pecks',
    start: [0, 0, 2],
    context: { lead_mm: 1, peck_clearance_mm: 0.5 },
    blocks: [
      {
        code: 84,
        z: -8,
        r: 2,
        q: 5,
        assumed: ['tap-peck'],
        moves: 't 0 0 -3; reverse; t 0 0 -2.5; reverse; t 0 0 -8; reverse; t 0 0 2; reverse',
      },
    ],
  },
  {
    name: 'G84 with the spindle stopped, and turning the wrong way by the report',
    start: [0, 0, 2],
    context: { spindle_direction: -1, rules: 'report', lead_mm: 1 },
    blocks: [
      {
        code: 84,
        x: 0,
        z: -8,
        r: 2,
        moves: 't 0 0 -8; reverse; t 0 0 2; reverse',
        problems: ['cycle-spindle-direction'],
      },
    ],
  },
  {
    name: 'G86 with a stopped spindle',
    start: [0, 0, 9],
    context: { spindle_direction: 0 },
    blocks: [
      {
        code: 86,
        z: -8,
        r: 2,
        p_seconds: 1,
        moves: 'r 0 0 2; f 0 0 -8; d 1; stop; r 0 0 9; start',
        problems: ['cycle-spindle-off'],
      },
    ],
  },
  {
    name: 'G85 and G89 feed to R, then rapid to clear',
    start: [0, 0, 9],
    blocks: [
      { code: 85, z: -8, r: 2, moves: 'r 0 0 2; f 0 0 -8; f 0 0 2; r 0 0 9' },
      {
        code: 89,
        z: -8,
        r: 2,
        p_seconds: 0.5,
        moves: 'r 0 0 2; f 0 0 -8; d 0.5; f 0 0 2; r 0 0 9',
      },
    ],
  },
  {
    name: 'G85 of the report feeds out to clear',
    start: [0, 0, 9],
    context: { rules: 'report' },
    blocks: [{ code: 85, x: 0, z: -8, r: 2, moves: 'r 0 0 2; f 0 0 -8; f 0 0 9' }],
  },
  {
    name: 'G88: stop, operator, out',
    start: [0, 0, 9],
    blocks: [
      {
        code: 88,
        z: -8,
        r: 2,
        p_seconds: 1,
        assumed: ['manual-retract'],
        moves: 'r 0 0 2; f 0 0 -8; d 1; stop; operator; r 0 0 9; start',
      },
    ],
  },
  {
    name: 'G87 with I J K',
    start: [0, 0, 5],
    context: { rules: 'report' },
    blocks: [
      {
        code: 87,
        x: 10,
        z: -20,
        r: 2,
        i: 3,
        j: 0,
        k: -12,
        moves: `r 10 0 5; r 10 0 2; orient; r 13 0 2; r 13 0 -20; r 10 0 -20; start
          f 10 0 -12; f 10 0 -20; orient; r 13 0 -20; r 13 0 5; r 10 0 5; start`,
      },
    ],
  },
  {
    name: 'G87 with R below and Z above',
    start: [0, 0, 5],
    blocks: [
      {
        code: 87,
        x: 10,
        z: -12,
        r: -20,
        q: 3,
        assumed: ['bore-shift'],
        moves: `r 10 0 5; orient; r 13 0 5; r 13 0 -20; r 10 0 -20; start
          f 10 0 -12; orient; r 13 0 -12; r 13 0 5; r 10 0 5; start`,
      },
    ],
  },
  {
    name: 'G76 shifts off the wall',
    start: [0, 0, 5],
    blocks: [
      {
        code: 76,
        z: -12,
        r: 2,
        q: 0.5,
        g99: true,
        moves: 'r 0 0 2; f 0 0 -12; orient; r 0.5 0 -12; r 0.5 0 2; r 0 0 2; start',
      },
    ],
  },
  {
    name: 'R missing: the level of entry, and a warning',
    start: [0, 0, 5],
    blocks: [{ code: 81, z: -2, moves: 'f 0 0 -2; r 0 0 5', problems: ['cycle-word-missing'] }],
  },
  {
    name: 'R below Z',
    start: [0, 0, 5],
    context: { rules: 'report' },
    blocks: [
      { code: 81, x: 0, z: -2, r: -4, moves: 'r 0 0 -4; f 0 0 -2; r 0 0 5', problems: ['cycle-r-below-z'] },
    ],
  },
  {
    name: 'conditions of the report',
    start: [0, 0, 5],
    context: { rules: 'report', compensation_on: true, inverse_time: true, rotary_word: true },
    blocks: [
      {
        code: 81,
        x: 0,
        z: -2,
        r: 5,
        moves: 'f 0 0 -2; r 0 0 5',
        problems: ['cycle-compensation-on', 'cycle-inverse-time', 'cycle-rotary-word'],
      },
    ],
  },
  {
    name: 'G18: the tool axis is Y',
    start: [0, 20, 0],
    context: { plane: 'zx' },
    blocks: [{ code: 81, x: 4, z: 3, y: -2, r: 1, moves: 'r 4 20 3; r 4 1 3; f 4 -2 3; r 4 20 3' }],
  },
  {
    name: 'G19: the tool axis is X',
    start: [20, 0, 0],
    context: { plane: 'yz' },
    blocks: [
      {
        code: 82,
        y: 4,
        z: 3,
        x: -2,
        r: 1,
        p_seconds: 1,
        moves: 'r 20 4 3; r 1 4 3; f -2 4 3; d 1; r 20 4 3',
      },
    ],
  },
  {
    name: 'a height that is not known stays not known',
    start: [0, 0, Number.NaN],
    blocks: [
      {
        code: 81,
        x: 1,
        z: -2,
        r: 1,
        moves: 'r 1 0 NaN; r 1 0 1; f 1 0 -2; r 1 0 NaN',
        problems: ['cycle-position-unknown'],
      },
    ],
  },
];

describe('mill cycles', () => {
  for (const test of CASES) it(test.name, () => check(test));

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
