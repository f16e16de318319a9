import type { ReadDesignation } from './designation.ts';
import {
  conditionWords,
  designationKey,
  longestDesignation,
  readDesignation,
  unlikeness,
} from './designation.ts';
import { hardnessOverlaps } from './hardness.ts';
import type { Designation, Hardness, Material } from './material.ts';
import { builtInMaterials } from './table.ts';

export interface MaterialFound {
  readonly kind: 'found';
  readonly material: Material;
  /** The name it was found by; `near` says that it is a neighbour, not the same grade. */
  readonly by: Designation;
  readonly temper?: string;
  /** What a reader should know: a near equivalent, another temper or hardness than the figures are for. */
  readonly notes: readonly string[];
}

export interface MaterialNotFound {
  /** `ambiguous`: the name fits several rows; `unknown`: it fits none. */
  readonly kind: 'ambiguous' | 'unknown';
  readonly why: string;
  /** Nearest known materials, best first, at most five; for `ambiguous` all that fit. */
  readonly nearest: readonly Material[];
}

export interface FindOptions {
  /** Hardness from the setup sheet: tells conditions of one alloy apart. */
  readonly hardness?: Hardness;
  readonly materials?: readonly Material[];
}

interface Entry {
  readonly material: Material;
  readonly by: Designation;
}

/**
 * Finds a workpiece material by any of its names: EN number or symbol, AISI/SAE, UNS, JIS, DIN, AA, with temper, state or hardness
 * behind it. Case, blanks, dashes and dots do not count. A name that fits several conditions of one alloy is settled by the hardness,
 * else it is ambiguous; nothing is picked in silence.
 * @returns the material, or why not with the nearest known ones. Never throws.
 */
export function findMaterial(text: string, options: FindOptions = {}): MaterialFound | MaterialNotFound {
  const materials = options.materials ?? builtInMaterials;
  const index = indexOf(materials);
  const whole = lookUp(index, { name: text }, options.hardness);
  if (whole !== undefined) return whole;
  const read = readDesignation(text);
  const inParts = lookUp(index, read, options.hardness) ?? lookUpParts(index, text, options.hardness);
  if (inParts !== undefined) return inParts;
  return {
    kind: 'unknown',
    why: `${quoted(text)} is not a known material`,
    nearest: nearestMaterials(read.name, materials),
  };
}

/** The materials whose names are most like a text, best first. */
export function nearestMaterials(
  text: string,
  materials: readonly Material[],
  most = 5,
): readonly Material[] {
  const key = designationKey(text);
  if (key === '') return [];
  const words = text.toLowerCase().match(/[a-z]{3,}|\d{3,}/g) ?? [];
  const scored = materials.map(material => {
    let score = 1;
    for (const name of material.designations) {
      // A word is likened to words only: every grade number is as far from `stainless` as any other.
      const other = designationKey(name.text);
      if (/\d/.test(key) || !/\d/.test(other)) score = Math.min(score, unlikeness(key, other));
    }
    const described =
      ` ${material.name} ${material.designations.map(name => name.text).join(' ')} `.toLowerCase();
    for (const word of words) if (described.includes(word)) score -= /\d/.test(word) ? 0.2 : 0.6;
    return { material, score };
  });
  scored.sort((a, b) => a.score - b.score);
  return scored.slice(0, most).map(entry => entry.material);
}

const indexes = new WeakMap<readonly Material[], ReadonlyMap<string, readonly Entry[]>>();

function indexOf(materials: readonly Material[]): ReadonlyMap<string, readonly Entry[]> {
  const known = indexes.get(materials);
  if (known !== undefined) return known;
  const index = new Map<string, Entry[]>();
  for (const material of materials) {
    const id = { system: 'id', text: material.id, near: false };
    const seen = new Set<string>();
    for (const by of [...material.designations, id]) {
      const key = designationKey(by.text);
      if (seen.has(key) || key === '') continue;
      seen.add(key);
      const entries = index.get(key);
      if (entries === undefined) index.set(key, [{ material, by }]);
      else entries.push({ material, by });
    }
  }
  indexes.set(materials, index);
  return index;
}

