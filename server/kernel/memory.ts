/** The memory of the compiled kernel: see `server/src/stock/kernel/memory.ts`, which is the same over typed arrays. */

export const mostPieces: i32 = 20_000;
export const mostStations: i32 = 2_001;
export const mostRows: i32 = 5 * 2_001;
export const rowWidth: i32 = 12;
export const scratchLength: i32 = 1_024;

// rooms of fixed size, one after the other; the tiles follow
const scratch: usize = 1_024;
const points: usize = scratch + 8 * 1_024;
const places: usize = points + 8 * 3 * 20_001;
const stationTurn: usize = places + 8 * 4 * 2_001;
const stationPiece: usize = stationTurn + 8 * 2_001;
const rows: usize = stationPiece + 4 * 2_004;
/** Groups of eight cells under a flat disc in two lists, and fours of one list with cells for `mergeCell`: see `walls.ts`. */
export const groupBytes: usize = 64;
export const roomOfGroups: usize = 128 * groupBytes;
export const aheadFrom: usize = (rows + 4 * 12 * 5 * 2_001 + 63) & ~63;
export const othersFrom: usize = aheadFrom + roomOfGroups + groupBytes;
export const merges: usize = othersFrom + roomOfGroups + groupBytes;
const end: usize = merges + 16 * 130;

export let floors: usize = 0;
export let tops: usize = 0;
export let sides: usize = 0;
let blockTops: usize = 0;
let blockAges: usize = 0;
let last: usize = 0;

/** Addresses of the path's arrays and of the rows: points, places, pieces and turns of stations, rows, end of all. */
export function addressOf(what: i32): usize {
  if (what === 0) return points;
  if (what === 1) return places;
  if (what === 2) return stationPiece;
  if (what === 3) return stationTurn;
  if (what === 4) return rows;
  return end;
}

export function useAddresses(
  floor: usize,
  top: usize,
  side: usize,
  blockTop: usize,
  blockAge: usize,
  lastPlace: usize,
): void {
  floors = floor;
  tops = top;
  sides = side;
  blockTops = blockTop;
  blockAges = blockAge;
  last = lastPlace;
}

export declare function fillTile(): void;

export function floorAt(at: i32): i32 {
  return load<i32>(floors + ((<usize>at) << 2));
}
export function setFloor(at: i32, units: i32): void {
  store<i32>(floors + ((<usize>at) << 2), units);
}
export function topAt(at: i32): i32 {
  return load<i32>(tops + ((<usize>at) << 2));
}
export function setTop(at: i32, units: i32): void {
  store<i32>(tops + ((<usize>at) << 2), units);
}
export function sideAt(at: i32): i32 {
  return load<i16>(sides + ((<usize>at) << 1));
}
export function setSide(at: i32, side: i32): void {
  store<i16>(sides + ((<usize>at) << 1), <i16>side);
}

/** Four at once: up to three cells past the end may be looked at, and up to three before the first one. */
export function firstOver(from: i32, to: i32, z: i32): i32 {
  const high = i32x4.splat(z);
  for (let at = from; at <= to; at += 4) {
    const over = i32x4.bitmask(i32x4.gt_s(v128.load(tops + ((<usize>at) << 2)), high));
    if (over !== 0) return at + ctz(over);
  }
  return to + 1;
}
export function lastOver(from: i32, to: i32, z: i32): i32 {
  const high = i32x4.splat(z);
  for (let at = to - 3; at > from - 4; at -= 4) {
    const over = i32x4.bitmask(i32x4.gt_s(v128.load(tops + ((<usize>at) << 2)), high));
    if (over !== 0) return at + 31 - clz(over);
  }
  return from - 1;
}

/** Greatest height of the cells `from` to `to`, that of level metal beside a rim included. */
export function highestOf(from: i32, to: i32): i32 {
  let highest: i32 = -0x7fff_ffff;
  let at = from;
  if (to - from >= 3) {
    let four = i32x4.splat(highest);
    for (; at <= to - 3; at += 4) {
      const cell = (<usize>at) << 2;
      four = i32x4.max_s(four, i32x4.max_s(v128.load(tops + cell), v128.load(floors + cell)));
    }
    const two = i32x4.max_s(four, v128.shuffle<i32>(four, four, 2, 3, 0, 1));
    highest = max(i32x4.extract_lane(two, 0), i32x4.extract_lane(two, 1));
  }
  for (; at <= to; at++) highest = max(highest, max(topAt(at), floorAt(at)));
  return highest;
}

export function blockTopAt(block: i32): i32 {
  return load<i32>(blockTops + ((<usize>block) << 2));
}
export function setBlockTop(block: i32, units: i32): void {
  store<i32>(blockTops + ((<usize>block) << 2), units);
}
export function blockAgeAt(block: i32): i32 {
  return load<u8>(blockAges + <usize>block);
}
export function setBlockAge(block: i32, age: i32): void {
  store<u8>(blockAges + <usize>block, <u8>age);
}

export function lastAt(axis: i32): f64 {
  return load<f64>(last + ((<usize>axis) << 3));
}
export function setLast(axis: i32, value: f64): void {
  store<f64>(last + ((<usize>axis) << 3), value);
}

export function pointAt(at: i32): f64 {
  return load<f64>(points + ((<usize>at) << 3));
}
export function placeAt(at: i32): f64 {
  return load<f64>(places + ((<usize>at) << 3));
}
export function stationPieceAt(station: i32): i32 {
  return load<i32>(stationPiece + ((<usize>station) << 2));
}
export function stationTurnAt(station: i32): f64 {
  return load<f64>(stationTurn + ((<usize>station) << 3));
}
export function setRow(at: i32, value: f64): void {
  store<f32>(rows + ((<usize>at) << 2), <f32>value);
}
export function rowAt(at: i32): f64 {
  return load<f32>(rows + ((<usize>at) << 2));
}

export function scratchAt(at: i32): f64 {
  return load<f64>(scratch + ((<usize>at) << 3));
}
export function setScratch(at: i32, value: f64): void {
  store<f64>(scratch + ((<usize>at) << 3), value);
}

export function toInt(value: f64): i32 {
  return <i32>value;
}
/** The low bits of the number once 1.5 x 2^52 is added: several times faster than a conversion. */
export function roundInt(value: f64): i32 {
  return <i32>reinterpret<u64>(value + 6_755_399_441_055_744.0);
}
export function toSingle(value: f64): f64 {
  return <f64>(<f32>value);
}

export declare function acos(x: f64): f64;
export declare function atan2(y: f64, x: f64): f64;
export declare function exp(x: f64): f64;
export declare function log(x: f64): f64;
