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

/**
 * Finds an insert designation such as `CNMG 120408` (ISO 1832: the last two figures are the nose radius in 0.1 mm) or
 * `CNMG 432` (ANSI B212.4: eighths of inscribed circle, sixteenths of thickness, sixty-fourths of nose radius, inch).
 */
export function readInsertWord(text: string): InsertWord | undefined {
  const match = word.exec(text);
  const figures = match?.[2];
  if (!match || figures === undefined) return undefined;
  const place = { start: match.index, end: match.index + match[0].length };
  const designation = `${match[1]}${figures}`;
  if (figures.length > 3) {
    const tenths = Number(figures.slice(-2));
    return { designation, nose_radius_mm: tenths > 0 && tenths <= 32 ? tenths / 10 : undefined, ...place };
  }
  const [circle, thickness, radius] = [...figures].map(Number);
  if (!circle || !thickness || radius === undefined) return undefined;
  return { designation, nose_radius_mm: radius > 0 ? product(radius / 64, 25.4) : undefined, ...place };
}

/** Finds a full-profile threading insert: `16ER 1.5 ISO` (pitch in mm) or `16ER 20 UN` (threads an inch). */
export function readThreadInsert(text: string): { pitch_mm: number; start: number; end: number } | undefined {
  const match =
    /(?<![A-Z])(?:(?:11|16|22|27) ?[EI][RL]|[EI][RL] ?(?:11|16|22|27))\s*(?:(ISO|UN)\s*)?(\d{1,2}(?:\.\d+)?)\s*(ISO|UN)?(?![A-Z.])/.exec(
      text,
    );
  const standard = match?.[1] ?? match?.[3];
  const figure = Number(match?.[2]);
  if (!match || !standard || !(figure > 0)) return undefined;
  const pitch_mm = standard === 'UN' ? product(1 / figure, 25.4) : figure;
  return pitch_mm <= 12 ? { pitch_mm, start: match.index, end: match.index + match[0].length } : undefined;
}
