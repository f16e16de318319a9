import assert from 'node:assert/strict';
import fc from 'fast-check';
import { findMaterial, toolKinds } from '../../../server/src/materials/index.ts';
import type { FirstContactInput } from '../../../server/src/proveout/first-contact.ts';
import { firstContact, rubFloor, stepUp } from '../../../server/src/proveout/first-contact.ts';

function material(name: string) {
  const found = findMaterial(name);
  assert.equal(found.kind, 'found', name);
  return found.kind === 'found' ? found.material : undefined;
}

interface Case {
  readonly title: string;
  readonly input: FirstContactInput;
  readonly percent?: number;
  readonly sum: number;
  readonly takes: readonly number[];
  readonly why_not?: RegExp;
  readonly steps?: readonly number[];
}

const aluminium: FirstContactInput = {
  kind: 'end-mill',
  window: 'handbook',
  tool: 'confirmed',
  diameter_mm: 12.7,
  stickout_mm: 31.75,
  grip: 'firm',
  wear: 'new',
  material: material('6061'),
  entry: 'partial',
  load: { share: 0.2, of: 'power' },
  stock: 'stated',
};
const slot: FirstContactInput = {
  kind: 'end-mill',
  window: 'handbook',
  tool: 'comment',
  diameter_mm: 12,
  stickout_mm: 54,
  grip: 'fair',
  material: material('304'),
  entry: 'full',
  load: { share: 0.2, of: 'power' },
  stock: 'assumed',
};
const finishing: FirstContactInput = {
  kind: 'end-mill',
  window: 'proven',
  tool: 'confirmed',
  diameter_mm: 12,
  stickout_mm: 42,
  grip: 'firm',
  wear: 'used',
  material: material('304'),
  entry: 'partial',
  load: { share: 0.2, of: 'power' },
  stock: 'stated',
};
// fz 0.03 at 0.2 mm of a 12 mm cutter: h_max = 2 fz sqrt(q - q^2) = 0.00768 mm.
const rub = { h_max_mm: 0.00768, edge_radius_mm: 0.015 };

