import { CUTTING_SAMPLES, OneOf } from '../../../server/scripts/cutting-samples/index.ts';
import * as cutting from '../../../server/src/cutting/index.ts';

/** Every function that the library exports, by name. */
type AnyFunction = (...args: readonly unknown[]) => unknown;
export const FUNCTIONS = Object.entries(cutting as Readonly<Record<string, unknown>>).filter(
  (entry): entry is [string, AnyFunction] => typeof entry[1] === 'function',
);

/** A seeded source of numbers from 0 to 1 (mulberry32), so that a failing input can be made again. */
export function seeded(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const EDGES = [
  0,
  -0,
  1,
  -1,
  0.5,
  2,
  45,
  90,
  180,
  360,
  1e-300,
  5e-324,
  1e300,
  Number.MAX_VALUE,
  -1e9,
  1e9,
  1e-9,
];

/** A number near the typical one, of any size, at an edge, or (rarely) not a number at all. */
function oddNumber(usual: number, random: () => number): unknown {
  const draw = random();
  if (draw < 0.45) return usual;
  if (draw < 0.65) return usual * 10 ** (4 * random() - 2);
  if (draw < 0.72) return Math.round(usual * 2 * random());
  if (draw < 0.78) return 10 ** (600 * random() - 300) * (random() < 0.2 ? -1 : 1);
  if (draw < 0.95) return EDGES[Math.floor(random() * EDGES.length)];
  if (draw < 0.97) return undefined;
  if (draw < 0.98) return { absent: 'not said', missing: ['something'] };
  return draw < 0.99 ? Number.NaN : Number.POSITIVE_INFINITY;
}

/** Odd arguments out of typical ones; texts stay within their choices. */
export function oddArguments(value: unknown, random: () => number): unknown {
  if (typeof value === 'number') return oddNumber(value, random);
  if (value instanceof OneOf) return value.choices[Math.floor(random() * value.choices.length)];
  if (typeof value === 'boolean') return random() < 0.5;
  if (value instanceof Float64Array) {
    const odd = Array.from(value, entry => oddNumber(entry, random));
    return Float64Array.from(odd, entry => (typeof entry === 'number' ? entry : Number.NaN));
  }
  if (Array.isArray(value)) {
    const odd = value.map(entry => oddArguments(entry, random));
    return random() < 0.05 ? odd.slice(1) : odd;
  }
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, oddArguments(entry, random)]));
}

/** The first place in a result that is not a finite number or a plain text; undefined when all is well. */
export function notFiniteIn(result: unknown, path = 'result'): string | undefined {
  if (typeof result === 'number') return Number.isFinite(result) ? undefined : `${path} is ${result}`;
  if (typeof result === 'string')
    return /NaN|Infinity|undefined|\[object/.test(result) ? `${path} reads ${result}` : undefined;
  if (result === undefined) return `${path} is undefined`;
  if (typeof result !== 'object' || result === null) return undefined;
  if (ArrayBuffer.isView(result)) {
    const at = Array.from(result as Float64Array).findIndex(entry => !Number.isFinite(entry));
    return at < 0 ? undefined : `${path}[${at}]`;
  }
  for (const [key, entry] of Object.entries(result)) {
    if (entry === undefined) continue;
    const found = notFiniteIn(entry, `${path}.${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Functions that hand back what they are given; their inputs are not checked for being finite. */
const PASS_THROUGH = new Set(['middle', 'absent', 'scaleEstimate']);

/** Tries odd inputs on every function in turn; gives the faults found and how many inputs were answered with a value. */
export function tryOddInputs(
  count: number,
  seed: number,
): { faults: string[]; tried: number; answered: number } {
  const random = seeded(seed);
  const faults: string[] = [];
  let answered = 0;
  for (let i = 0; i < count && faults.length < 20; i++) {
    const [name, call] = FUNCTIONS[i % FUNCTIONS.length]!;
    const sample = CUTTING_SAMPLES[name];
    if (sample === undefined || PASS_THROUGH.has(name)) continue;
    const args = sample.map(entry => oddArguments(entry, random));
    try {
      const result = call(...args);
      const fault = notFiniteIn(result);
      if (fault !== undefined) faults.push(`${name}(${write(args)}): ${fault}`);
      if (!cutting.isAbsent(result)) answered++;
    } catch (error) {
      faults.push(`${name}(${write(args)}) threw ${String(error)}`);
    }
  }
  return { faults, tried: count, answered };
}

const write = (args: readonly unknown[]): string =>
  JSON.stringify(args, (_, value: unknown) => {
    if (value instanceof Float64Array) return Array.from(value, String);
    return typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
  });
