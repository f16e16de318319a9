import assert from 'node:assert/strict';
import fc from 'fast-check';
import { isAbsent } from '../../../server/src/cutting/result.ts';
import type { WindowRange, WindowRequest } from '../../../server/src/materials/index.ts';
import {
  builtInMaterials,
  findMaterial,
  judge,
  toolKinds,
  windowFor,
} from '../../../server/src/materials/index.ts';

function material(name: string) {
  const found = findMaterial(name);
  assert.equal(found.kind, 'found', name);
  if (found.kind !== 'found') throw new Error(name);
  return found.material;
}

type Quantity = 'chip_load_mm' | 'feed_per_rev_mm' | 'surface_speed_m_min';

function range(request: WindowRequest, quantity: Quantity): WindowRange {
  const window = windowFor(request);
  if (isAbsent(window)) throw new Error(window.absent);
  const got = window[quantity];
  if (isAbsent(got)) throw new Error(got.absent);
  return got;
}

const mm = (value: number) => Number(value.toFixed(6));

type Row = readonly [title: string, request: WindowRequest, quantity: Quantity, low: number, high: number];

/** Figures of the tables as printed or recalled; the source of each stands beside it in the data files. */
const rows: readonly Row[] = [
  [
    '6061, 1/2 in carbide end mill',
    { material: material('6061'), kind: 'end-mill', substrate: 'carbide', diameter_mm: 12.7 },
    'chip_load_mm',
    0.09,
    0.18,
  ],
  [
    '6061, 1/2 in carbide end mill',
    { material: material('6061'), kind: 'end-mill', substrate: 'carbide', diameter_mm: 12.7 },
    'surface_speed_m_min',
    250,
    800,
  ],
  [
    '6061, 3-flute, per revolution',
    { material: material('6061'), kind: 'end-mill', substrate: 'carbide', diameter_mm: 12.7, teeth: 3 },
    'feed_per_rev_mm',
    0.27,
    0.54,
  ],
  [
    '6061, tool material unknown: span of both',
    { material: material('6061'), kind: 'end-mill', diameter_mm: 12.7 },
    'chip_load_mm',
    0.08,
    0.18,
  ],
  [
    '6061, tool material unknown: span of both',
    { material: material('6061'), kind: 'end-mill', diameter_mm: 12.7 },
    'surface_speed_m_min',
    100,
    800,
  ],
  [
    'C45, 10 mm hss end mill is in the 6 to 10 band',
    { material: material('C45'), kind: 'end-mill', substrate: 'hss', diameter_mm: 10 },
    'chip_load_mm',
    0.025,
    0.06,
  ],
  [
    'C45 hss milling',
    { material: material('C45'), kind: 'end-mill', substrate: 'hss', diameter_mm: 10 },
    'surface_speed_m_min',
    21,
    30,
  ],
  [
    '304 carbide milling',
    { material: material('304'), kind: 'end-mill', substrate: 'carbide', diameter_mm: 12 },
    'surface_speed_m_min',
    60,
    125,
  ],
  [
    '304, 12 mm carbide',
    { material: material('304'), kind: 'end-mill', substrate: 'carbide', diameter_mm: 12 },
    'chip_load_mm',
    0.04,
    0.085,
  ],
  [
    'grey iron carbide milling',
    { material: material('GG25'), kind: 'end-mill', substrate: 'carbide', diameter_mm: 16 },
    'surface_speed_m_min',
    90,
    150,
  ],
  [
    'C45, 10 mm hss drill per revolution',
    { material: material('C45'), kind: 'drill', substrate: 'hss', diameter_mm: 10 },
    'feed_per_rev_mm',
    0.138,
    0.22,
  ],
  [
    'C45, 10 mm hss drill per lip',
    { material: material('C45'), kind: 'drill', substrate: 'hss', diameter_mm: 10 },
    'chip_load_mm',
    0.069,
    0.11,
  ],
  [
    'C45, hss drill 5 x D deep, feed less 20 %',
    { material: material('C45'), kind: 'drill', substrate: 'hss', diameter_mm: 10, hole_depth_mm: 50 },
    'feed_per_rev_mm',
    0.1104,
    0.176,
  ],
  [
    'C45, hss drill 5 x D deep, speed less 30 %',
    { material: material('C45'), kind: 'drill', substrate: 'hss', diameter_mm: 10, hole_depth_mm: 50 },
    'surface_speed_m_min',
    12.6,
    18.9,
  ],
  [
    'C45 hss reamer speed',
    { material: material('C45'), kind: 'reamer', substrate: 'hss', diameter_mm: 10 },
    'surface_speed_m_min',
    9,
    18.9,
  ],
  [
    '6061 hss reamer runs at drilling speed',
    { material: material('6061'), kind: 'reamer', substrate: 'hss', diameter_mm: 10 },
    'surface_speed_m_min',
    107,
    122,
  ],
  [
    'C45 tap',
    { material: material('C45'), kind: 'tap', substrate: 'hss', diameter_mm: 6 },
    'surface_speed_m_min',
    8,
    15,
  ],
  [
    'C45 turning, carbide',
    { material: material('C45'), kind: 'turn', substrate: 'carbide' },
    'surface_speed_m_min',
    120,
    220,
  ],
  [
    'C45 turning, nose 0.4 caps the feed',
    { material: material('C45'), kind: 'turn', substrate: 'carbide', nose_radius_mm: 0.4 },
    'feed_per_rev_mm',
    0.05,
    0.32,
  ],
  [
    'C45 parting, 3 mm blade',
    { material: material('C45'), kind: 'part-off', substrate: 'carbide', width_mm: 3 },
    'feed_per_rev_mm',
    0.06,
    0.15,
  ],
  [
    '304 bar 4.5 x D, weak grip, dull',
    {
      material: material('304'),
      kind: 'end-mill',
      substrate: 'carbide',
      diameter_mm: 12,
      setup: { stickout_mm: 54, grip: 'weak', wear: 'dull' },
    },
    'chip_load_mm',
    0.04,
    0.0408,
  ],
  [
    'runout 0.01 comes off the high end',
    {
      material: material('6061'),
      kind: 'end-mill',
      substrate: 'carbide',
      diameter_mm: 12.7,
      setup: { runout_mm: 0.01 },
    },
    'chip_load_mm',
    0.09,
    0.17,
  ],
  [
    '10 % radial width allows 1/0.6 more',
    { material: material('C45'), kind: 'end-mill', substrate: 'carbide', diameter_mm: 12, radial_share: 0.1 },
    'chip_load_mm',
    0.05,
    0.166667,
  ],
  [
    'maker before handbook',
    {
      material: material('C45'),
      kind: 'end-mill',
      substrate: 'carbide',
      diameter_mm: 12,
      maker: { chip_load_mm: [0.06, 0.08], source: 'catalogue p. 12' },
    },
    'chip_load_mm',
    0.06,
    0.08,
  ],
  [
    'proven before maker, not narrowed',
    {
      material: material('C45'),
      kind: 'end-mill',
      substrate: 'carbide',
      diameter_mm: 12,
      setup: { grip: 'weak' },
      maker: { chip_load_mm: [0.06, 0.08], source: 'catalogue p. 12' },
      proven: { chip_load_mm: [0.05, 0.07], source: 'record of 2024-05-02' },
    },
    'chip_load_mm',
    0.05,
    0.07,
  ],
  [
    'maker without a material',
    { kind: 'end-mill', maker: { surface_speed_m_min: [90, 120], source: 'catalogue p. 12' } },
    'surface_speed_m_min',
    90,
    120,
  ],
];

