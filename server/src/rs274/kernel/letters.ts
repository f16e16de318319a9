/** What a byte of a plain line is: a blank, a line end, a letter, or (0) anything else. */
import { classAt, setClass } from './memory.ts';

export const blank: i32 = 1;
export const lineEnd: i32 = 2;
export const letterG: i32 = 3;
export const letterX: i32 = 4;
export const letterY: i32 = 5;
export const letterZ: i32 = 6;
export const letterI: i32 = 7;
export const letterJ: i32 = 8;
export const letterK: i32 = 9;
export const letterF: i32 = 10;
export const letterN: i32 = 11;
export const letterR: i32 = 12;

export const axes: i32 = (1 << letterX) | (1 << letterY) | (1 << letterZ);
export const centres: i32 = (1 << letterI) | (1 << letterJ) | (1 << letterK) | (1 << letterR);

/** Fills the table of bytes; once, before anything is read. */
export function fillClasses(): void {
  setClass(9, blank);
  setClass(10, lineEnd);
  setClass(13, lineEnd);
  setClass(32, blank);
  setLetter(70, letterF);
  setLetter(71, letterG);
  setLetter(73, letterI);
  setLetter(74, letterJ);
  setLetter(75, letterK);
  setLetter(78, letterN);
  setLetter(82, letterR);
  setLetter(88, letterX);
  setLetter(89, letterY);
  setLetter(90, letterZ);
}

/** Capital and small letter. */
function setLetter(byte: i32, letter: i32): void {
  setClass(byte, letter);
  setClass(byte + 32, letter);
}

/** Whether a byte right after a number makes it another thing: a second point, a comma, O, E. */
export function spoils(byte: i32): bool {
  return classAt(byte) === 0 && (byte === 46 || byte === 44 || (byte | 32) === 111 || (byte | 32) === 101);
}
