/** What plain lines tell about number form and units: see `evidence.ts` of the room, which looks at all others. */
import { boxCodes, boxFilled, boxLines, boxPointed, boxSeen } from './box.ts';
import { axes, blank, centres, letterG, letterN, lineEnd, spoils } from './letters.ts';
import { byteAt, classAt, digitsFrom, numberFrom, onesFrom, setBox } from './memory.ts';

/** Digits of a number that are taken at once. */
const mostDigits: i32 = 8;

let numberPointed: bool = false;
/** Value of a G word, 0 to 3. */
let numberCode: i32 = 0;

/**
 * Passes over lines from `start` as long as they hold nothing but words of G0 to G3 whose axis words have a point or are
 * zero; `limit` stands after a line end. Returns where it stopped. The box says what they hold.
 */
export function countLines(start: i32, limit: i32): i32 {
  let pos: i32 = start;
  let lines: i32 = 0;
  let filled: i32 = 0;
  let letters: i32 = 0;
  let withPoint: i32 = 0;
  let codes: i32 = 0;
  while (pos < limit) {
    let own: i32 = 0;
    let ownPointed: i32 = 0;
    let ownCodes: i32 = 0;
    let p: i32 = pos;
    let what: i32 = 0;
    while (true) {
      const c: i32 = byteAt(p);
      p++;
      what = classAt(c);
      if (what === blank) continue;
      if (what === lineEnd) {
        if (c === 13 && byteAt(p) === 10) p++;
        break;
      }
      const bit: i32 = 1 << what;
      if (what === 0 || (own & bit) !== 0) break;
      own |= bit;
      p = passNumber(p, what);
      if (p < 0) break;
      if (numberPointed) ownPointed |= bit;
      if (what === letterG) ownCodes |= 1 << numberCode;
    }
    if (what !== lineEnd || p < 0) break;
    lines++;
    pos = p;
    if (own === 0) continue;
    filled++;
    letters |= own;
    withPoint |= ownPointed;
    codes |= ownCodes;
  }
  setBox(boxLines, lines);
  setBox(boxFilled, filled);
  setBox(boxPointed, withPoint & (axes | centres));
  setBox(boxSeen, letters);
  setBox(boxCodes, codes);
  return pos;
}

/** Passes over the number of a letter; the position after it, or -1 where the long way must look. */
function passNumber(start: i32, what: i32): i32 {
  let p: i32 = start;
  let c: i32 = byteAt(p);
  if (c === 45 || c === 43) {
    if (what === letterG) return -1;
    p++;
  }
  const bits: i32 = digitsFrom(p);
  const whole: i32 = onesFrom(bits);
  if (whole > mostDigits) return -1;
  let end: i32 = p + whole;
  c = byteAt(end);
  if (c === 46) {
    const fraction: i32 = onesFrom(bits >> (whole + 1));
    if (what === letterG || what === letterN || fraction > mostDigits || whole + fraction === 0) return -1;
    end = end + fraction + 1;
    c = byteAt(end);
    numberPointed = true;
  } else {
    if (whole === 0) return -1;
    numberPointed = false;
    const isAxis: bool = ((1 << what) & (axes | centres)) !== 0;
    if (isAxis || what === letterG) {
      numberCode = numberFrom(p, whole);
      if (isAxis ? numberCode !== 0 : numberCode > 3) return -1;
    }
  }
  return spoils(c) ? -1 : end;
}
