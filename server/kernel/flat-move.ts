/** The level move of a flat disc in work, and its numbers in every lane. */
import { sideUnits } from './cells.ts';
import { cx, cy, ox, perX } from './field.ts';

export let x0: f64 = 0;
export let y0: f64 = 0;
export let x1: f64 = 0;
export let y1: f64 = 0;
export let dirX: f64 = 0;
export let dirY: f64 = 0;
export let length: f64 = 0;
export let radius: f64 = 0;
/** Height of the disc's underside, in units. */
export let z: i32 = 0;

// The loops read these once, before they start: constants and products the host's compiler would make anew in every turn.
export let stepsAll = i32x4(0, 0, 0, 0);
export let lowAll = i32x4(0, 0, 0, 0);
export let fullAll = i32x4(0, 0, 0, 0);
export let noneAll = i32x4(0, 0, 0, 0);
export let halfAll = i32x4(0, 0, 0, 0);
export let unsignedAll = i32x4(0, 0, 0, 0);
export let magicAll = f64x2(0, 0);
export let shareAll = f64x2(0, 0);
export let cellXAll = f64x2(0, 0);
export let originXAll = f64x2(0, 0);
export let endXAll = f64x2(0, 0);
export let endYAll = f64x2(0, 0);
export let radius2All = f64x2(0, 0);
export let singleMagicAll = f32x4(0, 0, 0, 0);
export let singleXAll = f32x4(0, 0, 0, 0);
export let singleYAll = f32x4(0, 0, 0, 0);
export let singleRadiusAll = f32x4(0, 0, 0, 0);
export let middleAll = f32x4(0, 0, 0, 0);
export let widthAll = f32x4(0, 0, 0, 0);

export function setMove(
  fromX: f64,
  fromY: f64,
  toX: f64,
  toY: f64,
  ux: f64,
  uy: f64,
  long: f64,
  r: f64,
  under: i32,
): void {
  x0 = fromX;
  y0 = fromY;
  x1 = toX;
  y1 = toY;
  dirX = ux;
  dirY = uy;
  length = long;
  radius = r;
  z = under;
  stepsAll = i32x4(0, 1, 2, 3);
  lowAll = i32x4.splat(z);
  fullAll = i32x4.splat(-sideUnits);
  noneAll = i32x4.splat(sideUnits);
  halfAll = i32x4.splat(sideUnits >> 1);
  unsignedAll = i32x4.splat(0x7fff_ffff);
  magicAll = f64x2.splat(6_755_399_441_055_744.0);
  shareAll = f64x2.splat(0.00006103515625);
  cellXAll = f64x2.splat(cx);
  originXAll = f64x2.splat(ox);
  endXAll = f64x2.splat(x1);
  endYAll = f64x2.splat(y1);
  radius2All = f64x2.splat(radius * radius);
  singleMagicAll = f32x4.splat(12_582_912);
  singleXAll = f32x4.splat(<f32>cx);
  singleYAll = f32x4.splat(<f32>cy);
  singleRadiusAll = f32x4.splat(<f32>radius);
  middleAll = f32x4.splat(<f32>(-radius * perX * <f64>sideUnits));
  widthAll = f32x4.splat(<f32>sideUnits);
}
