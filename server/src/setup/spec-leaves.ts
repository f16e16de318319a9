import type { Node } from 'jsonc-parser';
import { nearestName } from './nearest.ts';
import { type QuantityKind, readQuantity } from './quantity.ts';
import type { ReadContext } from './read-context.ts';
import { list, mapped, type Spec, type TextForm } from './spec.ts';
import { readPitch } from './threads.ts';

/** Limits of a number: `above` excludes the limit itself, `least` and `most` include it. In the unit used inside. */
export type Limits = { least?: number; most?: number; above?: number };

const textLimit = 2000;
const shortText = 200;

/** A text, up to 2000 characters. */
export function text(): Spec<string> {
  return {
    shape: { is: 'text' },
    accepts: ['string'],
    read: (node, context) => {
      const value = String(node.value);
      if (value.length <= textLimit) return value;
      context.report('setup-range', node, `${context.path} is longer than ${textLimit} characters.`);
      return undefined;
    },
  };
}

/** One of a few words; upper and lower case count the same. */
export function oneOf<const V extends string>(...values: readonly V[]): Spec<V> {
  return {
    shape: { is: 'text', values },
    accepts: ['string'],
    read: (node, context) => {
      const written = String(node.value);
      const found = values.find(value => value === written.trim().toLowerCase());
      if (found !== undefined) return found;
      const near = nearestName(written, values);
      context.report(
        'setup-value',
        node,
        `${context.path} must be one of ${values.map(value => `"${value}"`).join(', ')}.${near ? ` Is "${near}" meant?` : ''}`,
        near,
      );
      return undefined;
    },
  };
}

/** A text that `read` understands, described by its form. */
export function formed<T>(form: TextForm, read: (value: string) => T | undefined): Spec<T> {
  return {
    shape: { is: 'text', form },
    accepts: ['string'],
    read: (node, context) => {
      const written = String(node.value).trim();
      const value = written.length <= shortText ? read(written) : undefined;
      if (value === undefined) {
        context.report(
          'setup-value',
          node,
          `${context.path} must be ${form.name} such as "${form.example}".`,
        );
      }
      return value;
    },
  };
}

/** A quantity: a bare number in the sheet's units, or a text with a unit. */
export function quantity(kind: QuantityKind, limits: Limits = {}): Spec<number> {
  return {
    shape: { is: 'quantity', quantity: kind, ...limits },
    accepts: ['number', 'string'],
    read: (node, context) => {
      const reading = readQuantity(kind, node.value as number | string, context.units);
      if ('value' in reading) return withinLimits(reading.value, limits, node, context);
      const code =
        reading.why === 'units'
          ? 'setup-units-missing'
          : reading.why === 'unit'
            ? 'setup-unit'
            : 'setup-type';
      context.report(code, node, `${context.path}: ${reading.message}`);
      return undefined;
    },
  };
}

/** A length that must be more than nothing, and less than any machine. */
export const size = () => quantity('length', { above: 0, most: 100_000 });
/** A length that may be nothing or more. */
export const sizeOrNone = () => quantity('length', { least: 0, most: 100_000 });
/** A coordinate: any length. */
export const coordinate = () => quantity('length', { least: -1_000_000, most: 1_000_000 });

/** A thread pitch: a length, or a thread such as `M6x1`, `1/4-20`, `20 tpi`. */
export function pitch(): Spec<number> {
  const limits: Limits = { above: 0, most: 200 };
  return {
    shape: { is: 'quantity', quantity: 'pitch', ...limits },
    accepts: ['number', 'string'],
    read: (node, context) => {
      if (typeof node.value === 'string' && node.value.length <= shortText) {
        const pitch_mm = readPitch(node.value);
        if (pitch_mm !== undefined) return withinLimits(pitch_mm, limits, node, context);
      }
      return quantity('length', limits).read(node, context);
    },
  };
}

/** A plain number with limits. */
export function number(limits: Limits & { whole?: boolean } = {}): Spec<number> {
  return {
    shape: { is: 'number', ...limits },
    accepts: ['number'],
    read: (node, context) => {
      const value = Number(node.value);
      if (limits.whole && !Number.isSafeInteger(value)) {
        context.report('setup-range', node, `${context.path} must be a whole number.`);
        return undefined;
      }
      return withinLimits(value, limits, node, context);
    },
  };
}

/** true or false. */
export function truth(): Spec<boolean> {
  return { shape: { is: 'truth' }, accepts: ['boolean'], read: node => node.value === true };
}

/** `[lowest, highest]`: two values, in this order. */
export function range(of: Spec<number>): Spec<[number, number]> {
  return mapped(list(of, { least: 2, most: 2, whole: true }), ([low, high], node, context) => {
    if (low === undefined || high === undefined) return undefined;
    if (low <= high) return [low, high];
    context.report('setup-range', node, `${context.path}: the first number is the lower one.`);
    return undefined;
  });
}

/** `[x, y, z]`. */
export function triple(of: Spec<number>): Spec<[number, number, number]> {
  return mapped(list(of, { least: 3, most: 3, whole: true }), ([x, y, z]) =>
    x === undefined || y === undefined || z === undefined ? undefined : [x, y, z],
  );
}

function withinLimits(value: number, limits: Limits, node: Node, context: ReadContext): number | undefined {
  const { least, most, above } = limits;
  const wrong =
    !Number.isFinite(value) ||
    (above !== undefined && value <= above) ||
    (least !== undefined && value < least) ||
    (most !== undefined && value > most);
  if (!wrong) return value;
  const parts = [
    ...(above === undefined ? [] : [`more than ${above}`]),
    ...(least === undefined ? [] : [`at least ${least}`]),
    ...(most === undefined ? [] : [`at most ${most}`]),
  ];
  context.report('setup-range', node, `${context.path} must be ${parts.join(' and ')}.`);
  return undefined;
}
