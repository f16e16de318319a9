import assert from 'node:assert/strict';
import { isAbsent } from '../../server/src/cutting/result.ts';
import type { ToolKind } from '../../server/src/materials/index.ts';
import { findMaterial, windowFor } from '../../server/src/materials/index.ts';

function material(name: string) {
  const found = findMaterial(name);
  if (found.kind !== 'found') throw new Error(found.why);
  return found.material;
}

/** Machinery's Handbook, speed tables for high-speed steel, ft/min: rows as printed. */
const speeds: readonly (readonly [name: string, kind: ToolKind, ft_min: number])[] = [
  ['1018', 'drill', 100],
  ['1018', 'reamer', 65],
  ['304', 'drill', 55],
  ['304', 'reamer', 35],
  ['GG20', 'drill', 80],
  ['GG20', 'reamer', 55],
  ['6061', 'drill', 400],
  ['6061', 'reamer', 400],
];

/** Machinery's Handbook, 31st ed., p. 1147: unit power at 0.012 in (0.305 mm), kW per cm3/s = 1000 N/mm2. */
const unitPower: readonly (readonly [name: string, kp: number])[] = [
  ['C45', 2.24],
  ['1018', 1.88],
  ['1215', 1.2],
  ['4140 annealed', 1.97],
  ['4140 HT', 2.38],
];

/** Carvill, Mechanical Engineer's Data Handbook: energy for milling, W s/mm3 = 1000 N/mm2, taken at a mean chip of 0.1 mm. */
const energy: readonly (readonly [name: string, w_s_mm3: number])[] = [
  ['6061', 0.9],
  ['C36000', 1.6],
  ['GG25', 1.9],
  ['1018', 2.7],
];

/** Machinery's Handbook, general table of drill feeds, in/rev: least and most up to each diameter. */
const drillFeeds: readonly (readonly [diameter_in: number, low: number, high: number])[] = [
  [1 / 8, 0.001, 0.003],
  [1 / 4, 0.002, 0.006],
  [1 / 2, 0.004, 0.01],
  [1, 0.007, 0.015],
  [1.5, 0.01, 0.025],
];

describe('windows against printed speeds', () => {
  for (const [name, kind, ft_min] of speeds) {
    it(`${name} ${kind} ${ft_min} ft/min`, () => {
      const window = windowFor({ material: material(name), kind, substrate: 'hss', diameter_mm: 10 });
      assert.ok(!isAbsent(window) && !isAbsent(window.surface_speed_m_min));
      const printed = ft_min * 0.3048;
      const { low, high } = window.surface_speed_m_min;
      assert.ok(printed >= low * 0.97 && printed <= high * 1.03, `${printed} is not in ${low} to ${high}`);
    });
  }
});

describe('drill feeds stay inside the printed table', () => {
  for (const [diameter_in, low, high] of drillFeeds) {
    it(`${diameter_in} in`, () => {
      for (const name of ['1018', '6061', '304', 'GG25', 'Ti-6Al-4V', 'Alloy 718', 'POM']) {
        const window = windowFor({
          material: material(name),
          kind: 'drill',
          substrate: 'hss',
          diameter_mm: diameter_in * 25.4,
        });
        assert.ok(!isAbsent(window) && !isAbsent(window.feed_per_rev_mm));
        const feed = window.feed_per_rev_mm;
        assert.ok(
          feed.low >= low * 25.4 * 0.97 && feed.high <= high * 25.4 * 1.03,
          `${name}: ${feed.low} to ${feed.high}`,
        );
      }
    });
  }
});

describe('specific force against printed power, within a factor of 1.5', () => {
  const near = (name: string, h_mm: number, printed: number) => {
    const { kc11_n_mm2: kc, mc } = material(name);
    assert.ok(kc && mc);
    const ratio = (kc.value * h_mm ** -mc.value) / (1000 * printed);
    assert.ok(ratio > 1 / 1.5 && ratio < 1.5, `${name}: ratio ${ratio.toFixed(2)}`);
  };
  for (const [name, kp] of unitPower) it(`${name} turning ${kp}`, () => near(name, 0.305, kp));
  for (const [name, w_s_mm3] of energy) it(`${name} milling ${w_s_mm3}`, () => near(name, 0.1, w_s_mm3));
});
