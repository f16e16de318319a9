import type { StretchWitness } from '../rs274/index.ts';
import { sumParts } from './program-parts.ts';
import { scanStretch } from './scan-program.ts';

/** Sums and scans each stretch right after it was read; a review does so for those that it was not there for. */
export const sumWhileReading: StretchWitness = (stretch, steps, kind) => {
  sumParts(stretch, steps);
  scanStretch(stretch, steps, kind === 'lathe');
};
