/** What stands in a cell, and cutting it: see `Tile` for what its three numbers mean. */
import { floorAt, roundInt, setFloor, setSide, setTop, sideAt, topAt } from './memory.ts';

/** Units of height in a millimetre. */
export const heightUnits: f64 = 4_096;
/** Units of `side` in a cell. */
export const sideUnits: i32 = 16_384;
/** A cell's floor over its top where a round or pointed tool cut all of it: it stands at one height, that of its centre. */
export const roundCut: i32 = 1;
/**
 * The same over the level metal beside a groove whose rim runs through the cell: `top` is the height of the centre, `side` by how many units the
 * mean lies lower.
 */
export const besideRim: i32 = 2;
const sameHeight: i32 = 2;
const sameSide: i32 = 16;
const half: i32 = 8_192;

/** Share of a cell on the cut side of a wall at `side`, in units of 1/16384. */
function cutShare(side: i32): i32 {
  return side >= half ? 0 : side <= -half ? sideUnits : half - side;
}

/** Mean height that is missing from a cell whose wall is `height` high and stands at `side`, in units. */
export function cutHeight(height: i32, side: i32): i32 {
  const cut: f64 = cutShare(side);
  return roundInt(height * cut * 0.00006103515625);
}

/** Mean height of a cell, in units. */
export function cellHeight(floor: i32, top: i32, side: i32): i32 {
  if (floor === top) return floor;
  if (floor > top) return floor === top + roundCut ? top : top - side;
  return top - cutHeight(top - floor, side);
}

/**
 * Cuts cell `at` down to `z` on the side of a wall at `side` (-16384 and less: the whole cell). Returns the mean height that was
 * removed, an exact difference of what the cell held before and after. Of three heights in one cell two become
 * one at equal volume.
 */
export function mergeCell(at: i32, z: i32, side: i32): i32 {
  let top: i32 = topAt(at);
  if (z >= top || side >= sideUnits) return 0;
  let floor: i32 = floorAt(at);
  if (floor > top) {
    // it goes on as a level cell of the same mean, or what stands over `z` goes and the mean stays
    const mean: i32 = cellHeight(floor, top, sideAt(at));
    if (z >= mean) {
      if (side > -sideUnits) return 0;
      setTop(at, z);
      setFloor(at, z + besideRim);
      setSide(at, z - mean);
      return 0;
    }
    top = mean;
    floor = mean;
    setTop(at, mean);
  }
  if (floor === top) {
    setFloor(at, z);
    if (side <= -sideUnits) {
      setTop(at, z);
      return top - z;
    }
    setSide(at, side);
    return top - cellHeight(z, top, side);
  }
  const old: i32 = sideAt(at);
  const before: i32 = cellHeight(floor, top, old);
  let kept: i32 = old;
  if (side <= -sideUnits) {
    top = z;
    if (z <= floor + sameHeight) floor = z;
  } else if (z >= floor - sameHeight && z <= floor + sameHeight) {
    if (side >= old) return 0;
    kept = side;
  } else {
    const was: f64 = cutShare(old);
    const cut: f64 = cutShare(side);
    const whole: f64 = sideUnits;
    if (z < floor) {
      if (side > old + sameSide && was > 0) {
        // three heights: cut at z, was - cut at floor, the rest at top; the pair that is nearer in volume becomes one
        if (cut === 0) return 0;
        if (cut === whole) {
          setFloor(at, z);
          setSide(at, side);
          return before - z;
        }
        const lower: f64 = ((floor - z) * cut) / was;
        const upper: f64 = ((top - floor) * (whole - was)) / (whole - cut);
        if (lower < upper) {
          floor = roundInt((cut * z + (was - cut) * floor) / was);
        } else {
          top = roundInt(((was - cut) * floor + (whole - was) * top) / (whole - cut));
          floor = z;
          kept = side;
        }
      } else {
        floor = z;
        kept = side;
      }
    } else {
      if (side >= old || was === whole || cut <= was) return 0;
      const lower: f64 = ((z - floor) * was) / cut;
      const upper: f64 = ((top - z) * (whole - cut)) / (whole - was);
      if (lower < upper) {
        floor = roundInt((was * floor + (cut - was) * z) / cut);
        kept = side;
      } else {
        top = roundInt(((cut - was) * z + (whole - cut) * top) / (whole - was));
      }
    }
  }
  if (floor > top) top = floor;
  setFloor(at, floor);
  setTop(at, top);
  setSide(at, kept);
  return before - cellHeight(floor, top, kept);
}
