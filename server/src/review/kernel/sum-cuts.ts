/** Straight feed moves and arcs added up in one go: most of a long program. */
import { boxX, boxY, boxZ } from '../../rs274/kernel/box.ts';
import { flagCycle, kindArc, kindFeed } from '../../rs274/kernel/kinds.ts';
import {
  arcAt,
  auxAt,
  boxAt,
  flagsAt,
  isUnknown,
  kindAt,
  likeOf,
  lineAt,
  runAt,
  setBox,
  xAt,
  yAt,
  zAt,
} from '../../rs274/kernel/memory.ts';
import {
  sumBySurface,
  sumFirstLine,
  sumFlags,
  sumHigh,
  sumKinds,
  sumLastLine,
  sumLeastRadius,
  sumLeastTurn,
  sumLength,
  sumLow,
  sumMostRadius,
  sumNoY,
  sumPerRadius,
  sumPlane,
  sumPlunge,
  sumPlungeLine,
  sumTimed,
  sumTurns,
} from './box.ts';

const greatest: f64 = 1.7976931348623157e308;
/** Radii nearer than this are one. */
const sameRadius: f64 = 1e-9;

/**
 * Begins at step `from` with the tool where the box says, and gives the index of the first step that is anything else:
 * another run, an end that is not known (Y may be unknown throughout, as on lathes), no time.
 */
export function addCuts(from: i32, count: i32): i32 {
  const plane: f64 = boxAt(sumPlane);
  const bySurface: bool = boxAt(sumBySurface) !== 0;
  const noY: bool = boxAt(sumNoY) !== 0;
  const timed: bool = boxAt(sumTimed) !== 0;
  const own: i32 = likeOf(runAt(from));
  let x: f64 = boxAt(boxX);
  let y: f64 = boxAt(boxY);
  let z: f64 = boxAt(boxZ);
  let x0: f64 = boxAt(sumLow);
  let y0: f64 = boxAt(sumLow + 1);
  let z0: f64 = boxAt(sumLow + 2);
  let x1: f64 = boxAt(sumHigh);
  let y1: f64 = boxAt(sumHigh + 1);
  let z1: f64 = boxAt(sumHigh + 2);
  let length: f64 = 0;
  let turns: f64 = 0;
  let marks: i32 = 0;
  let plungeLine: i32 = -1;
  let plunge: f64 = 0;
  let kinds: i32 = 0;
  let first: i32 = lineAt(from);
  let last: i32 = first;
  let r0: f64 = Math.abs(x);
  let least: f64 = r0;
  let most: f64 = r0;
  let row: i32 = runAt(from);
  let i: i32 = from;
  for (; i < count; i++) {
    const run: i32 = runAt(i);
    if (run !== row) {
      if (likeOf(run) !== own) break;
      row = run;
    }
    const kind: i32 = kindAt(i);
    const nx: f64 = xAt(i);
    const ny: f64 = yAt(i);
    const nz: f64 = zAt(i);
    const dx: f64 = nx - x;
    // What becomes known is no way: the sum below is unknown then.
    const dy: f64 = noY && isUnknown(ny) ? 0 : ny - y;
    const dz: f64 = nz - z;
    let step: f64 = 0;
    if (kind === kindFeed) {
      step = Math.sqrt(dx * dx + dy * dy + dz * dz);
    } else if (kind === kindArc) {
      const arc: i32 = auxAt(i);
      const a: f64 = (plane === 17 ? nx : plane === 18 ? nz : ny) - arcAt(arc, 0);
      const b: f64 = (plane === 17 ? ny : plane === 18 ? nx : nz) - arcAt(arc, 1);
      const rise: f64 = plane === 17 ? dz : plane === 18 ? dy : dx;
      step = Math.sqrt(a * a + b * b) * Math.abs(arcAt(arc, 2));
      if (rise !== 0) step = Math.sqrt(step * step + rise * rise);
    } else break;
    // Written so that a coordinate that is not known fails it.
    if (!(step >= 0) || isUnknown(dx + dy + dz) || (step === 0 && timed)) break;
    const r1: f64 = Math.abs(nx);
    if (bySurface) {
      const minutes: f64 = step * turnBetween(r0, r1);
      if (!(minutes >= 0 && minutes <= greatest)) break;
      turns += minutes;
    }
    length += step;
    const line: i32 = lineAt(i);
    if (dx === 0 && dz < 0 && dy === 0 && kind === kindFeed && (flagsAt(i) & flagCycle) === 0) {
      if (plungeLine < 0) plungeLine = line;
      if (-dz > plunge) plunge = -dz;
    }
    if (line > last) last = line;
    if (line < first) first = line;
    marks |= flagsAt(i);
    kinds |= 1 << kind;
    if (r1 < least) least = r1;
    if (r1 > most) most = r1;
    // Written so that a bound that is not known yet gives way.
    if (!(x0 <= nx)) x0 = nx;
    if (!(x1 >= nx)) x1 = nx;
    if (!(y0 <= ny)) y0 = ny;
    if (!(y1 >= ny)) y1 = ny;
    if (!(z0 <= nz)) z0 = nz;
    if (!(z1 >= nz)) z1 = nz;
    x = nx;
    y = ny;
    z = nz;
    r0 = r1;
  }
  setBox(boxX, x);
  setBox(boxY, y);
  setBox(boxZ, z);
  setBox(sumLow, x0);
  setBox(sumLow + 1, y0);
  setBox(sumLow + 2, z0);
  setBox(sumHigh, x1);
  setBox(sumHigh + 1, y1);
  setBox(sumHigh + 2, z1);
  setBox(sumLeastRadius, least);
  setBox(sumMostRadius, most);
  setBox(sumLength, length);
  setBox(sumTurns, turns);
  setBox(sumFirstLine, first);
  setBox(sumLastLine, last);
  setBox(sumFlags, marks);
  setBox(sumKinds, kinds);
  setBox(sumPlungeLine, plungeLine);
  setBox(sumPlunge, plunge);
  return i;
}

/** Mean time of a revolution between two radii at constant surface speed, held at the clamp: as minutesUnderCss() has it. */
function turnBetween(r0: f64, r1: f64): f64 {
  const perRadius: f64 = boxAt(sumPerRadius);
  const leastTurn: f64 = boxAt(sumLeastTurn);
  if (!(leastTurn > 0)) return (perRadius * (r0 + r1)) / 2;
  const low: f64 = r0 < r1 ? r0 : r1;
  const high: f64 = r0 < r1 ? r1 : r0;
  const held: f64 = leastTurn / perRadius;
  if (high - low < sameRadius || held <= low) {
    const free: f64 = high - low < sameRadius ? perRadius * low : (perRadius * (low + high)) / 2;
    return free > leastTurn ? free : leastTurn;
  }
  if (held >= high) return leastTurn;
  const share: f64 = (held - low) / (high - low);
  return share * leastTurn + ((1 - share) * perRadius * (held + high)) / 2;
}
