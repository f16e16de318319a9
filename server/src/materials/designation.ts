import { readHardness } from './hardness.ts';
import type { Hardness, HeatState, Material, MaterialGroup } from './material.ts';

/** Longest text that is looked at as a designation, in UTF-16 units. */
export const longestDesignation = 120;

/** A designation taken apart: the name proper and what was said around it. */
export interface ReadDesignation {
  /** What is left once condition, hardness and family words are taken off. */
  readonly name: string;
  readonly temper?: string;
  readonly state?: HeatState;
  readonly hardness?: Hardness;
  readonly groups?: readonly MaterialGroup[];
}

/** The form in which two spellings of one designation are equal: case, blanks, dashes, dots and slashes do not count. */
export function designationKey(text: string): string {
  return text
    .slice(0, longestDesignation)
    .normalize('NFKD')
    .toUpperCase()
    .replace(/[^A-Z0-9+]+/g, '');
}

const states: readonly (readonly [HeatState, RegExp])[] = [
  ['soft', /[\s,+-]+(ANNEALED|ANN|SOFT|SPHEROIDI[SZ]ED|NORMALI[SZ]ED|NORM|A|N)$/],
  ['tempered', /[\s,+-]+(HT|PH|QT|Q&T|Q\+T|PRE-?\s?HARD(?:ENED)?|QUENCHED AND TEMPERED|HEAT TREATED)$/],
  ['hardened', /[\s,+-]+(HARDENED|HARD)$/],
];
const hardnessAtEnd =
  /[\s,(-]+((?:HRC|HBW?|HV)\s*\d[\d.\s-]*|\d[\d.]*(?:\s*-\s*\d[\d.]*)?\s*(?:HRC|HBW?|HV))\)?$/;
const temperAtEnd = /(?:[\s,-]*(T\d{1,5}|H\d{2,4})|[\s,-]+([OFW]))$/;
const shapeAtEnd =
  /[\s,+-]+(BAR|PLATE|SHEET|ROD|TUBE|BLOCK|BILLET|CRS|HRS|COLD DRAWN|COLD ROLLED|HOT ROLLED|CD|HR|CR|AS CAST|CAST|EXTRUDED)$/;
const bodies =
  /^(?:AISI|SAE|ASTM|DIN|EN|UNS|JIS|BS|AA|AW|CDA|ISO|TYPE|MATERIAL|MAT|W\.?\s?-?\s?NR|WERKSTOFF(?:NUMMER|-?NR)?)(?:[\s.:-]+|(?=\d))/;
const families: readonly (readonly [RegExp, readonly MaterialGroup[]])[] = [
  [/\b(?:AL|ALU|ALUMINI?UM)\b/, ['N']],
  [/^SS(?=\d{3})|(?<=\d{3}L?)SS$|\b(?:SS|STAINLESS(?:\s+STEEL)?)\b/, ['M', 'P']],
  [/\b(?:TI|TITANIUM)\b/, ['S']],
  [/\b(?:BRASS|BRONZE|COPPER)\b/, ['N']],
  [/\b(?:CAST\s+IRON|IRON)\b/, ['K']],
  [/\b(?:TOOL\s+STEEL|STEEL)\b/, ['P', 'M', 'H']],
  [/\bALLOY\b/, ['N', 'S', 'P', 'M']],
];

/**
 * Takes a designation apart: `AISI 4140 QT 30 HRC` gives the name `4140`, the state and the hardness.
 * Only the words of the lists above are taken off; everything else stays in the name. Never throws, any text may come.
 */
export function readDesignation(text: string): ReadDesignation {
  let rest = text.slice(0, longestDesignation).normalize('NFKC').toUpperCase().trim();
  const found: {
    temper?: string;
    state?: HeatState;
    hardness?: Hardness;
    groups?: readonly MaterialGroup[];
  } = {};
  for (let turn = 0; turn < 8; turn++) {
    const before = rest;
    const hardness = hardnessAtEnd.exec(rest);
    const read = hardness?.[1] === undefined ? undefined : readHardness(hardness[1]);
    if (hardness !== null && read !== undefined) {
      found.hardness ??= read;
      rest = rest.slice(0, hardness.index).trim();
    }
    for (const [state, pattern] of states) {
      const match = pattern.exec(rest);
      if (match === null) continue;
      found.state ??= state;
      rest = rest.slice(0, match.index).trim();
    }
    rest = rest.replace(shapeAtEnd, '').replace(bodies, '').trim();
    for (const [pattern, groups] of families) {
      const without = rest.replace(pattern, ' ').trim();
      if (without === rest || without === '' || !/\d/.test(without)) continue;
      found.groups ??= groups;
      rest = without;
    }
    const temper = temperAtEnd.exec(rest);
    if (temper !== null && temper.index > 0) {
      found.temper ??= temper[1] ?? temper[2];
      rest = rest.slice(0, temper.index).trim();
    }
    if (rest === before) break;
  }
  return { name: rest, ...found };
}

/** How unlike two keys are: 0 the same, 1 nothing in common. Runs of the shorter one inside the longer count as likeness. */
export function unlikeness(a: string, b: string): number {
  if (a === b) return 0;
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  if (short.length >= 3 && long.includes(short)) return 0.25 * (1 - short.length / long.length);
  return editDistance(a, b) / Math.max(a.length, b.length, 1);
}

/** Words for a list of conditions: `annealed (180-220 HB)`. */
export function conditionWords(material: Material): string {
  const hardness = material.hardness;
  const range = hardness ? ` (${hardness.low}-${hardness.high} ${hardness.scale})` : '';
  return `${material.name}${material.condition ? `, ${material.condition}` : ''}${range}`;
}

function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? a.length;
}
