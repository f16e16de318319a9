/** Plain lines: G0 to G3 with X Y Z I J K R F N and plain numbers, absolute, no cycle, no compensation, no coordinate change. */
import { addArc, noRoom } from './arcs.ts';
import {
  boxBegun,
  boxCount,
  boxFeed,
  boxFull,
  boxLine,
  boxMotion,
  boxPoints,
  boxRoom,
  boxUnplain,
  boxValue,
  boxX,
  boxY,
  boxZ,
} from './box.ts';
import { kindArc, kindFeed, kindRapid } from './kinds.ts';
import { axes, centres, letterF, letterG, letterX, letterY, letterZ } from './letters.ts';
import { boxAt, setBox, setStep, toInt } from './memory.ts';
import { forgetRuns, runFor } from './runs.ts';
import { lineMotion, pointed, readWords, seen, unplain } from './word.ts';

/** Longer lines are judged the long way. */
const mostBytes: i32 = 256;

/**
 * Executes lines from `start` as long as they are plain; `limit` stands after a line end. Returns where it stopped: at
 * `limit`, or at the start of a line for the long way. State goes in and out through the box.
 */
export function readLines(start: i32, limit: i32): i32 {
  let x: f64 = boxAt(boxX);
  let y: f64 = boxAt(boxY);
  let z: f64 = boxAt(boxZ);
  let motion: i32 = toInt(boxAt(boxMotion));
  let feed: f64 = boxAt(boxFeed);
  let line: i32 = toInt(boxAt(boxLine));
  let count: i32 = toInt(boxAt(boxCount));
  const room: i32 = toInt(boxAt(boxRoom));
  let run: i32 = -1;
  let runMotion: i32 = -1;
  let runFeed: f64 = -1;
  let points: i32 = 0;
  let whole: i32 = 0;
  let letters: i32 = 0;
  let pos: i32 = start;
  let full: bool = false;
  forgetRuns();
  while (pos < limit) {
    if (count >= room) {
      full = true;
      break;
    }
    const end: i32 = readWords(pos, motion);
    if (end < 0 || end - pos > mostBytes) break;
    const lineLetters: i32 = seen;
    let nextFeed: f64 = feed;
    if ((lineLetters & (1 << letterF)) !== 0) {
      nextFeed = boxAt(boxValue + letterF);
      if (nextFeed < 0) break;
    }
    if ((lineLetters & (axes | centres)) !== 0) {
      const toX: f64 = (lineLetters & (1 << letterX)) !== 0 ? boxAt(boxValue + letterX) : x;
      const toY: f64 = (lineLetters & (1 << letterY)) !== 0 ? boxAt(boxValue + letterY) : y;
      const toZ: f64 = (lineLetters & (1 << letterZ)) !== 0 ? boxAt(boxValue + letterZ) : z;
      let arc: i32 = -1;
      let kind: i32 = kindRapid;
      if (lineMotion >= 20) {
        arc = addArc(lineLetters, lineMotion, x, y, z, toX, toY, toZ);
        if (arc < 0) {
          full = arc === noRoom;
          break;
        }
        kind = kindArc;
      } else if ((lineLetters & axes) === 0 || (lineLetters & centres) !== 0) {
        break;
      } else if (lineMotion === 10) {
        kind = kindFeed;
      }
      if (lineMotion !== runMotion || nextFeed !== runFeed) {
        run = runFor(lineMotion, nextFeed);
        runMotion = lineMotion;
        runFeed = nextFeed;
      }
      setStep(count, line, kind, run, toX, toY, toZ, arc);
      count++;
      x = toX;
      y = toY;
      z = toZ;
    } else if ((lineLetters & (1 << letterG)) !== 0 && lineMotion >= 20) {
      // An arc without any word of its own is judged the long way.
      break;
    }
    motion = lineMotion;
    feed = nextFeed;
    letters |= lineLetters;
    points += ((pointed >> letterX) & 1) + ((pointed >> letterY) & 1) + ((pointed >> letterZ) & 1);
    whole |= unplain;
    line++;
    pos = end;
  }
  setBox(boxX, x);
  setBox(boxY, y);
  setBox(boxZ, z);
  setBox(boxMotion, motion);
  setBox(boxFeed, feed);
  setBox(boxLine, line);
  setBox(boxCount, count);
  setBox(boxPoints, points);
  setBox(boxUnplain, whole);
  setBox(boxFull, full ? 1 : 0);
  setBox(boxBegun, letters !== 0 ? 1 : 0);
  return pos;
}
