import * as c from '../../../server/src/cutting/index.ts';
import type { Check } from './helpers.ts';
import { inch, times } from './helpers.ts';

export const POWER_CHECKS: readonly Check[] = [
  {
    id: 'pow-01',
    what: 'turning power from specific energy',
    expected: 0.1810311351,
    published: 0.181,
    tolerance: { rel: 0.005 },
    sure: 'memory',
    source: 'Kalpakjian & Schmid, Manufacturing Engineering and Technology, turning example',
    gives: () =>
      c.motorPowerByUnitPower({
        unit_power_hp_in3_min: 1.47,
        removal_in3_min: 0.12315043202071989,
        efficiency: 1,
      }),
  },
  {
    id: 'pow-02',
    what: 'turning force from power',
    expected: 116.4039765,
    published: 118,
    tolerance: { rel: 0.02 },
    sure: 'memory',
    source:
      'Kalpakjian & Schmid, Manufacturing Engineering and Technology, turning example (T = 29 lb-in, Fc = 118 lb)',
    gives: () =>
      c.convert({
        value: c.forceFromPower({
          power_kw: c.convert({ value: 0.181, from: 'hp', to: 'kW' }),
          surface_speed_m_min: c.surfaceSpeed({ diameter_mm: inch(0.49), spindle_rpm: 400 }),
        }),
        from: 'N',
        to: 'lbf',
      }),
  },
  {
    id: 'pow-03',
    what: 'slab milling power',
    expected: 7.5,
    published: 7.5,
    tolerance: { rel: 1e-6 },
    sure: 'memory',
    source: 'Kalpakjian & Schmid, Manufacturing Engineering and Technology, slab-milling example',
    gives: () =>
      c.powerFromRemoval({
        removal_cm3_min: 150,
        specific_force_n_mm2: c.convert({ value: 3, from: 'W s/mm3', to: 'N/mm2' }),
      }),
  },
  {
    id: 'pow-04',
    what: 'slab milling torque',
    expected: 716.1972439,
    published: 716,
    tolerance: { rel: 0.001 },
    sure: 'memory',
    source: 'Kalpakjian & Schmid, Manufacturing Engineering and Technology, slab-milling example',
    gives: () => c.torqueFromPower({ power_kw: 7.5, spindle_rpm: 100 }),
  },
  {
    id: 'pow-05',
    what: 'drilling power',
    expected: 104.7166667,
    published: 105,
    tolerance: { rel: 0.005 },
    sure: 'memory',
    source: 'Kalpakjian & Schmid, Manufacturing Engineering and Technology, drilling example',
    gives: () =>
      times(
        c.powerFromRemoval({
          removal_cm3_min: 12.566,
          specific_force_n_mm2: c.convert({ value: 0.5, from: 'W s/mm3', to: 'N/mm2' }),
        }),
        1000,
      ),
  },
  {
    id: 'pow-06',
    what: 'drilling torque',
    expected: 1.253345177,
    published: 1.25,
    tolerance: { rel: 0.005 },
    sure: 'memory',
    source: 'Kalpakjian & Schmid, Manufacturing Engineering and Technology, drilling example',
    gives: () => c.torqueFromPower({ power_kw: 0.105, spindle_rpm: 800 }),
  },
  {
    id: 'pow-07',
    what: 'face milling power',
    expected: 1.98,
    published: 1.98,
    tolerance: { rel: 0.001 },
    sure: 'memory',
    source:
      'Kalpakjian & Schmid, Manufacturing Engineering and Technology, face-milling example (high-strength aluminium)',
    gives: () =>
      c.powerFromRemoval({
        removal_cm3_min: 108,
        specific_force_n_mm2: c.convert({ value: 1.1, from: 'W s/mm3', to: 'N/mm2' }),
      }),
  },
  {
    id: 'pow-08',
    what: 'orthogonal cut: power',
    expected: 2595.0,
    published: 2595,
    tolerance: { rel: 0.001 },
    sure: 'memory',
    source: 'Groover, Fundamentals of Modern Manufacturing, example 21.4',
    gives: () => times(c.powerFromForce({ force_n: 1557, surface_speed_m_min: 100 }), 1000),
  },
  {
    id: 'pow-10',
    what: 'unit power hp/(in3/min) to kW/(cm3/s)',
    expected: 2.238865588,
    published: 2.24,
    tolerance: { rel: 0.004 },
    sure: 'seen',
    source:
      "Machinery's Handbook (Industrial Press), 31st ed., p. 1147 Table 1b, plain carbon steel 180-200 HB (0.82 and 2.24 printed side by side)",
    gives: () => c.convert({ value: 0.82, from: 'hp/(in3/min)', to: 'kW/(cm3/s)' }),
  },
  {
    id: 'pow-11',
    what: 'unit power, alloy steel 280-300 HB',
    expected: 2.375381783,
    published: 2.38,
    tolerance: { rel: 0.004 },
    sure: 'seen',
    source: "Machinery's Handbook (Industrial Press), 31st ed., p. 1147 Table 1b",
    gives: () => c.convert({ value: 0.87, from: 'hp/(in3/min)', to: 'kW/(cm3/s)' }),
  },
  {
    id: 'pow-12',
    what: 'unit power, free-machining 100-120 HB',
    expected: 1.119432794,
    published: 1.12,
    tolerance: { rel: 0.004 },
    sure: 'seen',
    source: "Machinery's Handbook (Industrial Press), 31st ed., p. 1147 Table 1b",
    gives: () => c.convert({ value: 0.41, from: 'hp/(in3/min)', to: 'kW/(cm3/s)' }),
  },
  {
    id: 'pow-13',
    what: 'torque from power',
    expected: 95.49296586,
    tolerance: { rel: 0.001 },
    sure: 'identity',
    source: 'M = 30000 P/(pi n)',
    gives: () => c.torqueFromPower({ power_kw: 10, spindle_rpm: 1000 }),
  },
  {
    id: 'lath-03',
    what: 'edge length with nose: ap 2, LA 0, r 0.8, f 0.3',
    expected: 2.606637061,
    published: 2.607,
    tolerance: { rel: 0.001 },
    sure: 'memory',
    source: "Machinery's Handbook, equivalent chip thickness (formula from memory)",
    gives: () =>
      c.turningEdgeLength({
        axial_depth_mm: 2,
        feed_per_rev_mm: 0.3,
        nose_radius_mm: 0.8,
        edge_angle_deg: 90,
      }),
  },
  {
    id: 'mat-01',
    what: '1045 at 180-200 HB: unit power as specific force',
    expected: 2240.0,
    published: 2240,
    tolerance: { rel: 1e-9 },
    sure: 'seen',
    source: "Machinery's Handbook (Industrial Press), 31st ed., p. 1147 Table 1b",
    gives: () => c.convert({ value: 2.24, from: 'kW/(cm3/s)', to: 'N/mm2' }),
  },
];
