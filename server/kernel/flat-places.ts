/** Where the side of a flat disc runs in the groups of cells of `walls.ts`. */
import { sideUnits } from './cells.ts';
import { cx, cy } from './field.ts';
import {
  cellXAll,
  dirX,
  dirY,
  endXAll,
  endYAll,
  length,
  middleAll,
  originXAll,
  radius,
  radius2All,
  singleRadiusAll,
  singleXAll,
  singleYAll,
  stepsAll,
  unsignedAll,
  widthAll,
  x0,
  y0,
} from './flat-move.ts';
import { aheadFrom, othersFrom } from './memory.ts';

/** Puts down where the wall runs in the groups up to `end`, round the end of the move. */
export function placeAhead(end: usize): void {
  const steps = stepsAll;
  const cellX = cellXAll;
  const originX = originXAll;
  const endX = endXAll;
  const endY = endYAll;
  const radius2 = radius2All;
  const singleRadius = singleRadiusAll;
  const singleX = singleXAll;
  const singleY = singleYAll;
  const unsigned = unsignedAll;
  const width = widthAll;
  const middle = middleAll;
  const zero = i32x4.splat(0);
  // four of the eight, then the other four
  for (let four = aheadFrom; four < end; four += 16) {
    const group = four & ~63;
    const lanes = i32x4.add(i32x4.splat(load<i32>(group, 4) + <i32>((four & 16) >> 2)), steps);
    const dy = f64x2.sub(v128.load64_splat(group, 16), endY);
    const dxA = f64x2.sub(f64x2.add(originX, f64x2.mul(f64x2.convert_low_i32x4_s(lanes), cellX)), endX);
    const dxB = f64x2.sub(
      f64x2.add(originX, f64x2.mul(f64x2.convert_low_i32x4_s(upper(lanes)), cellX)),
      endX,
    );
    const dy2 = f64x2.mul(dy, dy);
    const squareA = f64x2.add(f64x2.mul(dxA, dxA), dy2);
    const squareB = f64x2.add(f64x2.mul(dxB, dxB), dy2);
    const over2 = singles(f64x2.sub(squareA, radius2), f64x2.sub(squareB, radius2));
    const distance = f32x4.sqrt(singles(squareA, squareB));
    const across = f32x4.add(
      f32x4.mul(singleX, v128.and(singles(dxA, dxB), unsigned)),
      f32x4.mul(singleY, v128.and(singles(dy, dy), unsigned)),
    );
    const part = f32x4.mul(f32x4.mul(width, over2), distance);
    const round = f32x4.div(part, f32x4.mul(f32x4.add(distance, singleRadius), across));
    v128.store(four, v128.bitselect(round, middle, f32x4.gt(across, zero)), 32);
    four += (four & 16) << 1;
  }
}

/** The same for groups of which some cells lie beside the way and some round its ends. */
export function placeAny(end: usize): void {
  const startX = f64x2.splat(x0);
  const startY = f64x2.splat(y0);
  const ux = f64x2.splat(dirX);
  const uy = f64x2.splat(dirY);
  const long = f64x2.splat(length);
  const out = f64x2.splat(radius);
  const perSide = f32x4.splat(<f32>(<f64>sideUnits / (cx * Math.abs(dirY) + cy * Math.abs(dirX))));
  const zero = i32x4.splat(0);
  for (let four = othersFrom; four < end; four += 16) {
    const group = four & ~63;
    const lanes = i32x4.add(i32x4.splat(load<i32>(group, 4) + <i32>((four & 16) >> 2)), stepsAll);
    const y = v128.load64_splat(group, 16);
    const dy = f64x2.sub(y, startY);
    const xA = f64x2.add(originXAll, f64x2.mul(f64x2.convert_low_i32x4_s(lanes), cellXAll));
    const xB = f64x2.add(originXAll, f64x2.mul(f64x2.convert_low_i32x4_s(upper(lanes)), cellXAll));
    const fromA = f64x2.sub(xA, startX);
    const fromB = f64x2.sub(xB, startX);
    const rise = f64x2.mul(dy, uy);
    const alongA = f64x2.add(f64x2.mul(fromA, ux), rise);
    const alongB = f64x2.add(f64x2.mul(fromB, ux), rise);
    const beforeA = f64x2.le(alongA, zero);
    const beforeB = f64x2.le(alongB, zero);
    const beside = singleMask(
      v128.andnot(f64x2.lt(alongA, long), beforeA),
      v128.andnot(f64x2.lt(alongB, long), beforeB),
    );
    const dyEnd = f64x2.sub(y, endYAll);
    const dxA = v128.bitselect(fromA, f64x2.sub(xA, endXAll), beforeA);
    const dxB = v128.bitselect(fromB, f64x2.sub(xB, endXAll), beforeB);
    const dyA = v128.bitselect(dy, dyEnd, beforeA);
    const dyB = v128.bitselect(dy, dyEnd, beforeB);
    const squareA = f64x2.add(f64x2.mul(dxA, dxA), f64x2.mul(dyA, dyA));
    const squareB = f64x2.add(f64x2.mul(dxB, dxB), f64x2.mul(dyB, dyB));
    const over2 = singles(f64x2.sub(squareA, radius2All), f64x2.sub(squareB, radius2All));
    const distance = f32x4.sqrt(singles(squareA, squareB));
    const across = f32x4.add(
      f32x4.mul(singleXAll, v128.and(singles(dxA, dxB), unsignedAll)),
      f32x4.mul(singleYAll, v128.and(singles(dyA, dyB), unsignedAll)),
    );
    const part = f32x4.mul(f32x4.mul(widthAll, over2), distance);
    const wall = f32x4.div(part, f32x4.mul(f32x4.add(distance, singleRadiusAll), across));
    const round = v128.bitselect(wall, middleAll, f32x4.gt(across, zero));
    const aside = f64x2.mul(dy, ux);
    const outA = f64x2.sub(f64x2.abs(f64x2.sub(f64x2.mul(fromA, uy), aside)), out);
    const outB = f64x2.sub(f64x2.abs(f64x2.sub(f64x2.mul(fromB, uy), aside)), out);
    const straight = f32x4.mul(singles(outA, outB), perSide);
    v128.store(four, v128.bitselect(straight, round, beside), 32);
    four += (four & 16) << 1;
  }
}

/** The upper two of four. */
export function upper(four: v128): v128 {
  return v128.shuffle<i32>(four, four, 2, 3, 2, 3);
}

/** The upper halves of two and two masks. */
function singleMask(a: v128, b: v128): v128 {
  return v128.shuffle<i32>(a, b, 0, 2, 4, 6);
}

/** Two and two numbers as four of single precision. */
function singles(a: v128, b: v128): v128 {
  return v128.shuffle<i32>(f32x4.demote_f64x2_zero(a), f32x4.demote_f64x2_zero(b), 0, 1, 4, 5);
}
