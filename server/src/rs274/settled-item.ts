import type { Dialect, MachineKind } from './codes/shape.ts';

/** A value that the program may not state, how it was settled, and why in words. */
export interface Item<T> {
  value: T;
  how: How;
  why: string;
}

/** How a reading was settled, best first. */
export type How = 'given' | 'stated' | 'only-fit' | 'likely' | 'unknown';

/** What is known from outside: setup sheet, machine or command line. */
export interface Hints {
  dialect?: Dialect;
  kind?: MachineKind;
  units?: 'mm' | 'inch';
  /** Least increment of words without a point, mm; 0 or null: such words are whole units. */
  least_increment_mm?: number | null;
  least_increment_inch?: number | null;
  dwell?: 's' | 'ms';
  /** X words of a lathe are diameters. */
  diameter?: boolean;
}
