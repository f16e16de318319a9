/** What plain lines tell about number form and units: see `evidence.ts` of the room, which counts all others. */
import { boxCodes, boxFilled, boxLines, boxPointed, boxSeen, boxTally } from './box.ts';
import { axes, centres, letterG, letterR } from './letters.ts';
import { boxAt, setBox } from './memory.ts';
import { lineMotion, pointed, readWords, seen, unplain } from './word.ts';

/**
 * Counts lines from `start` as long as they hold nothing but words of G0 to G3 whose axis words have a point or are zero;
 * `limit` stands after a line end. Returns where it stopped. What it counts is added to the box.
 */
export function countLines(start: i32, limit: i32): i32 {
  let pos: i32 = start;
  let lines: i32 = 0;
  let filled: i32 = 0;
  let points: i32 = 0;
  let letters: i32 = 0;
  while (pos < limit) {
    const end: i32 = readWords(pos, -1);
    if (end < 0 || unplain !== 0 || lineMotion > 30 || (seen & centres & ~pointed) !== 0) break;
    lines++;
    pos = end;
    if (seen === 0) continue;
    filled++;
    letters |= seen;
    const withPoint: i32 = pointed & (axes | centres);
    for (let what = letterG; what <= letterR; what++) {
      if (((seen >> what) & 1) !== 0) setBox(boxTally + what, boxAt(boxTally + what) + 1);
      points += (withPoint >> what) & 1;
    }
    if (lineMotion >= 0) {
      const code: i32 = boxCodes + lineMotion / 10;
      setBox(code, boxAt(code) + 1);
    }
  }
  setBox(boxLines, lines);
  setBox(boxFilled, filled);
  setBox(boxPointed, points);
  setBox(boxSeen, letters);
  return pos;
}
