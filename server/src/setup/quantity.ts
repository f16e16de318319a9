/** Units that bare numbers of a setup sheet or crib are in. */
export type SheetUnits = 'inch' | 'mm';

/** What a number in a sheet measures. Inside everything is mm, m/min, mm/min, degrees, kW, N m, N, s, m/s2, um. */
export const quantityKinds = {
  length: {
    inside: 'mm',
    mm: 1,
    inch: 25.4,
    units: { mm: 1, cm: 10, m: 1000, um: 0.001, in: 25.4, ft: 304.8, thou: 0.0254 },
  },
  surface_speed: {
    inside: 'm/min',
    mm: 1,
    inch: 0.3048,
    units: { 'm/min': 1, 'm/s': 60, sfm: 0.3048, 'ft/min': 0.3048 },
  },
  feed: {
    inside: 'mm/min',
    mm: 1,
    inch: 25.4,
    units: { 'mm/min': 1, 'm/min': 1000, 'in/min': 25.4, ipm: 25.4, 'mm/s': 60 },
  },
  chip_load: {
    inside: 'mm',
    mm: 1,
    inch: 25.4,
    units: { mm: 1, um: 0.001, in: 25.4, thou: 0.0254, 'mm/tooth': 1, 'in/tooth': 25.4, ipt: 25.4 },
  },
  feed_per_rev: {
    inside: 'mm',
    mm: 1,
    inch: 25.4,
    units: { mm: 1, um: 0.001, in: 25.4, 'mm/rev': 1, 'in/rev': 25.4, ipr: 25.4 },
  },
  angle: { inside: 'deg', mm: 1, inch: 1, units: { deg: 1, rad: 180 / Math.PI } },
  power: { inside: 'kW', mm: 1, inch: 1, units: { kw: 1, w: 0.001, hp: 0.745699872 } },
  torque: {
    inside: 'N m',
    mm: 1,
    inch: 1,
    units: { nm: 1, 'n m': 1, 'ft-lb': 1.3558179483, 'in-lb': 0.112984829 },
  },
  force: { inside: 'N', mm: 1, inch: 1, units: { n: 1, kn: 1000, lbf: 4.4482216153 } },
  time: { inside: 's', mm: undefined, inch: undefined, units: { s: 1, sec: 1, min: 60, h: 3600, ms: 0.001 } },
  acceleration: {
    inside: 'm/s2',
    mm: 1,
    inch: 1,
    units: { 'm/s2': 1, 'mm/s2': 0.001, g: 9.80665, 'in/s2': 0.0254 },
  },
  roughness: { inside: 'um', mm: undefined, inch: undefined, units: { um: 1, uin: 0.0254, mm: 1000 } },
} as const satisfies Record<string, QuantityRow>;

type QuantityRow = {
  inside: string;
  /** What a bare number is multiplied with, by the sheet's units; undefined: a bare number has no unit here. */
  mm: number | undefined;
  inch: number | undefined;
  units: Record<string, number>;
};

export type QuantityKind = keyof typeof quantityKinds;

/** A value inside, or why it cannot be told. `units` as reason: a bare number, and the sheet does not name its units. */
export type QuantityReading =
  | { value: number; unit?: string }
  | { why: 'units' | 'number' | 'unit'; message: string };

const spellings: Record<string, string> = {
  '"': 'in',
  '”': 'in',
  '″': 'in',
  inch: 'in',
  inches: 'in',
  'in.': 'in',
  millimeter: 'mm',
  millimetre: 'mm',
  µm: 'um',
  μm: 'um',
  micron: 'um',
  microns: 'um',
  µin: 'uin',
  μin: 'uin',
  '°': 'deg',
  degrees: 'deg',
  degree: 'deg',
  sfpm: 'sfm',
  fpm: 'ft/min',
  'inch/min': 'in/min',
  'inch/rev': 'in/rev',
  n·m: 'nm',
  ft·lb: 'ft-lb',
  'lb-ft': 'ft-lb',
  'ft lb': 'ft-lb',
  'lbf-ft': 'ft-lb',
  minutes: 'min',
  minute: 'min',
  seconds: 's',
  second: 's',
  hours: 'h',
  hour: 'h',
  'm/s²': 'm/s2',
  'm/s^2': 'm/s2',
  'mm/s²': 'mm/s2',
};

const numberPattern =
  /^([+-]?)(?:(\d{1,4})(?:\s+|\s*-\s*))?(\d{1,4})\s*\/\s*(\d{1,4})(?![\d.])|^[+-]?(?:\d{1,12}(?:\.\d{0,12})?|\.\d{1,12})(?:e[+-]?\d{1,3})?(?![\d.])/i;

/** A number at the start of a text, also as fraction `1/2`, `1-1/4`, `1 1/4`; with the text that follows it. */
export function readLeadingNumber(text: string): { value: number; rest: string } | undefined {
  const match = numberPattern.exec(text);
  if (!match) return undefined;
  const rest = text.slice(match[0].length);
  if (match[3] === undefined || match[4] === undefined) return { value: Number(match[0]), rest };
  const below = Number(match[4]);
  if (below === 0) return undefined;
  const size = Number(match[2] ?? 0) + Number(match[3]) / below;
  return { value: match[1] === '-' ? -size : size, rest };
}

/**
 * Reads a quantity of a setup sheet into the unit used inside (`quantityKinds[kind].inside`).
 * Bare numbers are in the sheet's units (speeds: m/min in mm sheets, ft/min in inch sheets); strings may carry a unit.
 */
export function readQuantity(
  kind: QuantityKind,
  raw: number | string,
  units: SheetUnits | undefined,
): QuantityReading {
  const row: QuantityRow = quantityKinds[kind];
  if (typeof raw === 'number') return readBare(row, raw, units);
  const text = raw.trim();
  const number = readLeadingNumber(text);
  if (!number || !Number.isFinite(number.value)) {
    const comma = /^\d+,\d+/.test(text) ? ' Write decimals with a point.' : '';
    return { why: 'number', message: `"${shorten(text)}" does not start with a number.${comma}` };
  }
  const unit = number.rest
    .trim()
    .toLowerCase()
    .replace(/\s*\/\s*/g, '/');
  if (unit === '') return readBare(row, number.value, units);
  const named = spellings[unit] ?? unit;
  const factor = Object.hasOwn(row.units, named) ? row.units[named] : undefined;
  if (factor === undefined) {
    return {
      why: 'unit',
      message: `"${shorten(unit)}" is not a unit here; use ${Object.keys(row.units).join(', ')}.`,
    };
  }
  return { value: product(number.value, factor), unit: named };
}

function readBare(row: QuantityRow, value: number, units: SheetUnits | undefined): QuantityReading {
  if (row.mm === undefined || row.inch === undefined) {
    return {
      why: 'unit',
      message: `A number alone has no unit here; write one of ${Object.keys(row.units).join(', ')}.`,
    };
  }
  if (row.mm === row.inch) return { value: product(value, row.mm) };
  if (!units)
    return {
      why: 'units',
      message: 'A bare number, and "units" is not stated: write "units", or the unit behind the number.',
    };
  return { value: product(value, units === 'inch' ? row.inch : row.mm) };
}

/** A product without the noise of binary fractions: 0.375 x 25.4 is 9.525. Good to 12 figures. */
export function product(value: number, factor: number): number {
  return Number((value * factor).toPrecision(12));
}

function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
