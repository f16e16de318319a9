import type { MillCycleContext, MillCycleWords } from '../../../../server/src/rs274/cycles/levels.ts';

/** One block of cycle mode with the moves it makes. */
export type Block = MillCycleWords & {
  readonly g99?: boolean;
  readonly g91?: boolean;
  readonly moves: string;
  readonly problems?: readonly string[];
  readonly assumed?: readonly string[];
};

/** Blocks run one after the other. */
export interface Case {
  readonly name: string;
  readonly start: readonly [number, number, number];
  readonly context?: Partial<MillCycleContext>;
  readonly blocks: readonly Block[];
}

// Worked out by hand from the rules of each cycle.
export const DRILL_CASES: readonly Case[] = [
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
];
