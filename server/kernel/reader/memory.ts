/** The memory of the compiled kernel: see `server/src/rs274/kernel/memory.ts`, which is the same over typed arrays. */

// rooms of fixed size, one after the other
const box: usize = 1_024;
const powers: usize = box + 8 * 152;
const wholePowers: usize = powers + 8 * 10;
const askedFeeds: usize = wholePowers + 4 * 10;
const askedMotions: usize = askedFeeds + 8 * 8;
const askedRows: usize = askedMotions + 4 * 8;
const classes: usize = askedRows + 4 * 8;
const likes: usize = classes + 256;
const planes: usize = likes + 4 * 2_048;
const seen: usize = planes + 4 * 2_048;
const text: usize = seen + 2_048;
// a byte that is read after the last one is 0
const x: usize = text + 131_072 + 64;
const y: usize = x + 8 * 16_384;
const z: usize = y + 8 * 16_384;
const arcs: usize = z + 8 * 16_384;
const line: usize = arcs + 24 * 8_192;
const run: usize = line + 4 * 16_384;
const aux: usize = run + 4 * 16_384;
const kind: usize = aux + 4 * 16_384;
const flags: usize = kind + 16_384;
const packed: usize = flags + 16_384;
const end: usize = packed + 38 * 16_384 + 24 * 8_192;

/**
 * Addresses of: box, text, x, y, z, arcs, line, run, aux, kind, flags, powers of ten, runs (like, plane, seen), packed, powers as whole numbers,
 * end of all.
 */
export function addressOf(what: i32): usize {
  if (what === 0) return box;
  if (what === 1) return text;
  if (what === 2) return x;
  if (what === 3) return y;
  if (what === 4) return z;
  if (what === 5) return arcs;
  if (what === 6) return line;
  if (what === 7) return run;
  if (what === 8) return aux;
  if (what === 9) return kind;
  if (what === 10) return flags;
  if (what === 11) return powers;
  if (what === 12) return likes;
  if (what === 13) return planes;
  if (what === 14) return seen;
  if (what === 15) return packed;
  if (what === 16) return wholePowers;
  return end;
}

export function boxAt(at: i32): f64 {
  return load<f64>(box + ((<usize>at) << 3));
}
export function setBox(at: i32, value: f64): void {
  store<f64>(box + ((<usize>at) << 3), value);
}

export function byteAt(at: i32): i32 {
  return load<u8>(text + <usize>at);
}
/** All at once: up to sixteen bytes past the last one are looked at. */
export function digitsFrom(at: i32): i32 {
  const over: v128 = i8x16.sub(v128.load(text + <usize>at), i8x16.splat(48));
  return i8x16.bitmask(i8x16.lt_u(over, i8x16.splat(10)));
}
export function highFrom(at: i32): i32 {
  return i8x16.bitmask(v128.load(text + <usize>at));
}
export function onesFrom(bits: i32): i32 {
  return ctz(~bits);
}
/** Digits are moved to the end of eight, then added up in pairs, in fours, and all together. */
export function numberFrom(at: i32, length: i32): i32 {
  // In two halves: a shift by all 64 bits is none.
  const shift: u64 = 32 - ((<u64>length) << 2);
  let eight: u64 = (load<u64>(text + <usize>at) << shift) << shift;
  eight &= 0x0f0f0f0f0f0f0f0f;
  eight = (eight * 10 + (eight >> 8)) & 0x00ff00ff00ff00ff;
  eight = (eight * 100 + (eight >> 16)) & 0x0000ffff0000ffff;
  return <i32>(eight * 10_000 + (eight >> 32));
}
export function classAt(byte: i32): i32 {
  return load<u8>(classes + <usize>byte);
}
export function setClass(byte: i32, what: i32): void {
  store<u8>(classes + <usize>byte, <u8>what);
}
export function tens(power: i32): i32 {
  return load<i32>(wholePowers + ((<usize>power) << 2));
}
export function powerOfTen(power: i32): f64 {
  return load<f64>(powers + ((<usize>power) << 3));
}

