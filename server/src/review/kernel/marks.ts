/** The steps of a table that have to be looked at closely. */
import { boxX, boxY, boxZ } from '../../rs274/kernel/box.ts';
import { flagCycle, kindArc, kindFeed, kindRapid } from '../../rs274/kernel/kinds.ts';
import {
  arcAt,
  auxAt,
  boxAt,
  flagsAt,
  isUnknown,
  kindAt,
  planeOf,
  runAt,
  seenRun,
  setBox,
  xAt,
  yAt,
  zAt,
} from '../../rs274/kernel/memory.ts';

/** Points nearer than this are one: see scan-marks.ts. */
const same: f64 = 1e-6;
/** Cosine over which two directions run on smoothly, and under which they make a corner. */
const smooth: f64 = 0.999;
const corner: f64 = 0.5;
/** Ways shorter than this have no direction, mm. */
const noWay: f64 = 1e-6;

/**
 * The first step from `from` on that is more than a rapid, a feed move sideways in a run that was seen (on lathes: any off
 * the axis and outside cycles), or an arc that runs on or makes a corner either way; arcs at the ends of the table always.
 * The box follows the tool to where that step starts.
 */
export function nextToSee(from: i32, count: i32, lathe: bool): i32 {
  let x: f64 = boxAt(boxX);
  let y: f64 = boxAt(boxY);
  let z: f64 = boxAt(boxZ);
  let i: i32 = from;
  for (; i < count; i++) {
    const kind: i32 = kindAt(i);
    const nx: f64 = xAt(i);
    const ny: f64 = yAt(i);
    if (kind !== kindRapid) {
      const arc: bool = kind === kindArc;
      if (!arc && kind !== kindFeed) break;
      if (seenRun(runAt(i)) === 0) break;
      if (arc) {
        if (i < 2 || i === count - 1 || turnsBack(i, count)) break;
      } else if (lathe) {
        if (isUnknown(nx) || nx === 0 || (flagsAt(i) & flagCycle) !== 0) break;
      } else if (!(Math.abs(nx - x) + Math.abs(ny - y) > 2 * same)) break;
    }
    x = nx;
    y = ny;
    z = zAt(i);
  }
  setBox(boxX, x);
  setBox(boxY, y);
  setBox(boxZ, z);
  return i;
}

/**
 * Whether an arc makes a corner with the straight moves before and after it that would run on smoothly if it turned the
 * other way: about the same centre, or about the centre on the other side of its chord (as a radius word gives). Looks at
 * the two steps before and the one after; false where they do not stand in the table.
 */
export function turnsBack(i: i32, count: i32): bool {
  if (i < 2 || i + 1 >= count || kindAt(i - 1) !== kindFeed || kindAt(i + 1) !== kindFeed) return false;
  const plane: i32 = planeOf(runAt(i));
  const arc: i32 = auxAt(i);
  const centreA: f64 = arcAt(arc, 0);
  const centreB: f64 = arcAt(arc, 1);
  const sweep: f64 = arcAt(arc, 2);
  const way: f64 = sweep > 0 ? 1 : sweep < 0 ? -1 : 0;
  const startA: f64 = firstAxis(plane, i - 1);
  const startB: f64 = secondAxis(plane, i - 1);
  const endA: f64 = firstAxis(plane, i);
  const endB: f64 = secondAxis(plane, i);
  const beforeA: f64 = startA - firstAxis(plane, i - 2);
  const beforeB: f64 = startB - secondAxis(plane, i - 2);
  const before: f64 = Math.sqrt(beforeA * beforeA + beforeB * beforeB);
  const afterA: f64 = firstAxis(plane, i + 1) - endA;
  const afterB: f64 = secondAxis(plane, i + 1) - endB;
  const after: f64 = Math.sqrt(afterA * afterA + afterB * afterB);
  if (!(before > noWay && after > noWay)) return false;
  // Cosines between the arc's direction and the moves before and after it.
  const leavesA: f64 = -(startB - centreB) * way;
  const leavesB: f64 = (startA - centreA) * way;
  const leaves: f64 = Math.sqrt(leavesA * leavesA + leavesB * leavesB);
  const arrivesA: f64 = -(endB - centreB) * way;
  const arrivesB: f64 = (endA - centreA) * way;
  const arrives: f64 = Math.sqrt(arrivesA * arrivesA + arrivesB * arrivesB);
  if (!(leaves > noWay && arrives > noWay)) return false;
  const into: f64 = (beforeA * leavesA + beforeB * leavesB) / (before * leaves);
  const out: f64 = (afterA * arrivesA + afterB * arrivesB) / (after * arrives);
  if (into > smooth || out > smooth || (into > corner && out > corner)) return false;
  // The other way round about the same centre both are the opposite.
  if (-into > smooth && -out > smooth) return true;
  const mirrorA: f64 = startA + endA - centreA;
  const mirrorB: f64 = startB + endB - centreB;
  const otherA: f64 = (startB - mirrorB) * way;
  const otherB: f64 = -(startA - mirrorA) * way;
  const other: f64 = Math.sqrt(otherA * otherA + otherB * otherB);
  const farA: f64 = (endB - mirrorB) * way;
  const farB: f64 = -(endA - mirrorA) * way;
  const far: f64 = Math.sqrt(farA * farA + farB * farB);
  if (!(other > noWay && far > noWay)) return false;
  return (
    (beforeA * otherA + beforeB * otherB) / (before * other) > smooth &&
    (afterA * farA + afterB * farB) / (after * far) > smooth
  );
}

function firstAxis(plane: i32, i: i32): f64 {
  return plane === 17 ? xAt(i) : plane === 18 ? zAt(i) : yAt(i);
}

function secondAxis(plane: i32, i: i32): f64 {
  return plane === 17 ? yAt(i) : plane === 18 ? xAt(i) : zAt(i);
}
