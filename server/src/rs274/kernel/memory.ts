/**
 * What the kernel reads and writes: the text of a stretch, the columns of its steps, the box of numbers that go in and out.
 * This is the plain form, over typed arrays; `server/kernel/reader/memory.ts` is the same over the memory of the compiled one.
 */
import { POWERS_OF_TEN } from '../read-number.ts';
import { emptyColumns, type StepColumns } from '../step-columns.ts';
import type { Column, StepTable } from '../steps.ts';
import { boxLength } from './box.ts';

/** Most bytes of text, steps, arcs and runs that the compiled kernel has room for. */
export const mostText: i32 = 131_072;
export const mostSteps: i32 = 16_384;
export const mostArcs: i32 = 8_192;
export const mostRuns: i32 = 2_048;

export const box = new Float64Array(boxLength);
const classes = new Uint8Array(256);
/** Powers of ten that a word may be divided by. */
export const powers = POWERS_OF_TEN.subarray(0, 10);
const askedMotions = new Int32Array(8);
const askedFeeds = new Float64Array(8);
const askedRows = new Int32Array(8);
let text: Uint8Array = new Uint8Array(0);
let ask: (motion: number, feed: number) => number = () => -1;
let written = emptyColumns(0);
let line: Column = written.line;
let kind: Uint8Array = written.kind;
let flags: Uint8Array = written.flags;
let run: Column = written.run;
let x: Float64Array = written.x;
let y: Float64Array = written.y;
let z: Float64Array = written.z;
let aux: Column = written.aux;
let arcs: Float64Array = written.arcs;
let packed_at = 0;
let packed = viewsOf(new ArrayBuffer(0));
/** For each run: the run that it counts as, its plane, whether it was seen. */
export const runs = {
  likes: new Int32Array(mostRuns),
  planes: new Int32Array(mostRuns),
  seen: new Uint8Array(mostRuns),
};

/** The text that is read, the columns that are written, and who knows the runs. */
export function useText(
  bytes: Uint8Array,
  columns: StepColumns,
  runOf: (motion: number, feed: number) => number,
): void {
  text = bytes;
  written = columns;
  ask = runOf;
}

/** The columns that are looked at, and how many runs they have. */
export function useTable(table: Pick<StepTable, keyof StepColumns>): void {
  ({ line, kind, flags, run, x, y, z, aux, arcs } = table);
}

/** Room for so many runs. */
export function useRuns(count: number): void {
  if (runs.seen.length >= count) return;
  runs.likes = new Int32Array(2 * count);
  runs.planes = new Int32Array(2 * count);
  runs.seen = new Uint8Array(2 * count);
}

/** Where columns are laid out: from byte `at` of a buffer on. */
export function usePacked(buffer: ArrayBuffer, at: number): void {
  if (packed.u8.buffer !== buffer) packed = viewsOf(buffer);
  packed_at = at;
}

function viewsOf(buffer: ArrayBuffer) {
  return {
    u8: new Uint8Array(buffer),
    i16: new Int16Array(buffer),
    i32: new Int32Array(buffer),
    f64: new Float64Array(buffer),
  };
}

export function boxAt(at: i32): f64 {
  return box[at];
}
export function setBox(at: i32, value: f64): void {
  box[at] = value;
}

export function byteAt(at: i32): i32 {
  return text[at];
}
/** Which of the sixteen bytes from `at` on are digits: a bit each, the first one lowest. */
export function digitsFrom(at: i32): i32 {
  let bits = 0;
  for (let k = 0; k < 16; k++) if (text[at + k] >= 48 && text[at + k] <= 57) bits |= 1 << k;
  return bits;
}
/** Which of the sixteen bytes from `at` on are 128 or more: a bit each. */
export function highFrom(at: i32): i32 {
  let bits = 0;
  for (let k = 0; k < 16; k++) bits |= (text[at + k] >> 7) << k;
  return bits;
}
/** How many bits are set from the lowest on. */
export function onesFrom(bits: i32): i32 {
  return 31 - Math.clz32(~bits & (bits + 1));
}
/** The number that `length` digits make, at most 8. */
export function numberFrom(at: i32, length: i32): i32 {
  let number = 0;
  for (let k = 0; k < length; k++) number = number * 10 + (text[at + k] - 48);
  return number;
}
export function classAt(byte: i32): i32 {
  return classes[byte];
}
export function setClass(byte: i32, what: i32): void {
  classes[byte] = what;
}
/** A power of ten as a whole number. */
export function tens(power: i32): i32 {
  return powers[power];
}
export function powerOfTen(power: i32): f64 {
  return powers[power];
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
  written.line[at] = ofLine;
  written.kind[at] = ofKind;
  written.flags[at] = 0;
  written.run[at] = ofRun;
  written.x[at] = toX;
  written.y[at] = toY;
  written.z[at] = toZ;
  written.aux[at] = ofAux;
}
export function setArc(row: i32, first: f64, second: f64, sweep: f64): void {
  written.arcs[3 * row] = first;
  written.arcs[3 * row + 1] = second;
  written.arcs[3 * row + 2] = sweep;
}

export function lineAt(at: i32): i32 {
  return line[at];
}
export function kindAt(at: i32): i32 {
  return kind[at];
}
export function flagsAt(at: i32): i32 {
  return flags[at];
}
export function runAt(at: i32): i32 {
  return run[at];
}
export function xAt(at: i32): f64 {
  return x[at];
}
export function yAt(at: i32): f64 {
  return y[at];
}
export function zAt(at: i32): f64 {
  return z[at];
}
export function auxAt(at: i32): i32 {
  return aux[at];
}
/** Centre (0, 1) and sweep (2) of an arc. */
export function arcAt(row: i32, what: i32): f64 {
  return arcs[3 * row + what];
}

export function likeOf(ofRun: i32): i32 {
  return runs.likes[ofRun];
}
export function planeOf(ofRun: i32): i32 {
  return runs.planes[ofRun];
}
export function seenRun(ofRun: i32): i32 {
  return runs.seen[ofRun];
}

export const xColumn: i32 = 0;
export const yColumn: i32 = 1;
export const zColumn: i32 = 2;
export const arcColumn: i32 = 3;
/** Copies the first numbers of a column to a place in the room where columns are laid out. */
export function copyColumn(column: i32, to: i32, count: i32): void {
  const from = column === xColumn ? x : column === yColumn ? y : column === zColumn ? z : arcs;
  for (let i = 0; i < count; i++) packed.f64[((packed_at + to) >> 3) + i] = from[i];
}
export function putInt(at: i32, value: i32): void {
  packed.i32[(packed_at + at) >> 2] = value;
}
export function putShort(at: i32, value: i32): void {
  packed.i16[(packed_at + at) >> 1] = value;
}
export function putByte(at: i32, value: i32): void {
  packed.u8[packed_at + at] = value;
}

export function askRun(motion: i32, feed: f64): i32 {
  return ask(motion, feed);
}
export function askedMotion(at: i32): i32 {
  return askedMotions[at];
}
export function askedFeed(at: i32): f64 {
  return askedFeeds[at];
}
export function askedRow(at: i32): i32 {
  return askedRows[at];
}
export function setAsked(at: i32, motion: i32, feed: f64, row: i32): void {
  askedMotions[at] = motion;
  askedFeeds[at] = feed;
  askedRows[at] = row;
}

export const unknown: f64 = Number.NaN;
export function isUnknown(value: f64): bool {
  return Number.isNaN(value);
}
export function toInt(value: f64): i32 {
  return value | 0;
}
export const atan2 = Math.atan2;
