import type { Hardness } from './material.ts';

/** Rockwell C against Brinell (3000 kgf), steel: ASTM E140, from memory. Used to compare, never shown as a measured value. */
const hrcToHb: readonly (readonly [hrc: number, hb: number])[] = [
  [20, 226],
  [25, 253],
  [30, 286],
  [35, 327],
  [40, 371],
  [45, 421],
  [50, 475],
  [55, 546],
  [60, 613],
  [65, 700],
];

/**
 * Reads a hardness as people write it: `95 HB`, `48 HRC`, `HRC 48-52`, `280 HBW`, `250 HV`.
 * @returns undefined when no scale or no number stands in it
 */
export function readHardness(text: string): Hardness | undefined {
  const number = String.raw`(\d+(?:\.\d+)?)(?:\s*(?:-|–|to)\s*(\d+(?:\.\d+)?))?`;
  const scale = '(HRC|HBW|HBS|HB|HV)';
  const before = new RegExp(`^\\s*${scale}\\s*${number}\\s*$`, 'i').exec(text);
  const after = new RegExp(`^\\s*${number}\\s*${scale}\\s*$`, 'i').exec(text);
  const [word, first, second] = before
    ? [before[1], before[2], before[3]]
    : after
      ? [after[3], after[1], after[2]]
      : [undefined, undefined, undefined];
  if (word === undefined || first === undefined) return undefined;
  const low = Number(first);
  const high = second === undefined ? low : Number(second);
  if (!(low > 0) || high < low) return undefined;
  const name = word.toUpperCase();
  return { scale: name === 'HRC' || name === 'HV' ? name : 'HB', low, high };
}

/**
 * Brinell figure for comparing hardness given on different scales.
 * HRC by the table above, 20 to 65, straight between its points and held at its ends; HV taken as 1.05 x HB (from memory, steel).
 */
export function asBrinell(hardness: Hardness): { low: number; high: number } {
  return { low: brinell(hardness.scale, hardness.low), high: brinell(hardness.scale, hardness.high) };
}

/** True over 40 HRC (371 HB), where hard milling and hard turning begin. */
export function isOver40Hrc(hardness: Hardness): boolean {
  if (hardness.scale === 'HRC') return hardness.high > 40;
  return asBrinell(hardness).high > 371;
}

/** True when the two ranges touch. */
export function hardnessOverlaps(a: Hardness, b: Hardness): boolean {
  const [first, second] = [asBrinell(a), asBrinell(b)];
  return first.low <= second.high && second.low <= first.high;
}

function brinell(scale: Hardness['scale'], value: number): number {
  if (scale === 'HB') return value;
  if (scale === 'HV') return value / 1.05;
  const last = hrcToHb.length - 1;
  for (let i = 1; i <= last; i++) {
    const [toHrc, toHb] = hrcToHb[i]!;
    const [fromHrc, fromHb] = hrcToHb[i - 1]!;
    if (value <= toHrc)
      return value <= fromHrc ? fromHb : fromHb + ((value - fromHrc) * (toHb - fromHb)) / (toHrc - fromHrc);
  }
  return hrcToHb[last]![1];
}
