/** Arcs of plain lines. */
import { boxArcRoom, boxArcs, boxCap, boxFloor, boxPlane, boxRelative, boxValue } from './box.ts';
import { centres, letterI, letterJ, letterK, letterR } from './letters.ts';
import { atan2, boxAt, setArc, setBox, toInt, unknown } from './memory.ts';

export const noRoom: i32 = -2;
const samePoint: f64 = 1e-7;
const turn: f64 = 2 * Math.PI;

/**
 * Adds the arc between two points with the centre words in the box; its row, or -1 where the long way has to look at it:
 * words of another plane, ends that are not known or not on the circle; `noRoom` when the columns are full.
 */
export function addArc(letters: i32, motion: i32, x: f64, y: f64, z: f64, toX: f64, toY: f64, toZ: f64): i32 {
  const plane: f64 = boxAt(boxPlane);
  if (plane === 19) return -1;
  const flat: bool = plane === 17;
  const fromFirst: f64 = flat ? x : z;
  const fromSecond: f64 = flat ? y : x;
  const along: f64 = (flat ? toX : toZ) - fromFirst;
  const across: f64 = (flat ? toY : toX) - fromSecond;
  let a: f64 = 0;
  let b: f64 = 0;
  if ((letters & centres) === 1 << letterR) {
    const side: f64 = centreSide(along, across, motion);
    // Written so that what is not known fails it.
    if (!(Math.abs(side) <= 1.7976931348623157e308)) return -1;
    a = along / 2 - side * across;
    b = across / 2 + side * along;
  } else {
    const firstLetter: i32 = flat ? letterI : letterK;
    const secondLetter: i32 = flat ? letterJ : letterI;
    const both: i32 = (1 << firstLetter) | (1 << secondLetter);
    if ((letters & centres & ~both) !== 0 || (letters & both) === 0) return -1;
    if ((letters & (1 << firstLetter)) !== 0) a = boxAt(boxValue + firstLetter);
    if ((letters & (1 << secondLetter)) !== 0) b = boxAt(boxValue + secondLetter);
  }
  const centreFirst: f64 = fromFirst + a;
  const centreSecond: f64 = fromSecond + b;
  const endFirst: f64 = (flat ? toX : toZ) - centreFirst;
  const endSecond: f64 = (flat ? toY : toX) - centreSecond;
  const startRadius: f64 = Math.sqrt(a * a + b * b);
  const endRadius: f64 = Math.sqrt(endFirst * endFirst + endSecond * endSecond);
  const wide: f64 = boxAt(boxRelative) * Math.max(startRadius, endRadius);
  const allowed: f64 = Math.max(boxAt(boxFloor), Math.min(boxAt(boxCap), wide));
  const off: f64 = Math.abs(startRadius - endRadius);
  // Written so that a position that is not known fails it.
  if (!(off <= allowed && startRadius >= samePoint && endRadius >= samePoint)) return -1;
  const cross: f64 = -a * endSecond + b * endFirst;
  const dot: f64 = -a * endFirst - b * endSecond;
  const movedFirst: f64 = endFirst + a;
  const movedSecond: f64 = endSecond + b;
  const chord: f64 = movedFirst * movedFirst + movedSecond * movedSecond;
  let sweep: f64 = chord < samePoint * samePoint ? 0 : atan2(cross, dot);
  if (motion === 30) {
    if (sweep <= 0) sweep += turn;
  } else if (sweep >= 0) sweep -= turn;
  const row: i32 = toInt(boxAt(boxArcs));
  if (row >= toInt(boxAt(boxArcRoom))) return noRoom;
  setBox(boxArcs, row + 1);
  setArc(row, centreFirst, centreSecond, sweep);
  return row;
}

/** How far the centre of an arc with R lies left of its chord, in chords; NaN where there is no such arc or it is a close call. */
function centreSide(along: f64, across: f64, motion: i32): f64 {
  const word: f64 = boxAt(boxValue + letterR);
  const radius: f64 = Math.abs(word);
  const chord: f64 = Math.sqrt(along * along + across * across);
  const half: f64 = chord / 2;
  if (!(radius > half && chord >= samePoint && radius >= samePoint)) return unknown;
  const left: bool = (motion === 30) === word > 0;
  const away: f64 = Math.sqrt(radius * radius - half * half) / chord;
  return left ? away : -away;
}