describe('window', () => {
  for (const [title, request, quantity, low, high] of rows) {
    it(`${title}: ${quantity} ${low} to ${high}`, () => {
      const got = range(request, quantity);
      assert.deepEqual([mm(got.low), mm(got.high)], [low, high]);
      assert.notEqual(got.source, '');
    });
  }

  it('names its source, basis and steps', () => {
    const got = range(
      {
        material: material('304'),
        kind: 'end-mill',
        diameter_mm: 12,
        setup: { stickout_mm: 54, grip: 'fair' },
      },
      'chip_load_mm',
    );
    assert.equal(got.basis, 'handbook');
    assert.match(got.source, /textbook/);
    assert.deepEqual(got.notes, ['tool material not stated']);
    assert.deepEqual(
      got.steps.map(step => [step.why, step.factor]),
      [
        ['stickout 4.5 x D (common practice, no source)', 0.8],
        ['grip fair (common practice, no source)', 0.9],
      ],
    );
  });

  const nothing: readonly (readonly [string, WindowRequest, RegExp, readonly string[] | undefined])[] = [
    ['probe', { kind: 'probe', material: material('C45') }, /does not cut/, undefined],
    ['no material', { kind: 'end-mill', diameter_mm: 10 }, /material not known/, ['material']],
    ['other', { kind: 'other', material: material('C45'), diameter_mm: 10 }, /kind of tool/, ['kind']],
    ['ceramic', { kind: 'turn', substrate: 'ceramic', material: material('718') }, /no handbook/, ['maker']],
  ];
  for (const [title, request, why, missing] of nothing) {
    it(`is absent: ${title}`, () => {
      const got = windowFor(request);
      assert.ok(isAbsent(got));
      assert.match(got.absent, why);
      assert.deepEqual(got.missing, missing);
    });
  }

  it('knows a speed but no feed without the diameter', () => {
    const got = windowFor({ kind: 'end-mill', material: material('C45') });
    assert.ok(!isAbsent(got) && !isAbsent(got.surface_speed_m_min) && isAbsent(got.chip_load_mm));
    assert.deepEqual(got.chip_load_mm.missing, ['diameter_mm']);
  });
});

