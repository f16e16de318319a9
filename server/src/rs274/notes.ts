/** What is said of lines that are no blocks. */
export const DIRECTIVE = 'this line is not a block of the program; it is left out';
export const NOT_A_BLOCK = 'this text is not a block; put it in parentheses';

/**
 * Whether a line is a note to oneself rather than a block: mostly letters that follow each other.
 * Judged on the part before a comment.
 */
export function isNote(bytes: Uint8Array, start: number, end: number): boolean {
  let letters = 0;
  let pairs = 0;
  let words = 0;
  let before = false;
  for (let p = start; p < end; p += 1) {
    const c = bytes[p];
    if (c === 40 || c === 59) break;
    const letter = (c >= 65 && c <= 90) || (c >= 97 && c <= 122) || c > 127;
    if (letter) {
      letters += 1;
      if (before) pairs += 1;
    } else if (c >= 48 && c <= 57 && before) {
      words += 1;
    }
    before = letter;
  }
  return letters >= 3 && pairs >= 2 && words * 3 <= letters;
}
