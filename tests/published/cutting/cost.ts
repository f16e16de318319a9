import * as c from '../../../server/src/cutting/index.ts';
import type { Check } from './helpers.ts';
import { part, times } from './helpers.ts';

export const COST_CHECKS: readonly Check[] = [
  {
    id: 'tay-01',
    what: 'n from two tests',
    expected: 0.2233715128,
    published: 0.223,
    tolerance: { rel: 0.005 },
    sure: 'memory',
    source: 'Groover, Fundamentals of Modern Manufacturing, Taylor example',
    gives: () =>
      part(c.taylorFromTests({ speed_1_m_min: 160, life_1_min: 5, speed_2_m_min: 100, life_2_min: 41 }), 'n'),
  },
  {
    id: 'tay-02',
    what: 'C from two tests',
    expected: 229.2291699,
    published: 229,
    tolerance: { rel: 0.003 },
    sure: 'memory',
    source: 'Groover, Fundamentals of Modern Manufacturing, Taylor example',
    gives: () => c.taylorConstant({ surface_speed_m_min: 160, life_min: 5, n: 0.2234 }),
  },
  {
    id: 'tay-03',
    what: 'n from 180 m/min/4.25 min and 110 m/min/35 min',
    expected: 0.2335750773,
    published: 0.233,
    tolerance: { rel: 0.005 },
    sure: 'seen',
    source: 'textbook problem, answer seen in a published solution',
    gives: () =>
      part(
        c.taylorFromTests({ speed_1_m_min: 180, life_1_min: 4.25, speed_2_m_min: 110, life_2_min: 35 }),
        'n',
      ),
  },
  {
    id: 'tay-04',
    what: 'halving the speed with n = 0.25',
    expected: 16.0,
    published: 16,
    tolerance: { rel: 1e-12 },
    sure: 'seen',
    source: 'examination question (ISRO 2013 / IAS 1995), answer seen',
    gives: () => c.lifeFactor({ speed_ratio: 0.5, n: 0.25 }),
  },
  {
    id: 'tay-05',
    what: '50 mm bar: 284 rpm 10 min, 232 rpm 60 min',
    expected: 0.1128705443,
    published: 0.113,
    tolerance: { rel: 0.005 },
    sure: 'seen in part',
    source: 'examination question (ISRO 2011), question seen, answer from memory',
    gives: () =>
      part(
        c.taylorFromTests({
          speed_1_m_min: c.surfaceSpeed({ diameter_mm: 50, spindle_rpm: 284 }),
          life_1_min: 10,
          speed_2_m_min: c.surfaceSpeed({ diameter_mm: 50, spindle_rpm: 232 }),
          life_2_min: 60,
        }),
        'n',
      ),
  },
  {
    id: 'tay-06',
    what: 'n for wear criterion 0.75 mm: 100 m/min 20.4 min, 155 m/min 10 min',
    expected: 0.6147065699,
    published: 0.6147,
    tolerance: { rel: 0.003 },
    sure: 'seen in part',
    source:
      'Groover, Fundamentals of Modern Manufacturing, tool-life problem (question seen, answer from memory)',
    gives: () =>
      part(
        c.taylorFromTests({ speed_1_m_min: 155, life_1_min: 10, speed_2_m_min: 100, life_2_min: 20.4 }),
        'n',
      ),
  },
  {
    id: 'eco-01',
    what: 'speed for greatest output (HSS)',
    expected: 50.33059164,
    published: 50.3,
    tolerance: { rel: 0.003 },
    sure: 'memory',
    source: 'Groover, Fundamentals of Modern Manufacturing, machining economics example',
    gives: () => part(c.mostPartsSpeed({ c_m_min: 70, n: 0.125, tool_change_min: 2 }), 'surface_speed_m_min'),
  },
  {
    id: 'eco-02',
    what: 'speed for least cost (HSS)',
    expected: 42.32281408,
    published: 42.3,
    tolerance: { rel: 0.003 },
    sure: 'memory',
    source: 'Groover, Fundamentals of Modern Manufacturing, machining economics example',
    gives: () =>
      part(
        c.leastCostSpeed({
          c_m_min: 70,
          n: 0.125,
          tool_change_min: 2,
          machine_cost_per_min: 0.5,
          tool_cost: 3,
        }),
        'surface_speed_m_min',
      ),
  },
  {
    id: 'eco-03',
    what: 'least-cost speed by brute minimisation equals the formula',
    expected: 42.32281439,
    tolerance: { rel: 1e-5 },
    sure: 'identity',
    source: 'numeric minimum of the cost model',
    gives: () =>
      part(
        c.leastCostSpeed({
          c_m_min: 70,
          n: 0.125,
          tool_change_min: 2,
          machine_cost_per_min: 0.5,
          tool_cost: 3,
        }),
        'surface_speed_m_min',
      ),
  },
  {
    id: 'eco-04',
    what: 'least-cost tool life',
    expected: 53.48829431,
    tolerance: { rel: 1e-6 },
    sure: 'derived',
    source: 'textbook problem; formula T = (Tt + Ce/Cm)(1/n - 1) seen',
    gives: () =>
      part(
        c.leastCostSpeed({
          c_m_min: 70,
          n: 0.13,
          tool_change_min: 3,
          machine_cost_per_min: 0.667,
          tool_cost: 3.33,
        }),
        'life_min',
      ),
  },
  {
    id: 'eco-05',
    what: '10 % more speed with n = 0.125: life left',
    expected: 0.4665073802,
    tolerance: { rel: 0.001 },
    sure: 'identity',
    source: 'Taylor',
    gives: () => c.lifeFactor({ speed_ratio: 1.1, n: 0.125 }),
  },
  {
    id: 'eco-06',
    what: '6 h cut with 30 min of rapids, feed at 60 %',
    expected: 9.666666667,
    tolerance: { rel: 0.001 },
    sure: 'identity',
    source: 'only feed moves stretch',
    gives: () => times(c.timeAtOverride({ total_min: 360, fixed_min: 30, override_percent: 60 }), 1 / 60),
  },
];
