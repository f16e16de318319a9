import assert from 'node:assert/strict';
import fc from 'fast-check';
import { decodeHolder } from '../../server/src/cutting/designation-holder.ts';
import { decodeInsert } from '../../server/src/cutting/designation-insert.ts';
import { isAbsent } from '../../server/src/cutting/result.ts';

type Known = number | undefined;
type InsertRow = readonly [
  text: string,
  corner: Known,
  clearance: number,
  circle: Known,
  edge: Known,
  thickness: Known,
  nose: Known,
];

/** Sizes as size charts of ISO 1832 and ANSI B212.4 list them: from memory. Lengths mm to two decimals. */
const inserts: readonly InsertRow[] = [
  ['CNMG120408', 80, 0, 12.7, 12.9, 4.76, 0.8],
  ['cnmg 12 04 08-xx', 80, 0, 12.7, 12.9, 4.76, 0.8],
  ['CNMG 432', 80, 0, 12.7, 12.9, 4.76, 0.79],
  ['CNMG 431', 80, 0, 12.7, 12.9, 4.76, 0.4],
  ['CNMG-432E', 80, 0, 12.7, 12.9, 4.76, 0.79],
  ['CCMT09T304', 80, 7, 9.525, 9.67, 3.97, 0.4],
  ['CCMT 32.51', 80, 7, 9.525, 9.67, 3.97, 0.4],
  ['CCMT 3(2.5)1', 80, 7, 9.525, 9.67, 3.97, 0.4],
  ['CCMT060204', 80, 7, 6.35, 6.45, 2.38, 0.4],
  ['CCMT 21.51', 80, 7, 6.35, 6.45, 2.38, 0.4],
  ['DCMT11T304', 55, 7, 9.525, 11.63, 3.97, 0.4],
  ['DNMG150608', 55, 0, 12.7, 15.5, 6.35, 0.8],
  ['VBMT160404', 35, 5, 9.525, 16.61, 4.76, 0.4],
  ['VNMG 331', 35, 0, 9.525, 16.61, 4.76, 0.4],
  ['WNMG080408', 80, 0, 12.7, 8.69, 4.76, 0.8],
  ['WNMG 432', 80, 0, 12.7, 8.69, 4.76, 0.79],
  ['TNMG160404', 60, 0, 9.525, 16.5, 4.76, 0.4],
  ['TCMT110202', 60, 7, 6.35, 11, 2.38, 0.2],
  ['TPUN 220412', 60, 11, 12.7, 22, 4.76, 1.2],
  ['SNMG120412', 90, 0, 12.7, 12.7, 4.76, 1.2],
  ['SEKN1203AFTN', 90, 20, 12.7, 12.7, 3.18, undefined],
  ['RCMT1204M0', undefined, 7, 12, 12, 4.76, 6],
  ['RNMG120400', undefined, 0, 12.7, 12.7, 4.76, 6.35],
  ['KNUX160405', 55, 0, undefined, 16, 4.76, 0.5],
];

/** KAPR by style letter: ISO 5608, from memory. */
const holders: readonly (readonly [
  text: string,
  kapr: Known,
  hand: string,
  shape: string,
  length: Known,
  carbide: boolean | undefined,
])[] = [
  ['PCLNR2525M12', 95, 'right', 'C', 150, undefined],
  ['pclnr 2525 m12', 95, 'right', 'C', 150, undefined],
  ['DDJNL2020K15', 93, 'left', 'D', 125, undefined],
  ['SVVBN2020K16', 72.5, 'neutral', 'V', 125, undefined],
  ['PSBNR2525M12', 75, 'right', 'S', 150, undefined],
  ['SSDCN1212F09', 45, 'neutral', 'S', 80, undefined],
  ['PTGNL2020K16', 90, 'left', 'T', 125, undefined],
  ['SVPBR2020K16', 117.5, 'right', 'V', 125, undefined],
  ['SVXBR2020K16', undefined, 'right', 'V', 125, undefined],
  ['S25T-SCLCR09', 95, 'right', 'C', 300, false],
  ['E12M-SCLCR06', 95, 'right', 'C', 150, true],
  ['MCLNR 16-4D', 95, 'right', 'C', undefined, undefined],
  ['MCLNR164D', 95, 'right', 'C', undefined, undefined],
];

