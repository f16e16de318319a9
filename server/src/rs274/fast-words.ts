/** What a byte is: 0 anything else, 1 blank, 2 line end, then the letters. */
export const BYTE = new Uint8Array(256);
export const [BLANK, LINE_END, G, X, Y, Z, I, J, K, F, N, R] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
for (const [letters, class_] of [
  ['Gg', G],
  ['Xx', X],
  ['Yy', Y],
  ['Zz', Z],
  ['Ii', I],
  ['Jj', J],
  ['Kk', K],
  ['Ff', F],
  ['Nn', N],
  ['Rr', R],
] as const) {
  for (const letter of letters) BYTE[letter.charCodeAt(0)] = class_;
}
BYTE[32] = BLANK;
BYTE[9] = BLANK;
BYTE[10] = LINE_END;
BYTE[13] = LINE_END;

/** Bytes after a number that make it another thing: a second point, a comma, O, E. */
export const ENDS_BADLY = new Uint8Array(256);
for (const byte of '.,OoEe') ENDS_BADLY[byte.charCodeAt(0)] = 1;

export const AXES = (1 << X) | (1 << Y) | (1 << Z);
export const AXIS_OR_CENTRE = AXES | (1 << I) | (1 << J) | (1 << K) | (1 << R);
export const CENTRE = AXIS_OR_CENTRE & ~AXES;
export const FEED = 1 << F;

/** Values of the words of the line being read, by letter. */
export const values = new Float64Array(16);