export function setStep(
  at: i32,
  ofLine: i32,
  ofKind: i32,
  ofRun: i32,
  toX: f64,
  toY: f64,
  toZ: f64,
  ofAux: i32,
): void {
  const four: usize = (<usize>at) << 2;
  const eight: usize = (<usize>at) << 3;
  store<i32>(line + four, ofLine);
  store<u8>(kind + <usize>at, <u8>ofKind);
  store<u8>(flags + <usize>at, 0);
  store<i32>(run + four, ofRun);
  store<f64>(x + eight, toX);
  store<f64>(y + eight, toY);
  store<f64>(z + eight, toZ);
  store<i32>(aux + four, ofAux);
}
export function setArc(row: i32, first: f64, second: f64, sweep: f64): void {
  const at: usize = arcs + <usize>row * 24;
  store<f64>(at, first);
  store<f64>(at, second, 8);
  store<f64>(at, sweep, 16);
}

export function lineAt(at: i32): i32 {
  return load<i32>(line + ((<usize>at) << 2));
}
export function kindAt(at: i32): i32 {
  return load<u8>(kind + <usize>at);
}
export function flagsAt(at: i32): i32 {
  return load<u8>(flags + <usize>at);
}
export function runAt(at: i32): i32 {
  return load<i32>(run + ((<usize>at) << 2));
}
export function xAt(at: i32): f64 {
  return load<f64>(x + ((<usize>at) << 3));
}
export function yAt(at: i32): f64 {
  return load<f64>(y + ((<usize>at) << 3));
}
export function zAt(at: i32): f64 {
  return load<f64>(z + ((<usize>at) << 3));
}
export function auxAt(at: i32): i32 {
  return load<i32>(aux + ((<usize>at) << 2));
}
export function arcAt(row: i32, what: i32): f64 {
  return load<f64>(arcs + <usize>row * 24 + ((<usize>what) << 3));
}

export function likeOf(ofRun: i32): i32 {
  return load<i32>(likes + ((<usize>ofRun) << 2));
}
export function planeOf(ofRun: i32): i32 {
  return load<i32>(planes + ((<usize>ofRun) << 2));
}
export function seenRun(ofRun: i32): i32 {
  return load<u8>(seen + <usize>ofRun);
}

export const xColumn: i32 = 0;
export const yColumn: i32 = 1;
export const zColumn: i32 = 2;
export const arcColumn: i32 = 3;
export function copyColumn(column: i32, to: i32, count: i32): void {
  const from: usize = column === xColumn ? x : column === yColumn ? y : column === zColumn ? z : arcs;
  memory.copy(packed + <usize>to, from, (<usize>count) << 3);
}
export function putInt(at: i32, value: i32): void {
  store<i32>(packed + <usize>at, value);
}
export function putShort(at: i32, value: i32): void {
  store<i16>(packed + <usize>at, <i16>value);
}
export function putByte(at: i32, value: i32): void {
  store<u8>(packed + <usize>at, <u8>value);
}

export declare function askRun(motion: i32, feed: f64): i32;
export function askedMotion(at: i32): i32 {
  return load<i32>(askedMotions + ((<usize>at) << 2));
}
export function askedFeed(at: i32): f64 {
  return load<f64>(askedFeeds + ((<usize>at) << 3));
}
export function askedRow(at: i32): i32 {
  return load<i32>(askedRows + ((<usize>at) << 2));
}
export function setAsked(at: i32, motion: i32, feed: f64, row: i32): void {
  store<i32>(askedMotions + ((<usize>at) << 2), motion);
  store<f64>(askedFeeds + ((<usize>at) << 3), feed);
  store<i32>(askedRows + ((<usize>at) << 2), row);
}

export const unknown: f64 = F64.NaN;
export function isUnknown(value: f64): bool {
  return isNaN(value);
}
export function toInt(value: f64): i32 {
  return <i32>value;
}
export declare function atan2(y: f64, x: f64): f64;
