import { CUTTING_FAULTS } from './cutting.ts';
import type { Fault } from './fault.ts';
import { LANGUAGE_FAULTS } from './language.ts';
import { NUMBER_FAULTS } from './numbers.ts';
import { STATE_FAULTS } from './state.ts';

/** Every fault kind, by family. */
export const FAULTS: readonly Fault[] = [
  ...LANGUAGE_FAULTS,
  ...STATE_FAULTS,
  ...NUMBER_FAULTS,
  ...CUTTING_FAULTS,
];
