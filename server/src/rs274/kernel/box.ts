/** Places of the numbers that go into the kernel and come out of it (`boxAt`, `setBox`). */

/** Where the tool stands, mm. */
export const boxX: i32 = 0;
export const boxY: i32 = 1;
export const boxZ: i32 = 2;
/** Motion code in force times ten, and feed. */
export const boxMotion: i32 = 3;
export const boxFeed: i32 = 4;
/** Line being read. */
export const boxLine: i32 = 5;
/** Steps and arcs in the columns, and how many fit. */
export const boxCount: i32 = 6;
export const boxRoom: i32 = 7;
export const boxArcs: i32 = 8;
export const boxArcRoom: i32 = 9;
/** Axis words with a point; 1 when there was one without that is not zero; 1 when there was any word. */
export const boxPoints: i32 = 10;
export const boxUnplain: i32 = 11;
export const boxBegun: i32 = 12;
/** Least increments in a unit for words without a point (1: they are whole units); 1 where F is one of those words. */
export const boxIncrements: i32 = 13;
export const boxFeedIsLength: i32 = 14;
export const boxPlane: i32 = 15;
/** 1 when it stopped because the columns are full. */
export const boxFull: i32 = 19;
/** Tolerance of the end of an arc: least, share of the radius, most. */
export const boxFloor: i32 = 16;
export const boxRelative: i32 = 17;
export const boxCap: i32 = 18;
/** Greatest block number that nothing is said of. */
export const boxMostNumber: i32 = 20;
/** Stands there where nothing is said of any: outside NISTIR 6556. */
export const anyNumber: i32 = 0x7fffffff;
/** What a letter's number is multiplied by and moved by, and the numbers of the line being read: 16 each. */
export const boxScale: i32 = 24;
export const boxShift: i32 = 40;
export const boxValue: i32 = 56;

/** First number of the box that the reader leaves to those who look at what was read. */
export const boxFree: i32 = 72;
/** What plain lines hold: letters with a point, codes G0 to G3 and letters seen (a bit each), lines, filled ones. */
export const boxPointed: i32 = 128;
export const boxCodes: i32 = 129;
export const boxSeen: i32 = 130;
export const boxLines: i32 = 131;
export const boxFilled: i32 = 132;
export const boxLength: i32 = 133;
