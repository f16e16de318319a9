import type { Quantity } from './quantity.ts';

/** Quantities of holes and threads. */
export const HOLE_QUANTITIES = {
  point_length_mm: {
    title: 'point length',
    unit: 'mm',
    formula: 'D / (2 tan(sigma/2)); 118 degrees: 0.300 D, 140 degrees: 0.182 D',
    means: 'How much deeper a drill must go until its full diameter has the depth.',
    range: 'point angle between 0 and 180 degrees',
    source: 'geometry',
    format: 'length',
  },
  thread_percent: {
    title: 'percent of thread',
    unit: '%',
    formula: '100 (d - drill) / (1.299038 P), the convention of handbook tables',
    means: 'How much of the full thread height a tapped hole keeps.',
    range: '55 to 85 for cut taps (common practice, no source)',
    source: "Machinery's Handbook, 31st ed., p. 2155 (checked on its rows)",
    format: 'percent',
  },
  pitch_mm: {
    title: 'thread pitch',
    unit: 'mm',
    formula: 'P = 25.4 / threads per inch',
    means: 'Distance from thread to thread; times the starts it is the lead.',
    range: 'over 0',
    source: 'ISO 68-1',
    format: 'length',
  },
  tap_stress_n_mm2: {
    title: 'torsional stress in the tap',
    unit: 'N/mm2',
    formula: 'tau = 16 M / (pi d_root^3)',
    means: 'Twist in the root section of the tap; high-speed steel breaks at 800 to 1000.',
    range: 'under a third of the strength',
    source: 'torsion of a round bar; strengths from memory',
    format: 'stress',
  },
  engagement_teeth: {
    title: 'teeth in cut',
    unit: 'teeth',
    formula: 'ze = z (phi + psi) / 360',
    means: 'Mean number of teeth that cut at the same time.',
    range: '0 to z',
    source: 'Altintas, Manufacturing Automation, ch. 2',
    format: 'count',
  },
} as const satisfies Record<string, Quantity>;
