/** Columns of steps laid out as they are put away: as narrow as their numbers let them be. */
import {
  arcColumn,
  auxAt,
  copyColumn,
  flagsAt,
  isUnknown,
  kindAt,
  lineAt,
  putByte,
  putInt,
  putShort,
  runAt,
  xColumn,
  yAt,
  yColumn,
  zColumn,
} from './memory.ts';

/** Bits of a layout: wide lines and rows, rows of arcs, Y known somewhere (on lathes it never is). */
export const layoutWide: i32 = 1;
export const layoutAux: i32 = 2;
export const layoutY: i32 = 4;

const mostShort: i32 = 0x7fff;
const mostByteRuns: i32 = 256;

/** The narrowest layout for the steps in the columns. */
export function layoutFor(count: i32, arcCount: i32, runCount: i32): i32 {
  let bits: i32 = runCount > mostByteRuns || arcCount > mostShort ? layoutWide : 0;
  let beyond: i32 = 0;
  for (let i: i32 = 0; i < count; i++) beyond |= ((lineAt(i) << 16) >> 16) ^ lineAt(i);
  if (beyond !== 0) bits |= layoutWide;
  let aux: bool = arcCount > 0;
  for (let i: i32 = 0; i < count && !aux; i++) aux = auxAt(i) !== -1;
  if (aux) bits |= layoutAux;
  let known: bool = false;
  for (let i: i32 = 0; i < count && !known; i++) known = !isUnknown(yAt(i));
  return known ? bits | layoutY : bits;
}

/** Lays the columns out one after the other, in eights of steps, the widest first; gives the bytes that they take. */
export function layOut(layout: i32, count: i32, arcCount: i32): i32 {
  const room: i32 = (count + 7) & ~7;
  const wide: bool = (layout & layoutWide) !== 0;
  copyColumn(xColumn, 0, count);
  copyColumn(zColumn, 8 * room, count);
  let at: i32 = 16 * room;
  if ((layout & layoutY) !== 0) {
    copyColumn(yColumn, at, count);
    at += 8 * room;
  }
  copyColumn(arcColumn, at, 3 * arcCount);
  at += 24 * arcCount;
  if (wide) {
    for (let i: i32 = 0; i < count; i++) putInt(at + 4 * i, lineAt(i));
    at += 4 * room;
  } else {
    for (let i: i32 = 0; i < count; i++) putShort(at + 2 * i, lineAt(i));
    at += 2 * room;
  }
  if ((layout & layoutAux) !== 0) {
    if (wide) for (let i: i32 = 0; i < count; i++) putInt(at + 4 * i, auxAt(i));
    else for (let i: i32 = 0; i < count; i++) putShort(at + 2 * i, auxAt(i));
    at += (wide ? 4 : 2) * room;
  }
  if (wide) {
    for (let i: i32 = 0; i < count; i++) putInt(at + 4 * i, runAt(i));
    at += 4 * room;
  } else {
    for (let i: i32 = 0; i < count; i++) putByte(at + i, runAt(i));
    at += room;
  }
  for (let i: i32 = 0; i < count; i++) putByte(at + i, kindAt(i));
  for (let i: i32 = 0; i < count; i++) putByte(at + room + i, flagsAt(i));
  return at + 2 * room;
}
