import { CODES, type CodeRow, codeName, GROUPS, LETTERS } from '../../rs274/index.ts';
import { type Explanation, partsOf } from './explanation.ts';

/** Every meaning of every G and M code. */
export function codeExplanations(): Explanation[] {
  return CODES.map(row => ({
    kind: 'code',
    name: row.through === undefined ? codeName(row) : `${codeName(row)} to ${row.letter}${row.through}`,
    title: row.means,
    also: [codeName(row)],
    parts: partsOf([
      ['does', row.does],
      ['in', `${row.dialects.join(', ')}${row.kind ? `, on a ${row.kind}` : ''}`],
      ['words', wordsOf(row)],
      [
        'holds',
        row.modal
          ? `until another code of its group (${row.group}, ${GROUPS[row.group]})`
          : 'in this block only',
      ],
      ['not checked', row.leaves_unchecked],
      ['example', row.example, true],
      ['source', row.source],
    ]),
  }));
}

/** The row whose range holds a number that has no row of its own. */
export function rangeOf(letter: string, number: number): CodeRow | undefined {
  return CODES.find(
    row =>
      row.letter === letter && row.through !== undefined && row.number <= number && number <= row.through,
  );
}

function wordsOf({ words }: CodeRow): string {
  const needed = words.required.length > 0 ? `needs ${words.required.join(' ').replaceAll('|', ' or ')}` : '';
  const taken = words.optional.length > 0 ? `takes ${words.optional.join(' ')}` : '';
  return [needed, taken].filter(text => text !== '').join('; ');
}

/** Every word letter. */
export function letterExplanations(): Explanation[] {
  return Object.entries(LETTERS).map(([letter, row]) => ({
    kind: 'letter',
    name: letter,
    title: row.means,
    also: [],
    parts: partsOf([
      ['on a lathe', row.lathe],
      ['unit', row.unit],
      ['note', 'The code of the block can give it another meaning; the hover in the editor says which.'],
    ]),
  }));
}
