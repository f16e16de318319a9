import type { Dialect } from '../codes/shape.ts';

/** Operators of an expression; the value is its place in the tables below. */
export const OPERATOR = {
  power: 1,
  times: 2,
  divide: 3,
  modulo: 4,
  plus: 5,
  minus: 6,
  equal: 7,
  not_equal: 8,
  greater: 9,
  greater_or_equal: 10,
  less: 11,
  less_or_equal: 12,
  and: 13,
  or: 14,
  exclusive_or: 15,
} as const;

/** Operators written as words. */
export const OPERATOR_WORDS: Readonly<Record<string, number>> = {
  MOD: OPERATOR.modulo,
  EQ: OPERATOR.equal,
  NE: OPERATOR.not_equal,
  GT: OPERATOR.greater,
  GE: OPERATOR.greater_or_equal,
  LT: OPERATOR.less,
  LE: OPERATOR.less_or_equal,
  AND: OPERATOR.and,
  OR: OPERATOR.or,
  XOR: OPERATOR.exclusive_or,
};

/** Strength by operator, strongest highest. NISTIR 6556 section 3.3.2.3 and its successor: power, product, sum, comparison, logic. */
const NGC_STRENGTH: readonly number[] = [0, 5, 4, 4, 4, 3, 3, 2, 2, 2, 2, 2, 2, 1, 1, 1];
/** Word-address macros: AND with the products, OR and XOR with the sums, comparisons last. Common practice, from memory. */
const MACRO_STRENGTH: readonly number[] = [0, 5, 4, 4, 4, 3, 3, 2, 2, 2, 2, 2, 2, 4, 3, 3];

export function strengths(dialect: Dialect): readonly number[] {
  return dialect === 'ngc' ? NGC_STRENGTH : MACRO_STRENGTH;
}

export const isComparison = (operator: number): boolean =>
  operator >= OPERATOR.equal && operator <= OPERATOR.less_or_equal;
export const isLogic = (operator: number): boolean => operator >= OPERATOR.and;

/** Two numbers count as equal within this: the report's successor 0.0001; macro controls carry 8 to 9 digits (common practice, from memory). */
function same(a: number, b: number, ngc: boolean): boolean {
  return ngc ? Math.abs(a - b) < 0.0001 : Math.abs(a - b) <= 1e-8 * Math.max(1, Math.abs(a), Math.abs(b));
}

function compare(operator: number, a: number, b: number, ngc: boolean): boolean {
  switch (operator) {
    case OPERATOR.equal:
      return same(a, b, ngc);
    case OPERATOR.not_equal:
      return !same(a, b, ngc);
    case OPERATOR.greater:
      return ngc ? a > b : a > b && !same(a, b, ngc);
    case OPERATOR.greater_or_equal:
      return ngc ? a >= b : a >= b || same(a, b, ngc);
    case OPERATOR.less:
      return ngc ? a < b : a < b && !same(a, b, ngc);
    default:
      return ngc ? a <= b : a <= b || same(a, b, ngc);
  }
}

/** Why an operation has no value, or undefined. */
export function operationFault(operator: number, a: number, b: number): string | undefined {
  if ((operator === OPERATOR.divide || operator === OPERATOR.modulo) && b === 0) return 'division-by-zero';
  if (operator === OPERATOR.power && a < 0 && !Number.isInteger(b)) return 'power-of-negative';
  if (operator === OPERATOR.power && a === 0 && b < 0) return 'division-by-zero';
  return undefined;
}

/**
 * Value of `a operator b`. Comparisons give 1 or 0. In `ngc` the remainder is never negative and AND, OR, XOR are
 * logical; on word-address macros the remainder has the sign of `a` and they work bit by bit on whole numbers.
 */
export function operate(operator: number, a: number, b: number, ngc: boolean): number {
  switch (operator) {
    case OPERATOR.power:
      return a ** b;
    case OPERATOR.times:
      return a * b;
    case OPERATOR.divide:
      return a / b;
    case OPERATOR.modulo: {
      const rest = a % b;
      return ngc && rest < 0 ? rest + Math.abs(b) : rest;
    }
    case OPERATOR.plus:
      return a + b;
    case OPERATOR.minus:
      return a - b;
    case OPERATOR.and:
      return ngc ? Number(a !== 0 && b !== 0) : Math.trunc(a) & Math.trunc(b);
    case OPERATOR.or:
      return ngc ? Number(a !== 0 || b !== 0) : Math.trunc(a) | Math.trunc(b);
    case OPERATOR.exclusive_or:
      return ngc ? Number((a !== 0) !== (b !== 0)) : Math.trunc(a) ^ Math.trunc(b);
    default:
      return Number(compare(operator, a, b, ngc));
  }
}
