import { product } from './quantity.ts';

/** A thread by its name: major diameter and pitch, in mm. */
export type ThreadName = { name: string; major_diameter_mm: number; pitch_mm: number; taper: boolean };

const inch = 25.4;

/** ISO 261 coarse pitches by nominal diameter (mm). */
const metricCoarse: Record<string, number> = {
  '1': 0.25,
  '1.2': 0.25,
  '1.4': 0.3,
  '1.6': 0.35,
  '1.8': 0.35,
  '2': 0.4,
  '2.2': 0.45,
  '2.5': 0.45,
  '3': 0.5,
  '3.5': 0.6,
  '4': 0.7,
  '4.5': 0.75,
  '5': 0.8,
  '6': 1,
  '7': 1,
  '8': 1.25,
  '9': 1.25,
  '10': 1.5,
  '11': 1.5,
  '12': 1.75,
  '14': 2,
  '16': 2,
  '18': 2.5,
  '20': 2.5,
  '22': 2.5,
  '24': 3,
  '27': 3,
  '30': 3.5,
  '33': 3.5,
  '36': 4,
  '39': 4,
  '42': 4.5,
  '45': 4.5,
  '48': 5,
  '52': 5,
  '56': 5.5,
  '60': 5.5,
  '64': 6,
};

/** Threads per inch of ASME B1.1: coarse, fine. Numbered sizes have a major diameter of 0.060 in + 0.013 in a number. */
const unified: Record<string, readonly [coarse: number | undefined, fine: number | undefined]> = {
  '#0': [undefined, 80],
  '#1': [64, 72],
  '#2': [56, 64],
  '#3': [48, 56],
  '#4': [40, 48],
  '#5': [40, 44],
  '#6': [32, 40],
  '#8': [32, 36],
  '#10': [24, 32],
  '#12': [24, 28],
  '1/4': [20, 28],
  '5/16': [18, 24],
  '3/8': [16, 24],
  '7/16': [14, 20],
  '1/2': [13, 20],
  '9/16': [12, 18],
  '5/8': [11, 18],
  '3/4': [10, 16],
  '7/8': [9, 14],
  '1': [8, 12],
  '1-1/8': [7, 12],
  '1-1/4': [7, 12],
  '1-3/8': [6, 12],
  '1-1/2': [6, 12],
};

/** Threads per inch and outside diameter (in) of pipe threads, ASME B1.20.1. */
const npt: Record<string, readonly [outside_in: number, per_inch: number]> = {
  '1/16': [0.3125, 27],
  '1/8': [0.405, 27],
  '1/4': [0.54, 18],
  '3/8': [0.675, 18],
  '1/2': [0.84, 14],
  '3/4': [1.05, 14],
  '1': [1.315, 11.5],
  '1-1/4': [1.66, 11.5],
  '1-1/2': [1.9, 11.5],
  '2': [2.375, 11.5],
};

/** Threads per inch and major diameter (mm) of parallel pipe threads, ISO 228-1. */
const pipeG: Record<string, readonly [major_mm: number, per_inch: number]> = {
  '1/16': [7.723, 28],
  '1/8': [9.728, 28],
  '1/4': [13.157, 19],
  '3/8': [16.662, 19],
  '1/2': [20.955, 14],
  '5/8': [22.911, 14],
  '3/4': [26.441, 14],
  '7/8': [30.201, 14],
  '1': [33.249, 11],
  '1-1/4': [41.91, 11],
  '1-1/2': [47.803, 11],
  '2': [59.614, 11],
};

const fraction = String.raw`(?:\d{1,2}[ -])?\d{1,2}\/\d{1,2}|\d{1,2}`;

