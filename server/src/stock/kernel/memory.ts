/**
 * What the kernel reads and writes: the cells of the tile in work, the path of the move in work, the rows it finds. This is the
 * plain form, over typed arrays; `server/kernel/memory.ts` is the same over the memory of the compiled one.
 */

/** Most straight pieces and stations of a move. */
export const mostPieces: i32 = 20_000;
export const mostStations: i32 = 2_001;
/** Rows that one call may find: a call that may find more is made again for the rest. */
export const mostRows: i32 = 5 * 2_001;
/** Numbers in a row. */
export const rowWidth: i32 = 12;
export const scratchLength: i32 = 1_024;

let floors: Int32Array = new Int32Array(0);
let tops: Int32Array = new Int32Array(0);
let sides: Int16Array = new Int16Array(0);
let blockTops: Int32Array = new Int32Array(0);
let blockAges: Uint8Array = new Uint8Array(0);
let last: Float64Array = new Float64Array(4);
let fill: () => void = () => undefined;

export const path = {
  points: new Float64Array(3 * (mostPieces + 1)),
  places: new Float64Array(4 * mostStations),
  stationPiece: new Int32Array(mostStations),
  stationTurn: new Float64Array(mostStations),
};
export const rows = new Float32Array(mostRows * rowWidth);
const scratch = new Float64Array(scratchLength);

/** The arrays of the tile in work; `filled` is called when its cells are first cut and has to call this again. */
export function useCells(
  floor: Int32Array,
  top: Int32Array,
  side: Int16Array,
  blockTop: Int32Array,
  blockAge: Uint8Array,
  lastPlace: Float64Array,
  filled: () => void,
): void {
  floors = floor;
  tops = top;
  sides = side;
  blockTops = blockTop;
  blockAges = blockAge;
  last = lastPlace;
  fill = filled;
}

export function fillTile(): void {
  fill();
}

export function floorAt(at: i32): i32 {
  return floors[at];
}
export function setFloor(at: i32, units: i32): void {
  floors[at] = units;
}
export function topAt(at: i32): i32 {
  return tops[at];
}
export function setTop(at: i32, units: i32): void {
  tops[at] = units;
}
export function sideAt(at: i32): i32 {
  return sides[at];
}
export function setSide(at: i32, side: i32): void {
  sides[at] = side;
}

/** First and last of the cells `from` to `to` that stand over `z`; beyond the end when none does. */
export function firstOver(from: i32, to: i32, z: i32): i32 {
  let at = from;
  while (at <= to && tops[at] <= z) at++;
  return at;
}
export function lastOver(from: i32, to: i32, z: i32): i32 {
  let at = to;
  while (at >= from && tops[at] <= z) at--;
  return at;
}

/** Greatest height of the cells `from` to `to`, that of level metal beside a rim included. */
export function highestOf(from: i32, to: i32): i32 {
  let highest = -0x7fff_ffff;
  for (let at = from; at <= to; at++) highest = Math.max(highest, tops[at], floors[at]);
  return highest;
}

export function blockTopAt(block: i32): i32 {
  return blockTops[block];
}
export function setBlockTop(block: i32, units: i32): void {
  blockTops[block] = units;
}
export function blockAgeAt(block: i32): i32 {
  return blockAges[block];
}
export function setBlockAge(block: i32, age: i32): void {
  blockAges[block] = age;
}

/** End of the last piece swept in the tile: x, y, z, tool. */
export function lastAt(axis: i32): f64 {
  return last[axis];
}
export function setLast(axis: i32, value: f64): void {
  last[axis] = value;
}

export function pointAt(at: i32): f64 {
  return path.points[at];
}
export function placeAt(at: i32): f64 {
  return path.places[at];
}
export function stationPieceAt(station: i32): i32 {
  return path.stationPiece[station];
}
export function stationTurnAt(station: i32): f64 {
  return path.stationTurn[station];
}
export function setRow(at: i32, value: f64): void {
  rows[at] = value;
}
export function rowAt(at: i32): f64 {
  return rows[at];
}

export function scratchAt(at: i32): f64 {
  return scratch[at];
}
export function setScratch(at: i32, value: f64): void {
  scratch[at] = value;
}

export function toInt(value: f64): i32 {
  return value | 0;
}
/** The nearest whole number, halves to the even one; |value| under 2^31. */
export function roundInt(value: f64): i32 {
  return (value + 6_755_399_441_055_744 - 6_755_399_441_055_744) | 0;
}
export function toSingle(value: f64): f64 {
  return Math.fround(value);
}
export const acos = Math.acos;
export const atan2 = Math.atan2;
export const exp = Math.exp;
export const log = Math.log;
