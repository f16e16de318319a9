/** Result of reading one number: reused, so that no object is made a word. */
export class NumberRead {
  value = Number.NaN;
  /** Position after the number. */
  end = 0;
  point = false;
  digits = 0;
  /** What is wrong with it: see `NUMBER_FAULT`. */
  fault = 0;
}

export const NUMBER_FAULT = {
  none: 0,
  missing: 1,
  two_points: 2,
  two_signs: 3,
  comma: 4,
  letter_o: 5,
  exponent: 6,
} as const;

/** Powers of ten that a double holds exactly. */
export const POWERS_OF_TEN = Float64Array.from({ length: 23 }, (_, power) => 10 ** power);

const MOST_EXACT_DIGITS = 15;
const PLUS = 43;
const COMMA = 44;
const MINUS = 45;
const POINT = 46;

/**
 * Reads the number that begins at `at`: sign, digits, at most one point; blanks inside mean nothing
 * (NISTIR 6556 section 3.3.2.1, from memory). A fault still gives the value that was surely meant, or NaN.
 */
export function readNumber(bytes: Uint8Array, at: number, limit: number, out: NumberRead): void {
  let p = skipBlanks(bytes, at, limit);
  let negative = false;
  let signs = 0;
  while (p < limit && (bytes[p] === MINUS || bytes[p] === PLUS)) {
    if (bytes[p] === MINUS) negative = true;
    signs += 1;
    p = skipBlanks(bytes, p + 1, limit);
  }
  out.fault = signs > 1 ? NUMBER_FAULT.two_signs : NUMBER_FAULT.none;
  out.point = false;
  let mantissa = 0;
  let digits = 0;
  let fraction = 0;
  let text_end = p;
  for (;;) {
    const q = digits > 0 || out.point ? skipBlanks(bytes, p, limit) : p;
    const c = q < limit ? bytes[q] : 0;
    if (c >= 48 && c <= 57) {
      if (digits < MOST_EXACT_DIGITS || mantissa !== 0 || c !== 48) {
        mantissa = mantissa * 10 + (c - 48);
        digits += 1;
        if (out.point) fraction += 1;
      }
    } else if (c === POINT) {
      if (out.point) {
        out.fault = NUMBER_FAULT.two_points;
        text_end = skipNumberLike(bytes, q, limit);
        break;
      }
      out.point = true;
    } else if (c === COMMA && !out.point && isDigitAt(bytes, q + 1, limit)) {
      out.fault = NUMBER_FAULT.comma;
      out.point = true;
    } else if ((c === 79 || c === 111) && digits + (out.point ? 1 : 0) > 0 && endsAsZero(bytes, q, limit)) {
      out.fault = NUMBER_FAULT.letter_o;
      mantissa *= 10;
      digits += 1;
      if (out.point) fraction += 1;
    } else if ((c === 69 || c === 101) && digits > 0 && q === p && isExponent(bytes, q, limit)) {
      text_end = readExponent(bytes, q, limit, out, mantissa, fraction, negative);
      out.digits = digits;
      out.end = text_end;
      return;
    } else {
      break;
    }
    p = q + 1;
    text_end = p;
  }
  out.digits = digits;
  out.end = text_end;
  if (digits === 0 && out.fault !== NUMBER_FAULT.two_points) {
    out.value = Number.NaN;
    if (out.fault === NUMBER_FAULT.none) out.fault = NUMBER_FAULT.missing;
    return;
  }
  if (out.fault === NUMBER_FAULT.two_points || out.fault === NUMBER_FAULT.two_signs) {
    out.value = Number.NaN;
    return;
  }
  const size = scaled(mantissa, digits, fraction, bytes, at, text_end);
  out.value = negative ? -size : size;
}

export function skipBlanks(bytes: Uint8Array, at: number, limit: number): number {
  let p = at;
  while (p < limit && (bytes[p] === 32 || bytes[p] === 9)) p += 1;
  return p;
}

function scaled(
  mantissa: number,
  digits: number,
  fraction: number,
  bytes: Uint8Array,
  from: number,
  to: number,
): number {
  if (digits <= MOST_EXACT_DIGITS && fraction < POWERS_OF_TEN.length)
    return mantissa / POWERS_OF_TEN[fraction];
  let text = '';
  for (let p = from; p < to && text.length < 400; p += 1) {
    const c = bytes[p];
    if (c === POINT || c === COMMA) text += '.';
    else if (c >= 48 && c <= 57) text += String.fromCharCode(c);
    else if (c === 79 || c === 111) text += '0';
  }
  return Number(text);
}

function isDigitAt(bytes: Uint8Array, at: number, limit: number): boolean {
  return at < limit && bytes[at] >= 48 && bytes[at] <= 57;
}

/** A letter O inside or at the end of a number, where a zero was meant: no word begins with it here. */
function endsAsZero(bytes: Uint8Array, at: number, limit: number): boolean {
  if (at > 0 && (bytes[at - 1] === 32 || bytes[at - 1] === 9)) return false;
  const next = at + 1 < limit ? bytes[at + 1] : 32;
  if (next === POINT) return true;
  if (next >= 48 && next <= 57) return false;
  return (
    next === 32 ||
    next === 9 ||
    next === 40 ||
    next === 59 ||
    next < 32 ||
    (next >= 65 && next <= 90 && next !== 79)
  );
}

/** E, a sign and one or two digits: no lead of a thread is written so. */
function isExponent(bytes: Uint8Array, at: number, limit: number): boolean {
  const sign = at + 1 < limit ? bytes[at + 1] : 0;
  return (sign === MINUS || sign === PLUS) && isDigitAt(bytes, at + 2, limit);
}

function readExponent(
  bytes: Uint8Array,
  at: number,
  limit: number,
  out: NumberRead,
  mantissa: number,
  fraction: number,
  negative: boolean,
): number {
  let power = 0;
  let p = at + 2;
  while (isDigitAt(bytes, p, limit) && p < at + 5) {
    power = power * 10 + (bytes[p] - 48);
    p += 1;
  }
  const size = Number(`${mantissa}e${(bytes[at + 1] === MINUS ? -power : power) - fraction}`);
  out.value = negative ? -size : size;
  out.point = true;
  out.fault = NUMBER_FAULT.exponent;
  return p;
}

function skipNumberLike(bytes: Uint8Array, at: number, limit: number): number {
  let p = at;
  while (p < limit && (bytes[p] === POINT || bytes[p] === COMMA || isDigitAt(bytes, p, limit))) p += 1;
  return p;
}
