import type { Crib, MachineKnown, SetupSheet } from '../setup/index.ts';
import type { Earlier } from './cuts/earlier.ts';
import type { Cuts } from './program.ts';

/** What a person wrote beside the program, and how they want numbers shown. */
export interface Knowledge {
  sheet?: SetupSheet;
  /** Nearest first. */
  cribs?: readonly Crib[];
  machine?: MachineKnown;
  shown?: 'program' | 'inch' | 'mm';
  /** What the stock calculation gave, or why it gave nothing; `now` works it out here. */
  cuts?: Cuts | { why: string } | 'now';
  /** Other programs that the stock starts from. */
  earlier?: Earlier;
}
