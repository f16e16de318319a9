/** Places in the box of numbers (rs274/kernel/box.ts) of what is found out about the steps of a table. */
import { boxFree } from '../../rs274/kernel/box.ts';

/** Sum of cuts. In: plane, minutes a revolution and mm of radius, least minutes a revolution; 1 where these hold. */
export const sumPlane: i32 = boxFree;
export const sumPerRadius: i32 = boxFree + 1;
export const sumLeastTurn: i32 = boxFree + 2;
export const sumBySurface: i32 = boxFree + 3;
/** In: 1 where Y is not known throughout; 1 where steps without a way have a time of their own. */
export const sumNoY: i32 = boxFree + 4;
export const sumTimed: i32 = boxFree + 5;
/** In and out: least and greatest X, Y, Z. */
export const sumLow: i32 = boxFree + 6;
export const sumHigh: i32 = boxFree + 9;
/** Out: least and greatest radius, length, turns by surface speed, lines, flags and kinds. */
export const sumLeastRadius: i32 = boxFree + 12;
export const sumMostRadius: i32 = boxFree + 13;
export const sumLength: i32 = boxFree + 14;
export const sumTurns: i32 = boxFree + 15;
export const sumFirstLine: i32 = boxFree + 16;
export const sumLastLine: i32 = boxFree + 17;
export const sumFlags: i32 = boxFree + 18;
export const sumKinds: i32 = boxFree + 19;
/** Out: first line that feeds straight down outside a cycle, -1 where there is none, and the greatest such depth. */
export const sumPlungeLine: i32 = boxFree + 20;
export const sumPlunge: i32 = boxFree + 21;

/** Values along an axis: how many, greatest and second greatest distance from zero. */
export const axisCount: i32 = boxFree;
export const axisMost: i32 = boxFree + 1;
export const axisSecond: i32 = boxFree + 2;
/** The first two values with their lines, and the last two. */
export const axisHead: i32 = boxFree + 3;
export const axisTail: i32 = boxFree + 7;
/** The value farthest out, its line, its neighbours and the factor; factor 0 where there is none. */
export const axisOutlier: i32 = boxFree + 11;
