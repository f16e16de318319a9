/** Bytes that an expression is made of. */
export const ZERO = 48;
export const POINT = 46;
export const PLUS = 43;
export const MINUS = 45;
export const STAR = 42;
export const SLASH = 47;
export const COMMA = 44;
export const OPEN = 91;
export const CLOSE = 93;
export const HASH = 35;
export const LESS = 60;
export const GREATER = 62;
export const EQUALS = 61;
export const isDigit = (c: number): boolean => c >= 48 && c <= 57;
export const isLetter = (c: number): boolean => (c >= 65 && c <= 90) || (c >= 97 && c <= 122);
