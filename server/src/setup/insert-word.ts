import { decodeInsert } from '../cutting/designation-insert.ts';
import { isAbsent } from '../cutting/result.ts';
import { worded } from './comment-scan.ts';
import { product } from './quantity.ts';

const shapes = 'ABCDEHKLMOPRSTVW';
const word = new RegExp(
  String.raw`(?<![A-Z])([${shapes}][ABCDEFGNOP][ACEFGHJKLMNU][ABCFGHJMNQRTUWX])[ -]?(\d{6}|\d{2}T\d{3}|\d{3})(?!\d)`,
);

/** An insert designation in a text, with the nose radius its last figures give (mm). */
export type InsertWord = {
  designation: string;
  nose_radius_mm: number | undefined;
  start: number;
  end: number;
};

/** Finds an insert designation in a text: `CNMG 120408` (ISO 1832) or `CNMG 432` (ANSI B212.4). */
export function findInsert(text: string): InsertWord | undefined {
  const match = word.exec(text);
  if (!match) return undefined;
  const designation = `${match[1]}${match[2]}`;
  const facts = decodeInsert(designation);
  if (isAbsent(facts)) return undefined;
  const nose_radius_mm = isAbsent(facts.nose_radius_mm) ? undefined : facts.nose_radius_mm;
  return { designation, nose_radius_mm, start: match.index, end: match.index + match[0].length };
}

const threadWord = worded(
  '11|16|22|27',
  /(?<![A-Z])(?:(?:11|16|22|27) ?[EI][RL]|[EI][RL] ?(?:11|16|22|27))\s*(?:(ISO|UN)\s*)?(\d{1,2}(?:\.\d+)?)\s*(ISO|UN)?(?![A-Z.])/,
);

/** Finds a full-profile threading insert: `16ER 1.5 ISO` (pitch in mm) or `16ER 20 UN` (threads an inch). */
export function findThreadInsert(text: string): { pitch_mm: number; start: number; end: number } | undefined {
  const match = threadWord.exec(text);
  const standard = match?.[1] ?? match?.[3];
  const figure = Number(match?.[2]);
  if (!match || !standard || !(figure > 0)) return undefined;
  const pitch_mm = standard === 'UN' ? product(1 / figure, 25.4) : figure;
  return pitch_mm <= 12 ? { pitch_mm, start: match.index, end: match.index + match[0].length } : undefined;
}