const two = (value: unknown): Known =>
  typeof value === 'number' ? Math.round(value * 100) / 100 : undefined;

describe('insert designations', () => {
  for (const [text, corner, clearance, circle, edge, thickness, nose] of inserts) {
    it(text, () => {
      const got = decodeInsert(text);
      if (isAbsent(got)) return assert.fail(got.absent);
      const values = [
        got.corner_angle_deg,
        got.clearance_deg,
        got.inscribed_circle_mm,
        got.edge_length_mm,
        got.thickness_mm,
        got.nose_radius_mm,
      ];
      [corner, clearance, circle, edge, thickness, nose].forEach((expected, at) => {
        const value = values[at];
        if (expected === undefined) assert.ok(isAbsent(value));
        else
          assert.ok(
            typeof value === 'number' && Math.abs(value - expected) <= 0.0051,
            `${at}: ${value}, not ${expected}`,
          );
      });
    });
  }

  it('reads class and fixing', () => {
    const got = decodeInsert('CNMG120408');
    if (isAbsent(got)) return assert.fail(got.absent);
    assert.deepEqual(got.tolerance, {
      letter: 'M',
      circle: [0.05, 0.15],
      corner: [0.08, 0.2],
      thickness: 0.13,
    });
    assert.equal(got.fixing, 'hole, chip breaker on both sides');
    const chamfered = decodeInsert('SEKN1203AFTN');
    assert.ok(!isAbsent(chamfered) && chamfered.chamfer_edge_angle_deg === 45);
  });

  for (const text of [
    '',
    'CNMG',
    'XNMG120408',
    'CXMG120408',
    'CNXG120408',
    'CNMZ120408',
    '120408',
    'CNMG 1',
    'CNMG 12040',
    'ABCD 1234567',
    'constructor',
    '16ER 1.5 ISO',
  ]) {
    it(`does not read ${text === '' ? 'nothing' : text}`, () => assert.ok(isAbsent(decodeInsert(text))));
  }
});

describe('holder designations', () => {
  for (const [text, kapr, hand, shape, length, carbide] of holders) {
    it(text, () => {
      const got = decodeHolder(text);
      if (isAbsent(got)) return assert.fail(got.absent);
      assert.deepEqual(
        [two(got.edge_angle_deg), got.hand, got.insert_shape.letter, got.length_mm, got.bar?.carbide],
        [kapr, hand, shape, length, carbide],
      );
    });
  }
  for (const text of [
    '',
    'PCLNR',
    'QCLNR2525M12',
    'PXLNR2525M12',
    'PCLXR2525M12',
    'CNMG120408',
    'T25T-SCLCR09',
  ]) {
    it(`does not read ${text === '' ? 'nothing' : text}`, () => assert.ok(isAbsent(decodeHolder(text))));
  }
});

describe('any text as a designation', () => {
  it('gives finite numbers or an absence', () => {
    const piece = fc.constantFrom(
      ...'CDSTVWRKNMGUPXAEFBL0123456789.()- '.split(''),
      'T3',
      '12',
      '04',
      '08',
      'M0',
      '2.5',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(piece, { maxLength: 14 }).map(parts => parts.join('')),
        ),
        text => {
          for (const facts of [decodeInsert(text), decodeHolder(text)]) {
            for (const value of Object.values(facts)) {
              if (typeof value === 'number')
                assert.ok(Number.isFinite(value) && value >= 0, `${text}: ${value}`);
            }
          }
        },
      ),
      { seed: 7, numRuns: 5000 },
    );
  });
});
