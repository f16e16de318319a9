import type { FormatKind, Rounding, Style } from './format-kinds.ts';
import { FORMAT_KINDS } from './format-kinds.ts';
import type { QuantityName } from './quantities.ts';
import { QUANTITIES } from './quantities.ts';
import type { Absent, Estimate } from './result.ts';
import { isAbsent, isEstimate } from './result.ts';
import { UNITS } from './units.ts';

/** Whether lengths and what hangs on them are shown in millimetres or inches. */
export type ShownUnits = 'mm' | 'inch';

/** A number as it is shown, and the text of its unit. */
export interface Shown {
  readonly number: string;
  readonly unit: string;
}

/**
 * A quantity as people read it: number and unit, in the units of the reader. An estimate reads "about 1.1 to 1.6 kW",
 * an absence reads its reason.
 * @formula conversion by the table UNITS, rounding by the table FORMAT_KINDS
 * @units value in the unit of the quantity's name; shown in mm or inch units; gives text
 * @range any number; numbers that are not finite read "not known"
 * @source figures: speed 3, chip load 3 decimals (mm) or 4 (in), force and power 2 (common practice, no source)
 */
export function formatQuantity(
  name: QuantityName,
  value: number | Estimate | Absent | undefined,
  units: ShownUnits,
): string {
  if (value === undefined) return 'not known';
  if (isAbsent(value)) return value.absent;
  if (!isEstimate(value)) return join(showQuantity(name, value, units));
  const low = showQuantity(name, value.low, units);
  const high = showQuantity(name, value.high, units);
  if (low.unit !== high.unit || QUANTITIES[name].format === 'time')
    return `about ${join(low)} to ${join(high)}`;
  return low.number === high.number ? `about ${join(low)}` : `about ${low.number} to ${join(high)}`;
}

/**
 * The number of a quantity and the text of its unit apart, for tables.
 * @formula as formatQuantity
 * @units as formatQuantity; gives number and unit as text
 * @range as formatQuantity
 * @source as formatQuantity
 */
export function showQuantity(name: QuantityName, value: number, units: ShownUnits): Shown {
  const kind: FormatKind = QUANTITIES[name].format;
  if (!Number.isFinite(value)) return { number: 'not known', unit: '' };
  if (kind === 'time') return { number: timeText(value), unit: '' };
  const style: Style = FORMAT_KINDS[kind][units];
  const shown = shownValue(style, value);
  if (!Number.isFinite(shown)) return { number: 'too large to state', unit: '' };
  return { number: roundedText(shown, style.rounding), unit: style.text };
}

/**
 * The unit in which a quantity is shown.
 * @formula table FORMAT_KINDS
 * @units gives text
 * @range every quantity of the table
 * @source definition in this library
 */
export function shownUnit(name: QuantityName, units: ShownUnits): string {
  return FORMAT_KINDS[QUANTITIES[name].format][units].text;
}

/**
 * A time in words: 0.35 s, 8.5 s, 23 s, 1 min 23 s, 2 h 05 min.
 * @formula hours, minutes and seconds, the two largest that matter
 * @units seconds; gives text
 * @range any finite number; anything else reads "not known"
 * @source common practice, no source
 */
export function formatTime(time_s: number): string {
  return Number.isFinite(time_s) ? timeText(time_s) : 'not known';
}

function timeText(time_s: number): string {
  if (time_s < 0) return `-${timeText(-time_s)}`;
  if (time_s < 9.95) return `${roundedText(time_s, { figures: 2, whole: true })} s`;
  const whole = Math.round(time_s);
  if (whole < 60) return `${whole} s`;
  const minutes = Math.round(time_s / 60);
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, '0')} s`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;
}

const join = ({ number, unit }: Shown): string => {
  if (unit === '') return number;
  return unit === '°' ? `${number}°` : `${number} ${unit}`;
};

function shownValue(style: Style, value: number): number {
  if (style.from === undefined || style.to === undefined) return value;
  return (value * UNITS[style.from][1]) / UNITS[style.to][1];
}

/** Rounds half away from zero on the decimal number a person would read, so that 0.0625 does not turn on binary dust. */
export function roundedText(value: number, rounding: Rounding): string {
  if (value === 0) return 'keep' in rounding && rounding.keep ? (0).toFixed(rounding.decimals) : '0';
  const size = Math.floor(Math.log10(Math.abs(value)));
  if ('figures' in rounding) {
    const decimals = rounding.figures - 1 - size;
    if (decimals > 0) return trimmed(fixedText(value, Math.min(decimals, 20)));
    return rounding.whole ? fixedText(value, 0) : plainInteger(value, -decimals);
  }
  const decimals = Math.min(20, Math.max(rounding.decimals, rounding.keep ? 1 - size : rounding.decimals));
  const text = fixedText(value, decimals);
  return rounding.keep ? text : trimmed(text);
}

const fixedText = (value: number, decimals: number): string => {
  if (Math.abs(value) >= 1e15) return BigInt(Math.round(value)).toString();
  const text = (value * (1 + Number.EPSILON * 4)).toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
};

const plainInteger = (value: number, zeros: number): string => {
  if (Math.abs(value) >= 1e15) return fixedText(value, 0);
  const step = 10 ** zeros;
  return fixedText(Math.round((value / step) * (1 + Number.EPSILON * 4)) * step, 0);
};

const trimmed = (text: string): string => (text.includes('.') ? text.replace(/\.?0+$/, '') : text);