function lookUp(
  index: ReadonlyMap<string, readonly Entry[]>,
  read: ReadDesignation,
  stated: Hardness | undefined,
): MaterialFound | MaterialNotFound | undefined {
  let entries = index.get(designationKey(read.name)) ?? [];
  const groups = read.groups;
  if (groups !== undefined) {
    entries = entries.filter(
      entry => entry.material.group === undefined || groups.includes(entry.material.group),
    );
  }
  if (entries.length === 0) return undefined;
  const own = entries.filter(entry => entry.material.group === undefined || entry.by.system === 'crib');
  if (own.length > 0) entries = own;
  const exact = entries.filter(entry => !entry.by.near);
  if (exact.length > 0) entries = exact;
  const hardness = read.hardness ?? stated;
  if (entries.length > 1) entries = narrowed(entries, read, hardness);
  const only = entries[0];
  if (only === undefined) return undefined;
  if (entries.length > 1) return ambiguous(read.name, entries);
  return {
    kind: 'found',
    material: only.material,
    by: only.by,
    temper: read.temper,
    notes: notesOn(only, read, hardness),
  };
}

function narrowed(
  entries: readonly Entry[],
  read: ReadDesignation,
  hardness: Hardness | undefined,
): readonly Entry[] {
  const byState =
    read.state === undefined ? [] : entries.filter(entry => entry.material.state === read.state);
  if (byState.length === 1) return byState;
  if (hardness === undefined) return entries;
  const byHardness = entries.filter(
    ({ material }) => material.hardness && hardnessOverlaps(material.hardness, hardness),
  );
  return byHardness.length > 0 ? byHardness : entries;
}

function ambiguous(name: string, entries: readonly Entry[]): MaterialNotFound {
  const list = entries.map(entry => conditionWords(entry.material)).join('; ');
  return {
    kind: 'ambiguous',
    why: `${quoted(name)} is known in ${entries.length} conditions, state the hardness: ${list}`,
    nearest: entries.map(entry => entry.material),
  };
}

function notesOn(entry: Entry, read: ReadDesignation, hardness: Hardness | undefined): string[] {
  const { material, by } = entry;
  const notes: string[] = [];
  if (by.near)
    notes.push(`${by.text} taken as its near relative ${material.designations[0]?.text ?? material.id}`);
  const temper = read.temper;
  if (temper !== undefined && material.tempers.length > 0 && !material.tempers.includes(temper)) {
    notes.push(`figures are for ${material.tempers.join(', ')}, not for ${temper}`);
  }
  if (hardness !== undefined && material.hardness && !hardnessOverlaps(material.hardness, hardness)) {
    const { low, high, scale } = material.hardness;
    notes.push(`figures are for ${low}-${high} ${scale}`);
  }
  return notes;
}

/** `1.4301 (304)`, `AISI 304 / X5CrNi18-10`: parts that agree name one material; parts that differ are ambiguous. */
function lookUpParts(
  index: ReadonlyMap<string, readonly Entry[]>,
  text: string,
  stated: Hardness | undefined,
): MaterialFound | MaterialNotFound | undefined {
  const parts = text.slice(0, longestDesignation).split(/[()/,;=|]+/);
  if (parts.length < 2) return undefined;
  const answers = parts
    .map(part => lookUp(index, { name: part }, stated) ?? lookUp(index, readDesignation(part), stated))
    .filter(answer => answer !== undefined);
  const first = answers[0];
  if (first === undefined) return undefined;
  const materials = [...new Set(answers.flatMap(a => (a.kind === 'found' ? [a.material] : a.nearest)))];
  const found = answers.find(answer => answer.kind === 'found');
  if (materials.length === 1 && found !== undefined) return found;
  return { kind: 'ambiguous', why: `${quoted(text)} names more than one material`, nearest: materials };
}

function quoted(text: string): string {
  const clean = text
    .slice(0, 60)
    .replace(/[\u0000-\u001f\u007f-\u009f]+/g, ' ')
    .trim();
  return clean === '' ? 'an empty name' : `"${clean}"`;
}
