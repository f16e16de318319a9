import { type Block, L } from '../block.ts';
import type { Machine } from '../machine.ts';

/** Local parameter of each letter in the first form of macro arguments, A to Z; 0: not an argument. Common practice, no source. */
const FIRST_FORM = [1, 2, 3, 7, 8, 9, 0, 11, 4, 5, 6, 0, 13, 0, 0, 0, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26];
/** Letters whose numbers without a point count least increments where the control has them. */
const LENGTHS = new Set([L.A, L.B, L.C, L.I, L.J, L.K, L.Q, L.R, L.U, L.V, L.W, L.X, L.Y, L.Z].map(Number));

/**
 * Arguments of a macro call from the words after word `from`: local parameter number -> value. A second I, J or K makes
 * it the second form: triples of I J K from #4 on. A letter given twice: the last one counts.
 */
export function macroArguments(machine: Machine, block: Block, from: number): Map<number, number> {
  const args = new Map<number, number>();
  let triple = 0;
  let filled = -1;
  for (let at = from; at < block.count; at += 1) {
    const letter = block.letter[at];
    const value = LENGTHS.has(letter) ? machine.plain(block, at) : block.value[at];
    if (letter >= L.I && letter <= L.K) {
      const place = letter - L.I;
      if (place <= filled) triple += 1;
      filled = place;
      if (triple < 10) args.set(4 + triple * 3 + place, value);
      continue;
    }
    const number = FIRST_FORM[letter - L.A];
    if (number > 0) args.set(number, value);
  }
  return args;
}
