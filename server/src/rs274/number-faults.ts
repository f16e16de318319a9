import { isPlaceholder, textOf } from './line-bytes.ts';
import { NUMBER_FAULT, type NumberRead, skipBlanks } from './read-number.ts';

/** What is wrong with a number, and how to mend it where that is certain. Positions are those of the bytes. */
export interface NumberTold {
  code: string;
  message: string;
  end: number;
  fix?: { title: string; start: number; end: number; text: string };
}

/** Says what is wrong with the number of the word that begins at `at` and ends at `to`. */
export function tellNumberFault(
  read: NumberRead,
  bytes: Uint8Array,
  at: number,
  to: number,
  letter: string,
): NumberTold {
  const start = skipBlanks(bytes, at + 1, to);
  const fix = (title: string, text: string) => ({ title, start, end: to, text });
  switch (read.fault) {
    case NUMBER_FAULT.missing:
      return isPlaceholder(bytes, Math.max(to, at + 1))
        ? {
            code: 'number-blank',
            end: at + 2,
            message: `${letter} is left blank: the program is not finished`,
          }
        : { code: 'number-missing', end: Math.max(to, at + 1), message: `${letter} has no number` };
    case NUMBER_FAULT.comma:
      return {
        code: 'number-comma',
        end: to,
        message: 'a decimal point is written as a point, not as a comma',
        fix: fix('Write a point', String(read.value)),
      };
    case NUMBER_FAULT.letter_o:
      return {
        code: 'letter-o-for-zero',
        end: to,
        message: 'the letter O stands where a zero was meant',
        fix: fix('Write a zero', textOf(bytes, start, to).replace(/o/gi, '0')),
      };
    case NUMBER_FAULT.exponent:
      return {
        code: 'number-exponent',
        end: to,
        message: 'a number cannot have an exponent; a control reads E as a word',
        fix: fix('Write it out', read.value.toFixed(6).replace(/0+$/, '')),
      };
    default:
      return { code: 'number-bad', end: to, message: `the number of ${letter} cannot be read` };
  }
}
