import type { Program } from './program.ts';

/** Box of the end points of all cutting moves, mm; axes that are never known are 0 wide at 0. Undefined when nothing cuts. */
export function extentsOf(program: Program): { min: number[]; max: number[] } | undefined {
  const min = [Number.NaN, Number.NaN, Number.NaN];
  const max = [Number.NaN, Number.NaN, Number.NaN];
  for (const part of program.parts) {
    for (const axis of [0, 1, 2] as const) {
      if (!(min[axis] <= part.low(axis)))
        min[axis] = Number.isNaN(part.low(axis)) ? min[axis] : part.low(axis);
      if (!(max[axis] >= part.high(axis)))
        max[axis] = Number.isNaN(part.high(axis)) ? max[axis] : part.high(axis);
    }
  }
  if (min.every(Number.isNaN)) return undefined;
  const known = (values: number[]) => values.map(value => (Number.isNaN(value) ? 0 : value));
  return { min: known(min), max: known(max) };
}
