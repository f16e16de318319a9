import type { Program } from '../review/program.ts';

/** `mill, inch, iso6983`: how the program was read, in words that stand alone. */
export function settledWords(program: Program): string {
  const { settled } = program.reading;
  const kind = program.kind ?? 'mill or lathe not known';
  const units = settled.units.how === 'unknown' ? 'units not stated, read as mm' : settled.units.value;
  return `${kind}, ${units}, ${program.dialect}`;
}