const forms: readonly { pattern: RegExp; read: (match: RegExpExecArray) => ThreadName | undefined }[] = [
  {
    pattern: /\bM ?(\d{1,3}(?:\.\d{1,2})?|\.\d{1,2})\.? ?[X*] ?(\d{0,2}\.?\d{1,3})(?![\d.]*\d)/i,
    read: m => metric(Number(m[1]), Number(m[2])),
  },
  {
    pattern: /\bM(\d{1,3}(?:\.\d{1,2})?) ?- ?(\d{0,1}\.\d{1,3}|[1-6])(?![\d.H])/i,
    read: m => metric(Number(m[1]), Number(m[2])),
  },
  {
    pattern: /\bM(\d{1,2}(?:\.\d)?)(?![\d.\w]|\s*-?\s*\d)/i,
    read: m => metric(Number(m[1]), metricCoarse[String(Number(m[1]))]),
  },
  {
    pattern: new RegExp(String.raw`(?<![\d./-])(${fraction})"? ?-? ?(?:\d+(?:\.\d)? ?)?NPT[FS]?\b`, 'i'),
    read: m => fromTable('NPT', m[1], npt, inch, true),
  },
  {
    pattern: new RegExp(String.raw`\b(?:G|BSPP?) ?(${fraction})(?![\d./])`, 'i'),
    read: m => fromTable('G', m[1], pipeG, 1, false),
  },
  {
    pattern:
      /(?<![\d./-])((?:\d{1,2}[ -])?\d{1,2}\/\d{1,2}|\d{1,2}\.\d{0,4}|\.\d{2,4}|\d(?=-\d{1,2} ?UN))"? ?(?:-|X| ) ?(\d{1,2}(?:\.5)?)(?= ?(?:TPI|UN[A-Z]*|TAP|THR|$|[^\d./\w-]))/i,
    read: m => unifiedThread(m[1], Number(m[2])),
  },
  {
    pattern: /(?<![\d./-])(?:#|NO\.? ?)(\d{1,2}) ?[-X] ?(\d{2})(?![\d./])/i,
    read: m => unifiedThread(`#${m[1]}`, Number(m[2])),
  },
  {
    pattern: /(?<![\d./#-])(0|1|2|3|4|5|6|8|10|12) ?- ?(80|72|64|56|48|44|40|36|32|28|24)(?![\d./])/,
    read: numberedThread,
  },
  {
    pattern: new RegExp(String.raw`(?<![\d./#-])(#\d{1,2}|${fraction})"? ?UN([CF])\b`, 'i'),
    read: m => bySeries(m[1], m[2]),
  },
];

/** Finds a thread name in a text: `M10X1.5`, `M6`, `1/4-20`, `#10-32`, `10-32`, `3/8 UNC`, `1/4 NPT`, `G1/4`. */
export function findThread(text: string): (ThreadName & { start: number; end: number }) | undefined {
  for (const { pattern, read } of forms) {
    const match = pattern.exec(text);
    const thread = match && read(match);
    if (match && thread) return { ...thread, start: match.index, end: match.index + match[0].length };
  }
  return undefined;
}

/** The pitch in mm that a text of a setup sheet names: a thread name, or threads per inch; undefined if it is neither. */
export function readPitch(text: string): number | undefined {
  const perInch = /^\s*(\d{1,3}(?:\.5)?)\s*(?:tpi|threads?\/in(?:ch)?)\s*$/i.exec(text);
  if (perInch) return Number(perInch[1]) > 0 ? product(1 / Number(perInch[1]), inch) : undefined;
  const thread = findThread(text.trim());
  return thread &&
    thread.end - thread.start >= text.trim().replace(/\s*(UN[CFE]*F?|TAP|[1-3][AB]|6[GHgh])$/i, '').length
    ? thread.pitch_mm
    : undefined;
}

function metric(diameter: number, pitch: number | undefined): ThreadName | undefined {
  if (pitch === undefined || !(pitch > 0) || !(diameter > 0) || pitch > Math.max(0.6 * diameter, 0.3))
    return undefined;
  return { name: `M${diameter}x${pitch}`, major_diameter_mm: diameter, pitch_mm: pitch, taper: false };
}

function numberedThread(match: RegExpExecArray): ThreadName | undefined {
  const rows = unified[`#${match[1]}`];
  return rows?.includes(Number(match[2])) ? unifiedThread(`#${match[1]}`, Number(match[2])) : undefined;
}

function unifiedThread(size: string | undefined, perInch: number): ThreadName | undefined {
  const diameter_in = inchSize(size ?? '');
  if (diameter_in === undefined || perInch < 4 || perInch > 80) return undefined;
  const pitch_in = 1 / perInch;
  if (pitch_in > 0.45 * diameter_in) return undefined;
  return {
    name: `${size}-${perInch}`,
    major_diameter_mm: product(diameter_in, inch),
    pitch_mm: product(pitch_in, inch),
    taper: false,
  };
}

function bySeries(size: string | undefined, series: string | undefined): ThreadName | undefined {
  const key = (size ?? '').replace(' ', '-');
  const perInch = unified[key]?.[series?.toUpperCase() === 'F' ? 1 : 0];
  return perInch === undefined ? undefined : unifiedThread(key, perInch);
}

function fromTable(
  name: string,
  size: string | undefined,
  table: Record<string, readonly [number, number]>,
  scale: number,
  taper: boolean,
): ThreadName | undefined {
  const key = (size ?? '').replace(' ', '-');
  const row = Object.hasOwn(table, key) ? table[key] : undefined;
  return (
    row && {
      name: taper ? `${key} ${name}` : `${name}${key}`,
      major_diameter_mm: product(row[0], scale),
      pitch_mm: product(1 / row[1], inch),
      taper,
    }
  );
}

function inchSize(text: string): number | undefined {
  const numbered = /^#(\d{1,2})$/.exec(text);
  if (numbered) return Number(numbered[1]) <= 12 ? 0.06 + 0.013 * Number(numbered[1]) : undefined;
  const parts = /^(?:(\d{1,2})[ -])?(\d{1,2})\/(\d{1,2})$/.exec(text);
  if (parts)
    return Number(parts[3]) > 0 ? Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3]) : undefined;
  const value = Number(text);
  return value > 0 ? value : undefined;
}
