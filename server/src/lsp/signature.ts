import type { Position, SignatureHelp, SignatureInformation } from 'vscode-languageserver';
import { type CodeRow, codeFor, codeName, type Effect, type Reading } from '../rs274/index.ts';
import { lineTokens } from './line-tokens.ts';
import { roleOf } from './word-roles.ts';

/** Cycles that lathes write in two blocks: the words of the first. */
const FIRST_BLOCK: Partial<Record<Effect, readonly string[]>> = {
  'turning-roughing': ['U', 'R'],
  'facing-roughing': ['W', 'R'],
  'pattern-repeating': ['U', 'W', 'R'],
  'face-peck': ['R'],
  groove: ['R'],
  'multi-pass-thread': ['P', 'Q', 'R'],
};
const SECOND_BLOCK: Partial<Record<Effect, readonly string[]>> = {
  'turning-roughing': ['P', 'Q', 'U', 'W', 'F', 'S'],
  'facing-roughing': ['P', 'Q', 'U', 'W', 'F', 'S'],
  'pattern-repeating': ['P', 'Q', 'U', 'W', 'F', 'S'],
  'face-peck': ['X', 'Z', 'P', 'Q', 'R', 'F'],
  groove: ['X', 'Z', 'P', 'Q', 'R', 'F'],
  'multi-pass-thread': ['X', 'Z', 'R', 'P', 'Q', 'F'],
};

/** The words of the cycle that stands in the block of the cursor (or is in force there), with what each means. */
export function signatureHelp(reading: Reading, position: Position): SignatureHelp | undefined {
  const { dialect, kind } = reading.settled;
  const source = reading.text.lineText(position.line);
  const tokens = lineTokens(source);
  const written = tokens
    .filter(({ letter, value }) => letter === 'G' && !Number.isNaN(value))
    .map(({ value }) => codeFor('G', value, dialect.value, kind.value))
    .find(row => row !== undefined && isCycle(row));
  const row =
    written ??
    cycleInForce(
      reading,
      position.line,
      tokens.some(({ letter }) => letter === 'G'),
    );
  if (row === undefined) return undefined;
  const first = dialect.value === 'ngc' ? undefined : FIRST_BLOCK[row.effect];
  const second = dialect.value === 'ngc' ? undefined : SECOND_BLOCK[row.effect];
  const lathe = kind.value === 'lathe';
  const signatures =
    first === undefined || second === undefined
      ? [
          signatureOf(
            row,
            [...row.words.required.flatMap(word => word.split('|')), ...row.words.optional],
            lathe,
            row.does,
          ),
        ]
      : [signatureOf(row, first, lathe, 'First block.'), signatureOf(row, second, lathe, 'Second block.')];
  const letters = new Set(tokens.map(({ letter }) => letter));
  const is_second = second?.some(letter => letters.has(letter) && !first?.includes(letter)) ?? false;
  const active = signatures.length > 1 && is_second ? 1 : 0;
  return {
    signatures,
    activeSignature: active,
    activeParameter: activeParameter(signatures[active], source, position.character),
  };
}

function isCycle(row: CodeRow): boolean {
  return row.effect.endsWith('-cycle')
    ? row.effect !== 'not-followed' && row.effect !== 'cycle-cancel'
    : row.effect === 'finishing' || FIRST_BLOCK[row.effect] !== undefined;
}

function cycleInForce(reading: Reading, line: number, has_code: boolean): CodeRow | undefined {
  if (has_code || line === 0) return undefined;
  const { dialect, kind } = reading.settled;
  const motion = reading.runAt(line - 1, 'motion') / 10;
  const row = Number.isNaN(motion) ? undefined : codeFor('G', motion, dialect.value, kind.value);
  return row !== undefined && isCycle(row) ? row : undefined;
}

function signatureOf(
  row: CodeRow,
  letters: readonly string[],
  lathe: boolean,
  documentation: string,
): SignatureInformation {
  let label = codeName(row);
  const parameters = letters.map(letter => {
    const start = label.length + 1;
    label += ` ${letter}`;
    return { label: [start, label.length] as [number, number], documentation: roleOf(letter, row, lathe) };
  });
  return { label, documentation, parameters };
}

/** The word that the cursor stands in or behind. */
function activeParameter(signature: SignatureInformation, source: string, character: number): number {
  const at = lineTokens(source.slice(0, character)).findLast(
    ({ kind, letter }) => kind === 'word' && letter !== 'N' && letter !== 'G',
  );
  const letters = signature.label.split(' ').slice(1);
  const index = at === undefined ? -1 : letters.indexOf(at.letter);
  return index < 0 ? letters.length : index;
}