describe('judge', () => {
  const window = { low: 0.04, high: 0.1 };
  const answers: readonly (readonly [number, string])[] = [
    [0.04, 'inside'],
    [0.1, 'inside'],
    [0.0399, 'below'],
    [0.02, 'below'],
    [0.0199, 'far-below'],
    [0, 'far-below'],
    [0.1001, 'above'],
    [0.13, 'above'],
    [0.1301, 'far-above'],
    [0.1 + 1e-9, 'inside'],
    [Number.NaN, 'unknown'],
    [Number.POSITIVE_INFINITY, 'unknown'],
  ];
  for (const [value, expected] of answers)
    it(`${value} is ${expected}`, () => assert.equal(judge(value, window), expected));
});

const anyRequest = fc.record({
  material: fc.constantFrom(...builtInMaterials),
  kind: fc.constantFrom(...toolKinds),
  substrate: fc.constantFrom('hss', 'carbide', 'ceramic', 'cbn', 'diamond', undefined),
  diameter_mm: fc.double({ min: 0.05, max: 300, noNaN: true }),
  teeth: fc.constantFrom(1, 2, 3, 6, undefined),
  nose_radius_mm: fc.constantFrom(0.1, 0.4, 1.2, undefined),
  width_mm: fc.constantFrom(1, 3, 6, undefined),
  hole_depth_mm: fc.constantFrom(5, 60, undefined),
  radial_share: fc.constantFrom(0.001, 0.2, 1, undefined),
}) as fc.Arbitrary<WindowRequest>;

describe('every window', () => {
  it('is in order, finite, sourced, and only narrowed by a worse setup', () => {
    fc.assert(
      fc.property(
        anyRequest,
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (request, stickout_mm, runout_mm) => {
          const plain = windowFor(request);
          const worse = windowFor({
            ...request,
            setup: { stickout_mm, runout_mm, grip: 'weak', wear: 'dull' },
          });
          if (isAbsent(plain) || isAbsent(worse)) return assert.equal(isAbsent(plain), isAbsent(worse));
          for (const quantity of ['chip_load_mm', 'feed_per_rev_mm', 'surface_speed_m_min'] as const) {
            const [a, b] = [plain[quantity], worse[quantity]];
            if (isAbsent(a) || isAbsent(b)) return assert.equal(isAbsent(a), isAbsent(b));
            assert.ok(a.low > 0 && a.low <= a.high && Number.isFinite(a.high));
            assert.ok(b.low === a.low && b.low <= b.high && b.high <= a.high);
            assert.notEqual(a.source, '');
          }
        },
      ),
      { seed: 7, numRuns: 3000 },
    );
  });
});
