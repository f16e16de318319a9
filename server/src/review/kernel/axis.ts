/** What the end points of moves say along one axis: the values one after another. */
import { kindTap } from '../../rs274/kernel/kinds.ts';
import { boxAt, kindAt, lineAt, setBox, unknown, xAt, yAt } from '../../rs274/kernel/memory.ts';
import { axisCount, axisHead, axisMost, axisOutlier, axisSecond, axisTail } from './box.ts';

/** Looks along X, or along Y where `second`, from the value that the first move starts at. */
export function lookAlong(second: bool, start: f64, steps: i32): void {
  let count: i32 = 0;
  let most: f64 = 0;
  let next: f64 = 0;
  let before: f64 = unknown;
  let beforeLine: i32 = -1;
  let value: f64 = unknown;
  let valueLine: i32 = -1;
  let last: f64 = start;
  setBox(axisOutlier + 4, 0);
  for (let i: i32 = 0; i < steps; i++) {
    const after: f64 = second ? yAt(i) : xAt(i);
    if (after === last) continue;
    last = after;
    if (kindAt(i) > kindTap) continue;
    const size: f64 = Math.abs(after);
    if (!(Math.abs(value) < 5 * size)) judge(before, value, after, valueLine);
    if (count < 2) {
      setBox(axisHead + 2 * count, after);
      setBox(axisHead + 2 * count + 1, lineAt(i));
    }
    before = value;
    beforeLine = valueLine;
    value = after;
    valueLine = lineAt(i);
    count++;
    if (size > most) {
      next = most;
      most = size;
    } else if (size > next && size < most) next = size;
  }
  setBox(axisCount, count);
  setBox(axisMost, most);
  setBox(axisSecond, next);
  setBox(axisTail, before);
  setBox(axisTail + 1, beforeLine);
  setBox(axisTail + 2, value);
  setBox(axisTail + 3, valueLine);
}

/** Keeps a value that stands far outside its neighbours when it lies farther out than the one kept. */
function judge(before: f64, value: f64, after: f64, line: i32): void {
  const factor: f64 = factorOf(before, value, after);
  if (factor === 0) return;
  if (boxAt(axisOutlier + 4) !== 0 && !(Math.abs(value) > Math.abs(boxAt(axisOutlier)))) return;
  setBox(axisOutlier, value);
  setBox(axisOutlier + 1, line);
  setBox(axisOutlier + 2, before);
  setBox(axisOutlier + 3, after);
  setBox(axisOutlier + 4, factor);
}

/** 10, 100 or 1000 where that part of a value stands between its neighbours and itself far outside; else 0. */
export function factorOf(before: f64, value: f64, after: f64): f64 {
  const far: f64 = 5 * Math.max(Math.abs(before), Math.abs(after));
  if (!(Math.abs(value) >= far) || before === after) return 0;
  const low: f64 = Math.min(before, after);
  const high: f64 = Math.max(before, after);
  for (let factor: f64 = 10; factor <= 1000; factor *= 10) {
    const meant: f64 = value / factor;
    if (meant >= low && meant <= high) return factor;
  }
  return 0;
}
