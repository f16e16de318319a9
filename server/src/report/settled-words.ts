import type { Program } from '../review/program.ts';

/** `mill, inch, iso6983`: how the program was read, in words that stand alone. */
export function settledWords(program: Program): string {
  const { settled } = program.reading;
  const kind = program.kind ?? 'machine not known';
  const units = settled.units.value ?? 'units not stated';
  return `${kind}, ${units}, ${program.dialect}`;
}
