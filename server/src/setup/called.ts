import { lastNumber, ownNumber, readToolComment } from './tool-comment.ts';

const ownNumberAnyCase = new RegExp(ownNumber.source, 'i');
const lastNumberAnyCase = new RegExp(lastNumber.source, 'i');

/** A comment as a person would keep it in `called`: without tool number, offset words and deepest Z, which change from program to program. */
export function calledText(comment: string): string {
  return comment
    .slice(0, 400)
    .replace(ownNumberAnyCase, '')
    .replace(lastNumberAnyCase, '')
    .replace(/(?<![A-Z])Z ?MIN\s*=\s*[+-]?[\d.]*/i, '')
    .replace(/(?<![A-Z0-9])[HD] ?=? ?\d{1,3}(?![\w./"])/gi, '')
    .replace(/(^[\s\-|,;:=]+)|([\s\-|,;:=]+$)/g, '')
    .replace(/\s*-\s*-\s*/g, ' - ')
    .replace(/\s+/g, ' ')
    .slice(0, 200);
}

/** Two texts with the same key call the same tool: case, blanks, dashes and the form of numbers make no difference. */
export function calledKey(text: string): string {
  return calledText(text)
    .toUpperCase()
    .replace(/"|”|″|(?<![A-Z])INCH(?:ES)?(?![A-Z])/g, 'IN')
    .replace(/\d*\.\d+|\d+\.?/g, number => (number.includes('.') ? String(Number(number)) : number))
    .replace(/[^A-Z0-9./#\u0080-\uffff]+/g, ' ')
    .replace(/(?<![\d.]) | (?![\d.])/g, '')
    .trim();
}

/** Whether a text holds a size; one without would match half the comments of a shop. */
export function holdsSize(text: string): boolean {
  const { fields, doubts } = readToolComment(text, { units: 'inch' });
  const { diameter_mm, pitch_mm, insert, width_mm, nose_radius_mm, shank_diameter_mm } = fields;
  const sizes = [diameter_mm, pitch_mm, insert, width_mm, nose_radius_mm, shank_diameter_mm];
  return sizes.some(size => size !== undefined) || (doubts.length > 0 && /\d/.test(text));
}
