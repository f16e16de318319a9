/** Feed tables of handbooks: per tooth for mills, per revolution for drills, by class of material and band of diameter. */
import type { MillFeedClass } from '../material.ts';

type Band = readonly [low: number, high: number];

/** Upper ends of the diameter bands of `millFeed`, mm. */
export const millBands_mm: readonly Band[] = [
  [0, 3],
  [3, 6],
  [6, 10],
  [10, 16],
  [16, 25],
];

/**
 * Feed per tooth of end mills, mm, one range a band. Read at about half the diameter wide and up to one diameter deep, short rigid
 * tool, uncoated high-speed steel or coated carbide. Source: `textbooks` (from memory).
 */
export const millFeed: Readonly<Record<MillFeedClass, Partial<Record<'hss' | 'carbide', readonly Band[]>>>> =
  {
    free: {
      hss: [
        [0.005, 0.02],
        [0.015, 0.05],
        [0.03, 0.08],
        [0.05, 0.12],
        [0.08, 0.18],
      ],
      carbide: [
        [0.008, 0.025],
        [0.02, 0.06],
        [0.04, 0.09],
        [0.06, 0.13],
        [0.08, 0.18],
      ],
    },
    steel: {
      hss: [
        [0.004, 0.015],
        [0.012, 0.035],
        [0.025, 0.06],
        [0.04, 0.09],
        [0.06, 0.13],
      ],
      carbide: [
        [0.005, 0.02],
        [0.015, 0.045],
        [0.03, 0.07],
        [0.05, 0.1],
        [0.06, 0.14],
      ],
    },
    tough: {
      hss: [
        [0.003, 0.01],
        [0.01, 0.03],
        [0.02, 0.05],
        [0.03, 0.075],
        [0.05, 0.1],
      ],
      carbide: [
        [0.005, 0.015],
        [0.012, 0.035],
        [0.025, 0.06],
        [0.04, 0.085],
        [0.05, 0.11],
      ],
    },
    stainless: {
      hss: [
        [0.005, 0.012],
        [0.012, 0.03],
        [0.025, 0.05],
        [0.04, 0.08],
        [0.05, 0.11],
      ],
      carbide: [
        [0.006, 0.015],
        [0.015, 0.04],
        [0.03, 0.06],
        [0.04, 0.085],
        [0.05, 0.11],
      ],
    },
    iron: {
      hss: [
        [0.005, 0.015],
        [0.015, 0.045],
        [0.03, 0.08],
        [0.05, 0.12],
        [0.08, 0.18],
      ],
      carbide: [
        [0.006, 0.02],
        [0.02, 0.055],
        [0.04, 0.09],
        [0.06, 0.13],
        [0.08, 0.2],
      ],
    },
    alu: {
      hss: [
        [0.008, 0.025],
        [0.025, 0.07],
        [0.05, 0.11],
        [0.08, 0.16],
        [0.1, 0.22],
      ],
      carbide: [
        [0.01, 0.03],
        [0.03, 0.08],
        [0.06, 0.13],
        [0.09, 0.18],
        [0.12, 0.25],
      ],
    },
    heat: {
      hss: [
        [0.003, 0.008],
        [0.008, 0.02],
        [0.015, 0.035],
        [0.025, 0.055],
        [0.04, 0.08],
      ],
      carbide: [
        [0.004, 0.012],
        [0.012, 0.03],
        [0.02, 0.05],
        [0.035, 0.075],
        [0.05, 0.1],
      ],
    },
    ti: {
      hss: [
        [0.005, 0.01],
        [0.012, 0.03],
        [0.02, 0.05],
        [0.04, 0.08],
        [0.05, 0.1],
      ],
      carbide: [
        [0.006, 0.015],
        [0.015, 0.04],
        [0.03, 0.06],
        [0.045, 0.09],
        [0.06, 0.12],
      ],
    },
    hard: {
      carbide: [
        [0.002, 0.008],
        [0.006, 0.02],
        [0.012, 0.035],
        [0.02, 0.05],
        [0.03, 0.07],
      ],
    },
    plastic: {
      hss: [
        [0.02, 0.06],
        [0.05, 0.12],
        [0.08, 0.18],
        [0.1, 0.25],
        [0.15, 0.35],
      ],
      carbide: [
        [0.02, 0.06],
        [0.05, 0.12],
        [0.08, 0.2],
        [0.1, 0.25],
        [0.15, 0.35],
      ],
    },
  };

/** Diameter bands of `drillFeed`, mm. */
export const drillBands_mm: readonly Band[] = [
  [0, 3.2],
  [3.2, 6.4],
  [6.4, 12.7],
  [12.7, 25.4],
  [25.4, 50],
];

/**
 * Feed per revolution of drills, mm. The table is Machinery's Handbook's (up to 1/8 in .001-.003, to 1/4 .002-.006, to 1/2 .004-.010,
 * to 1 in .007-.015, over .010-.025 in/rev); the part of each range given to a class is an estimate.
 */
export const drillFeed: Readonly<Record<MillFeedClass, readonly Band[]>> = {
  free: [
    [0.05, 0.075],
    [0.1, 0.15],
    [0.175, 0.25],
    [0.28, 0.38],
    [0.445, 0.64],
  ],
  steel: [
    [0.037, 0.065],
    [0.075, 0.13],
    [0.138, 0.22],
    [0.23, 0.34],
    [0.348, 0.562],
  ],
  tough: [
    [0.03, 0.05],
    [0.06, 0.1],
    [0.115, 0.175],
    [0.2, 0.28],
    [0.289, 0.445],
  ],
  stainless: [
    [0.035, 0.053],
    [0.07, 0.105],
    [0.13, 0.182],
    [0.22, 0.29],
    [0.328, 0.465],
  ],
  iron: [
    [0.045, 0.075],
    [0.09, 0.15],
    [0.16, 0.25],
    [0.26, 0.38],
    [0.406, 0.64],
  ],
  alu: [
    [0.05, 0.075],
    [0.1, 0.15],
    [0.175, 0.25],
    [0.28, 0.38],
    [0.445, 0.64],
  ],
  heat: [
    [0.025, 0.045],
    [0.05, 0.09],
    [0.1, 0.16],
    [0.18, 0.26],
    [0.25, 0.406],
  ],
  ti: [
    [0.03, 0.05],
    [0.06, 0.1],
    [0.115, 0.175],
    [0.2, 0.28],
    [0.289, 0.445],
  ],
  hard: [
    [0.025, 0.037],
    [0.05, 0.075],
    [0.1, 0.138],
    [0.18, 0.23],
    [0.25, 0.348],
  ],
  plastic: [
    [0.045, 0.075],
    [0.09, 0.15],
    [0.16, 0.25],
    [0.26, 0.38],
    [0.406, 0.64],
  ],
};

/** Conventional drills in deep holes: share taken off speed and feed from that depth on. Source: `drill-guides`. */
export const deepHole: readonly {
  readonly depth_over_diameter: number;
  readonly speed: number;
  readonly feed: number;
}[] = [
  { depth_over_diameter: 3, speed: 0.9, feed: 0.9 },
  { depth_over_diameter: 4, speed: 0.8, feed: 0.9 },
  { depth_over_diameter: 5, speed: 0.7, feed: 0.8 },
  { depth_over_diameter: 6, speed: 0.625, feed: 0.8 },
];