/** Worked examples of the trade's rule as this project weighs it: common practice, no source. */
const cases: readonly Case[] = [
  {
    title: '6061, short new confirmed tool',
    input: aluminium,
    percent: 60,
    sum: 65,
    takes: [5],
    steps: [60, 70, 80, 90, 100],
  },
  {
    title: '304 slot, tool from a comment, stickout 4.5 x D',
    input: slot,
    percent: 50,
    sum: 37,
    takes: [5, 4, 6, 4, 2, 4, 5, 3],
    steps: [50, 60, 70, 80, 90, 100],
  },
  {
    title: '304 finishing, proven, no rub floor asked',
    input: finishing,
    percent: 60,
    sum: 60,
    takes: [3, 3, 4],
  },
  {
    title: '304 finishing, floor 66.4 rounds up to 70',
    input: { ...finishing, rub: { ...rub, k: { low: 0.25, high: 0.43 } } },
    percent: 70,
    sum: 60,
    takes: [3, 3, 4],
    steps: [70, 80, 90, 100],
  },
  {
    title: '304 finishing, k 0.43, floor 84: no number',
    input: { ...finishing, rub: { ...rub, k: { low: 0.43, high: 0.43 } } },
    sum: 60,
    takes: [3, 3, 4],
    why_not: /do not start this pass low/,
  },
  { title: 'step of 5', input: { ...aluminium, override_step: 5 }, percent: 65, sum: 65, takes: [5] },
  {
    title: 'floor under P changes nothing',
    input: { ...aluminium, rub: { ...rub, h_max_mm: 0.1, k: { low: 0.2, high: 0.35 } } },
    percent: 60,
    sum: 65,
    takes: [5],
  },
  {
    title: 'no window, unknown tool',
    input: { kind: 'drill', tool: 'unknown' },
    percent: 50,
    sum: 30,
    takes: [10, 20, 4, 2, 4],
  },
  { title: 'tap', input: { ...aluminium, kind: 'tap' }, sum: 65, takes: [5], why_not: /above the part/ },
  {
    title: 'thread',
    input: { ...aluminium, kind: 'thread-turn' },
    sum: 65,
    takes: [5],
    why_not: /above the part/,
  },
  {
    title: 'thread mill has a figure',
    input: { ...aluminium, kind: 'thread-mill' },
    percent: 60,
    sum: 65,
    takes: [5],
  },
  {
    title: 'an error stands',
    input: { ...aluminium, error: 'no feed' },
    sum: 65,
    takes: [5],
    why_not: /no feed/,
  },
  {
    title: 'load over 70 %',
    input: { ...aluminium, load: { share: 0.82, of: 'torque' } },
    percent: 60,
    sum: 60,
    takes: [5, 5],
  },
  {
    title: 'load at 70 % is not over it',
    input: { ...aluminium, load: { share: 0.7, of: 'torque' } },
    percent: 60,
    sum: 65,
    takes: [5],
  },
  {
    title: 'carbide bar at 6 x D counts as 4',
    input: { ...aluminium, kind: 'bore-bar', diameter_mm: 20, stickout_mm: 120, carbide_bar: true },
    percent: 60,
    sum: 62,
    takes: [5, 3],
  },
  {
    title: 'steel bar at 6 x D',
    input: { ...aluminium, kind: 'bore-bar', diameter_mm: 20, stickout_mm: 120 },
    percent: 50,
    sum: 55,
    takes: [5, 10],
  },
  {
    title: '1.5 in on 1/2 in is 3 x D',
    input: { ...aluminium, stickout_mm: 1.5 * 25.4, diameter_mm: 0.5 * 25.4 },
    percent: 60,
    sum: 65,
    takes: [5],
  },
  {
    title: 'grey iron has a cast skin',
    input: { ...aluminium, material: material('GG25') },
    percent: 60,
    sum: 61,
    takes: [5, 4],
  },
  {
    title: 'grey iron without its skin',
    input: { ...aluminium, material: material('GG25'), skin: 'none' },
    percent: 60,
    sum: 65,
    takes: [5],
  },
  {
    title: 'forged C45',
    input: { ...aluminium, material: material('C45'), skin: 'forged' },
    percent: 60,
    sum: 61,
    takes: [5, 4],
  },
  {
    title: 'D2 at 60 HRC',
    input: { ...aluminium, material: material('D2 60 HRC') },
    percent: 60,
    sum: 61,
    takes: [5, 4],
  },
];

describe('first contact', () => {
  for (const { title, input, percent, sum, takes, why_not, steps } of cases) {
    it(title, () => {
      const got = firstContact(input);
      assert.equal(got.percent, percent);
      assert.equal(got.sum_percent, sum);
      assert.deepEqual(
        got.terms.map(term => term.percent),
        takes,
      );
      if (why_not !== undefined) assert.match(got.why_not ?? '', why_not);
      if (why_not !== undefined) assert.deepEqual(got.steps_percent, []);
      if (steps !== undefined) assert.deepEqual(got.steps_percent, steps);
    });
  }

  it('shows the sum in one line', () => {
    const got = firstContact(slot).sentence;
    assert.equal(
      got,
      '70 - 5 window from handbook - 4 tool read from a comment - 6 stickout 4.5 x D - 4 grip fair - 2 wear not known' +
        ' - 4 austenitic stainless work-hardens - 5 first entry full width - 3 stock assumed = 37, held at 50',
    );
  });

  it('names what needs stock as not counted', () => {
    const got = firstContact({ ...aluminium, entry: undefined, load: undefined, stock: undefined });
    assert.deepEqual(got.not_counted, [
      'first entry: stock not known',
      'loads: stock not known',
      'stock not stated',
    ]);
    assert.equal(got.percent, 60);
  });

  it('shows the range of the floor', () => {
    const floor = rubFloor({ ...rub, k: { low: 0.25, high: 0.43 } });
    assert.ok(floor);
    assert.ok(Math.abs(floor.percent - 66.4) < 0.05, String(floor.percent));
    assert.ok(Math.abs(floor.range_percent[1] - 84) < 0.05, String(floor.range_percent[1]));
    assert.match(
      firstContact({ ...finishing, rub: { ...rub, k: { low: 0.25, high: 0.43 } } }).sentence,
      /66 % \(49 to 84\).*up to 84 %/,
    );
  });

  it('steps up to 100 whatever the step', () => {
    assert.deepEqual(stepUp(60, 10), [60, 70, 80, 90, 100]);
    assert.deepEqual(stepUp(50, 20), [50, 70, 90, 100]);
    assert.deepEqual(stepUp(70, 25), [70, 95, 100]);
  });
});

