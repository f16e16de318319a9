import type { Crib, MachineKnown, SetupSheet } from '../setup/index.ts';
import type { Cuts, Program } from './program.ts';

/** What a person wrote beside the program, and how they want numbers shown. */
export interface Knowledge {
  sheet?: SetupSheet;
  /** Nearest first. */
  cribs?: readonly Crib[];
  machine?: MachineKnown;
  shown?: 'program' | 'inch' | 'mm';
  /** What the stock calculation gave; `now` works it out here. */
  cuts?: Cuts | 'now';
  /** Reads a program beside this one, with its own sheet. */
  before?: (name: string) => Program | undefined;
}
