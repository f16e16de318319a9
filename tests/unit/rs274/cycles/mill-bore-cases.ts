import type { Case } from './mill-cases.ts';

// Worked out by hand from the rules of each cycle.
export const BORE_CASES: readonly Case[] = [
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
