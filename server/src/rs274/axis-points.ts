/** Axis words (X Y Z U W outside comments) with and without a decimal point. */
export interface AxisPoints {
  with_point: number;
  /** Words that are not zero and have none. */
  whole: number;
  /** The first of those, lines from the first line looked at, columns of the line. */
  places: { line: number; start: number; end: number }[];
}

/** So many places are told. */
export const MOST_POINT_PLACES = 60;

/** Counts the axis words of the bytes from `from`, where a line begins, to `to`. */
export function axisPointsOf(bytes: Uint8Array, from: number, to: number): AxisPoints {
  const found: AxisPoints = { with_point: 0, whole: 0, places: [] };
  let line = 0;
  let begin = from;
  let p = from;
  while (p < to) {
    const c = bytes[p];
    if (c === 10 || c === 13) {
      if (c === 13 && bytes[p + 1] === 10) p++;
      line++;
      begin = ++p;
    } else if (c === 40 || c === 59) {
      const end = c === 40 ? 41 : 10;
      while (p < to && bytes[p] !== end && bytes[p] !== 10 && bytes[p] !== 13) p++;
      if (bytes[p] === 41) p++;
    } else if (isAxis(c)) p = word(bytes, p, to, line, begin, found);
    else p++;
  }
  return found;
}

function word(
  bytes: Uint8Array,
  at: number,
  to: number,
  line: number,
  begin: number,
  found: AxisPoints,
): number {
  let p = at + 1;
  while (p < to && (bytes[p] === 32 || bytes[p] === 45 || bytes[p] === 43)) p++;
  let point = false;
  let zero = true;
  const digits = p;
  for (; p < to; p++) {
    const c = bytes[p];
    if (c === 46) point = true;
    else if (c >= 48 && c <= 57) zero &&= c === 48;
    else break;
  }
  if (p === digits) return p;
  if (point) found.with_point++;
  else if (!zero) {
    found.whole++;
    if (found.places.length < MOST_POINT_PLACES)
      found.places.push({ line, start: at - begin, end: p - begin });
  }
  return p;
}

/** X Y Z U W, upper or lower case. */
function isAxis(c: number): boolean {
  const upper = c & 0xdf;
  return c >= 65 && ((upper >= 88 && upper <= 90) || upper === 85 || upper === 87);
}
