/** The words of one plain line. */
import { boxFeedIsLength, boxIncrements, boxMostNumber, boxScale, boxShift, boxValue } from './box.ts';
import { blank, letterF, letterG, letterN, letterZ, lineEnd, spoils } from './letters.ts';
import {
  boxAt,
  byteAt,
  classAt,
  digitsFrom,
  numberFrom,
  onesFrom,
  powerOfTen,
  setBox,
  tens,
  toInt,
} from './memory.ts';

/** Digits that a 32-bit integer surely holds, and those before or after the point that are taken at once. */
const mostDigits: i32 = 9;
const mostWhole: i32 = 8;

/** Letters of the line read last, a bit each; its motion code times ten. */
export let seen: i32 = 0;
export let lineMotion: i32 = 0;
/** Letters of it whose number has a point; 1 when one of X Y Z without is not zero. */
export let pointed: i32 = 0;
export let unplain: i32 = 0;

/** Reads the words of the line at `start` into the box; the position after its end, or -1 where it is not plain. */
export function readWords(start: i32, motion: i32): i32 {
  let p: i32 = start;
  let letters: i32 = 0;
  let withPoint: i32 = 0;
  lineMotion = motion;
  unplain = 0;
  while (true) {
    const c: i32 = byteAt(p);
    p++;
    const what: i32 = classAt(c);
    if (what === blank) continue;
    if (what === lineEnd) {
      seen = letters;
      pointed = withPoint;
      return c === 13 && byteAt(p) === 10 ? p + 1 : p;
    }
    const bit: i32 = 1 << what;
    if (what === 0 || (letters & bit) !== 0) return -1;
    letters |= bit;
    p = readNumber(p, what);
    if (p < 0) return -1;
    if (pointRead) withPoint |= bit;
  }
}

/** The number read last has a point. */
let pointRead: bool = false;

/** Reads the number of a letter into the box; the position after it, or -1 where it is not plain. */
function readNumber(start: i32, what: i32): i32 {
  let p: i32 = start;
  let c: i32 = byteAt(p);
  let negative: bool = false;
  let signed: bool = false;
  if (c < 46) {
    while (c === 32) {
      p++;
      c = byteAt(p);
    }
    negative = c === 45;
    signed = negative || c === 43;
    if (signed) p++;
  }
  const bits: i32 = digitsFrom(p);
  const whole: i32 = onesFrom(bits);
  if (whole > mostWhole) return -1;
  const after: i32 = p + whole;
  c = byteAt(after);
  let value: f64 = 0;
  let digits: i32 = 0;
  let end: i32 = after;
  if (c === 46) {
    const fraction: i32 = onesFrom(bits >> (whole + 1));
    const length: i32 = whole + fraction;
    if (what === letterG || what === letterN || fraction > mostWhole || length > mostDigits || length === 0)
      return -1;
    digits = numberFrom(p, whole) * tens(fraction) + numberFrom(after + 1, fraction);
    end = after + fraction + 1;
    c = byteAt(end);
    value = negative ? -digits : digits;
    value = value / powerOfTen(fraction);
    pointRead = true;
  } else {
    if (whole === 0) return -1;
    digits = numberFrom(p, whole);
    pointRead = false;
    value = negative ? -digits : digits;
    if (what === letterG) {
      if (signed || digits > 3) return -1;
      lineMotion = digits * 10;
    } else {
      if (what === letterN && digits > toInt(boxAt(boxMostNumber))) return -1;
      if (what <= letterZ && digits !== 0) unplain = 1;
      const increments: f64 = boxAt(boxIncrements);
      if (increments !== 1) {
        if (what === letterF) {
          if (boxAt(boxFeedIsLength) !== 0) return -1;
        } else if (what !== letterN) value = value / increments;
      }
    }
  }
  if (spoils(c)) return -1;
  setBox(boxValue + what, value * boxAt(boxScale + what) + boxAt(boxShift + what));
  return end;
}
