import assert from 'node:assert/strict';
import type { QuantityName, ShownUnits } from '../../../server/src/cutting/index.ts';
import * as c from '../../../server/src/cutting/index.ts';

/** Quantity, value, what a reader in millimetres and one in inches sees. */
const SHOWN: readonly (readonly [QuantityName, number, string, string])[] = [
  ['chip_load_mm', 0.0762, '0.076 mm/tooth', '0.0030 in/tooth'],
  ['chip_load_mm', 0.0003, '0.00030 mm/tooth', '0.000012 in/tooth'],
  ['chip_load_mm', 0, '0.000 mm/tooth', '0.0000 in/tooth'],
  ['feed_per_rev_mm', 0.2286, '0.229 mm/rev', '0.0090 in/rev'],
  ['surface_speed_m_min', 319.18581, '319 m/min', '1047 sfm'],
  ['surface_speed_m_min', 94.2478, '94.2 m/min', '309 sfm'],
  ['feed_mm_min', 1828.8, '1829 mm/min', '72 in/min'],
  ['feed_mm_min', 750, '750 mm/min', '29.53 in/min'],
  ['spindle_rpm', 8000, '8000 rev/min', '8000 rev/min'],
  ['spindle_rpm', 12_345, '12345 rev/min', '12345 rev/min'],
  ['power_kw', 1.566, '1.6 kW', '2.1 hp'],
  ['power_kw', 11, '11 kW', '15 hp'],
  ['force_n', 2366.08, '2400 N', '530 lbf'],
  ['force_n', 1.25, '1.3 N', '0.28 lbf'],
  ['torque_nm', 16.4, '16 N·m', '150 in·lbf'],
  ['removal_cm3_min', 29.4967, '29.5 cm³/min', '1.8 in³/min'],
  ['deflection_mm', 0.01796, '18 µm', '0.00071 in'],
  ['deflection_mm', 0.0762, '76 µm', '0.0030 in'],
  ['roughness_um', 6.25, '6.3 µm', '250 µin'],
  ['length_mm', 12.7, '12.7 mm', '0.5 in'],
  ['length_mm', -25.4, '-25.4 mm', '-1 in'],
  ['engagement_deg', 36.8699, '36.9°', '36.9°'],
  ['time_s', 83, '1 min 23 s', '1 min 23 s'],
  ['time_s', 0.354, '0.35 s', '0.35 s'],
  ['time_s', 9.96, '10 s', '10 s'],
  ['time_s', 59.6, '1 min 00 s', '1 min 00 s'],
  ['time_s', 3599.6, '1 h 00 min', '1 h 00 min'],
  ['time_s', 7500, '2 h 05 min', '2 h 05 min'],
  ['thread_percent', 75.44, '75 %', '75 %'],
  ['natural_frequency_hz', 2999.72, '3000 Hz', '3000 Hz'],
  ['cost', 12.5, '12.50', '12.50'],
];

describe('numbers as people read them', () => {
  for (const [name, value, metric, inch] of SHOWN) {
    it(`${name} ${value} reads ${metric} and ${inch}`, () => {
      assert.equal(c.formatQuantity(name, value, 'mm'), metric);
      assert.equal(c.formatQuantity(name, value, 'inch'), inch);
    });
  }

  it('writes an estimate as a range, an absence as its reason', () => {
    const power = { value: 1.3, low: 1.1, high: 1.6, basis: 'case' };
    assert.equal(c.formatQuantity('power_kw', power, 'mm'), 'about 1.1 to 1.6 kW');
    const narrow = { value: 1.3, low: 1.301, high: 1.302, basis: 'case' };
    assert.equal(c.formatQuantity('power_kw', narrow, 'mm'), 'about 1.3 kW');
    assert.equal(
      c.formatQuantity('power_kw', c.absent('teeth not known', ['teeth']), 'mm'),
      'teeth not known',
    );
    assert.equal(c.formatQuantity('power_kw', undefined, 'mm'), 'not known');
    assert.equal(c.formatQuantity('power_kw', Number.NaN, 'inch'), 'not known');
  });
});

const cut = { chip_load_mm: 0.0762, radial_width_mm: 1.27, diameter_mm: 12.7 };
/** Which unfolding, what it is given, the units, the text. */
const UNFOLDED: readonly (readonly [ShownUnits, () => string, string])[] = [
  [
    'inch',
    () => c.unfold('chip_load', { feed_mm_min: 1828.8, spindle_rpm: 8000, teeth: 3 }, 'inch'),
    'F 72 in/min ÷ (8000 rev/min × 3 teeth) = 0.0030 in/tooth',
  ],
  [
    'mm',
    () => c.unfold('chip_load', { feed_mm_min: 600, spindle_rpm: 8000, teeth: 1 }, 'mm'),
    'F 600 mm/min ÷ (8000 rev/min × 1 tooth) = 0.075 mm/tooth',
  ],
  [
    'mm',
    () => c.unfold('chip_load', { feed_mm_min: 600, spindle_rpm: 8000, teeth: undefined }, 'mm'),
    'chip load: needs teeth',
  ],
  [
    'inch',
    () => c.unfold('surface_speed', { diameter_mm: 12.7, spindle_rpm: 8000 }, 'inch'),
    'π × 0.5 in × 8000 rev/min ÷ 12 = 1047 sfm',
  ],
  [
    'mm',
    () => c.unfold('spindle_under_css', { surface_speed_m_min: 200, diameter_mm: 20, max_rpm: 2500 }, 'mm'),
    '200 m/min ÷ (π × 20 mm), held at the limit 2500 rev/min below 25.5 mm = 2500 rev/min',
  ],
  [
    'inch',
    () => c.unfold('chip_thickness', cut, 'inch'),
    '0.0030 in/tooth × 2√(q − q²), q = 0.05 in ÷ 0.5 in = 0.0018 in',
  ],
  [
    'mm',
    () => c.unfold('chip_thickness', { ...cut, radial_width_mm: 12.7 }, 'mm'),
    '0.076 mm/tooth (width of cut at least half the diameter: no thinning) = 0.076 mm',
  ],
  [
    'mm',
    () => c.unfold('engagement', { radial_width_mm: 14, diameter_mm: 12.7 }, 'mm'),
    'engagement angle: width of cut is more than the tool diameter',
  ],
  [
    'mm',
    () => c.unfold('time', { length_mm: 500, feed_mm_min: 360 }, 'mm'),
    '500 mm ÷ F 360 mm/min = 1 min 23 s',
  ],
  [
    'mm',
    () => c.unfold('roughness', { feed_per_rev_mm: 0.2, nose_radius_mm: 0.8 }, 'mm'),
    'r − √(r² − f²/4) with r 0.8 mm, f 0.200 mm/rev = 6.3 µm',
  ],
];

describe('formulas with their values in them', () => {
  for (const [units, unfolded, text] of UNFOLDED) {
    it(`${units}: ${text}`, () => assert.equal(unfolded(), text));
  }

  it('never show a number that is not there', () => {
    for (const name of Object.keys(c.UNFOLDINGS) as (keyof typeof c.UNFOLDINGS)[]) {
      const empty = c.unfold(name, {} as never, 'mm');
      assert.match(empty, /: needs /, name);
      assert.doesNotMatch(empty.replace('kc11', ''), /[0-9]|NaN|undefined/, name);
    }
  });
});
