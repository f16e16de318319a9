const DEGREES = 180 / Math.PI;

/** Functions of one argument, angles in degrees. ADP is not among them: what it adds depends on the control's least increment. */
const FUNCTIONS: Readonly<Record<string, (x: number, ngc: boolean) => number>> = {
  ABS: x => Math.abs(x),
  ACOS: x => Math.acos(x) * DEGREES,
  ASIN: x => Math.asin(x) * DEGREES,
  ATAN: x => Math.atan(x) * DEGREES,
  COS: x => exactTurn(x, 90) ?? Math.cos(x / DEGREES),
  EXP: x => Math.exp(x),
  FIX: (x, ngc) => (ngc ? Math.floor(x) : Math.trunc(x)),
  FUP: (x, ngc) => (ngc ? Math.ceil(x) : Math.sign(x) * Math.ceil(Math.abs(x))),
  ROUND: x => Math.sign(x) * Math.floor(Math.abs(x) + 0.5),
  LN: x => Math.log(x),
  SIN: x => exactTurn(x, 0) ?? Math.sin(x / DEGREES),
  SQRT: x => Math.sqrt(x),
  TAN: x => Math.tan(x / DEGREES),
  BIN: x => digits(x, 10, 16),
  BCD: x => digits(x, 16, 10),
};

/** Other spellings on word-address controls. */
const SPELLINGS: Readonly<Record<string, string>> = { ATN: 'ATAN', SQR: 'SQRT', RND: 'ROUND' };

/** Whether a name in capitals is that of a function. */
export function isFunctionName(name: string): boolean {
  return name === 'EXISTS' || Object.hasOwn(FUNCTIONS, name) || Object.hasOwn(SPELLINGS, name);
}

/** Sine of whole quarter turns without the rounding of pi: `shift` 90 makes it the cosine. */
function exactTurn(degrees: number, shift: number): number | undefined {
  const turned = degrees + shift;
  if (turned % 90 !== 0) return undefined;
  const quarter = (((turned / 90) % 4) + 4) % 4;
  return [0, 1, 0, -1][quarter];
}

/** Reads the digits of a whole number in base `as` (BIN: 16, BCD: 10) and writes them in base `from`. */
function digits(x: number, from: number, as: number): number {
  let rest = Math.trunc(Math.abs(x));
  let result = 0;
  for (let place = 1; rest > 0; place *= from) {
    result += (rest % as) * place;
    rest = Math.floor(rest / as);
  }
  return result;
}

const longestFirst = (names: string[]): readonly string[] => names.sort((a, b) => b.length - a.length);
const MACRO_ONLY = ['BIN', 'BCD'];
const NGC_NAMES = longestFirst([
  ...Object.keys(FUNCTIONS).filter(name => !MACRO_ONLY.includes(name)),
  'EXISTS',
]);
const MACRO_NAMES = longestFirst([...Object.keys(FUNCTIONS), ...Object.keys(SPELLINGS), 'POW', 'ADP']);

/** Names of functions, longest first, for reading one out of text without blanks. */
export const functionNames = (ngc: boolean): readonly string[] => (ngc ? NGC_NAMES : MACRO_NAMES);

export const plainName = (name: string): string => SPELLINGS[name] ?? name;

/** Why a function has no value at `x`, or undefined. NISTIR 6556 section 3.3.2.4. */
export function functionFault(name: string, x: number): string | undefined {
  if (name === 'SQRT' && x < 0) return 'root-of-negative';
  if (name === 'LN' && x <= 0) return 'logarithm-of-zero';
  if ((name === 'ASIN' || name === 'ACOS') && Math.abs(x) > 1) return 'arc-function-range';
  return undefined;
}

/** Value of a function of one argument; the name is the plain one. */
export function apply(name: string, x: number, ngc: boolean): number {
  return (FUNCTIONS[name] ?? (() => Number.NaN))(x, ngc);
}

/** Angle of the point (b, a) in degrees, -180 to 180: `ATAN[a]/[b]`. */
export function arcTangent(a: number, b: number): number {
  return Math.atan2(a, b) * DEGREES;
}