const worse = { grip: ['firm', 'fair', 'weak'], wear: ['new', 'used', 'dull'] } as const;
const anyInput = fc.record({
  kind: fc.constantFrom(...toolKinds),
  window: fc.constantFrom('proven', 'maker', 'handbook', undefined),
  tool: fc.constantFrom('confirmed', 'comment', 'unknown'),
  diameter_mm: fc.double({ min: 0.1, max: 200, noNaN: true }),
  stickout_mm: fc.double({ min: 0, max: 600, noNaN: true }),
  carbide_bar: fc.boolean(),
  material: fc.constantFrom(material('6061'), material('304'), undefined),
  entry: fc.constantFrom('partial', 'full', 'full-and-deep', undefined),
  load: fc.option(
    fc.record({ share: fc.double({ min: 0, max: 2, noNaN: true }), of: fc.constant('power') }),
    { nil: undefined },
  ),
  stock: fc.constantFrom('stated', 'assumed', undefined),
  override_step: fc.constantFrom(1, 5, 10, 20, undefined),
  rub: fc.option(
    fc.record({
      h_max_mm: fc.double({ min: 0.001, max: 0.3, noNaN: true }),
      edge_radius_mm: fc.constant(0.01),
      k: fc.constant({ low: 0.2, high: 0.4 }),
    }),
    { nil: undefined },
  ),
}) as fc.Arbitrary<FirstContactInput>;

describe('first contact never rises', () => {
  const falls = (before: FirstContactInput, after: FirstContactInput) => {
    const [a, b] = [firstContact(before), firstContact(after)];
    assert.ok((b.percent ?? 0) <= (a.percent ?? 0), `${a.sentence} -> ${b.sentence}`);
    assert.ok(b.sum_percent <= a.sum_percent);
  };
  it('with a longer stickout', () => {
    fc.assert(
      fc.property(anyInput, fc.double({ min: 0, max: 500, noNaN: true }), (input, more) =>
        falls(input, { ...input, stickout_mm: (input.stickout_mm ?? 0) + more }),
      ),
      { seed: 7, numRuns: 2000 },
    );
  });
  for (const [key, order] of Object.entries(worse)) {
    it(`with a worse ${key}`, () => {
      fc.assert(
        fc.property(anyInput, fc.nat(1), fc.nat(1), (input, from, by) => {
          const to = Math.min(2, from + by + 1);
          falls({ ...input, [key]: order[from] }, { ...input, [key]: order[to] });
        }),
        { seed: 7, numRuns: 2000 },
      );
    });
  }
  it('and stays within 50 to 70, on a step', () => {
    fc.assert(
      fc.property(anyInput, input => {
        const got = firstContact({ ...input, override_step: 10 });
        if (got.percent === undefined) assert.notEqual(got.why_not ?? '', '');
        else assert.ok([50, 60, 70].includes(got.percent), String(got.percent));
      }),
      { seed: 7, numRuns: 2000 },
    );
  });
});
