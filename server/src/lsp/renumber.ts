import type { TextEdit } from 'vscode-languageserver';
import { BlockReader } from '../rs274/block-reader.ts';
import { FlowProgram } from '../rs274/flow/program.ts';
import type { Reading } from '../rs274/index.ts';
import { type LineToken, lineTokens } from './line-tokens.ts';
import { placesOfLine } from './program-symbols.ts';

export interface RenumberOptions {
  first: number;
  step: number;
  /** Give every block a number; otherwise only those that have one. */
  all: boolean;
}

/** Edits that renumber a program, or in words why it cannot be done. */
export type Renumbered = { edits: TextEdit[] } | { refused: string };

const HIGHEST = 99_999;

/**
 * Renumbers the blocks and everything that points at them: GOTO, P of M97 and M99, P and Q of profile cycles, Q of M98.
 * A reference that cannot be followed to one block refuses the whole: it would run something else afterwards.
 */
export function renumber(reading: Reading, options: RenumberOptions): Renumbered {
  const { text, settled } = reading;
  const program = new FlowProgram(text, '');
  const numbers = program.blockNumbers();
  const takes = numberTaker(reading, program);
  const fresh = new Map<number, number>();
  let next = options.first;
  for (let line = settled.leader_lines; line < text.lineCount; line += 1) {
    if (Number.isNaN(numbers[line]) && !(options.all && takes(line))) continue;
    fresh.set(line, next);
    next += options.step;
  }
  if (next - options.step > HIGHEST)
    return { refused: `The numbers would go beyond N${HIGHEST}; take a smaller step.` };
  const edits: TextEdit[] = [];
  for (let line = settled.leader_lines; line < text.lineCount; line += 1) {
    const number = fresh.get(line);
    const source = program.lineText(line);
    if (number === undefined && !/GOTO|[PQ]/i.test(source)) continue;
    if (number !== undefined && !/[NPQ/]|GOTO/i.test(source)) {
      const at = { line, character: source.search(/\S/) };
      edits.push({ range: { start: at, end: at }, newText: `N${number} ` });
      continue;
    }
    const tokens = lineTokens(source);
    const computed = computedTarget(tokens);
    if (computed !== undefined)
      return { refused: `Line ${line + 1}: the target of ${computed} is known only while the program runs.` };
    for (const { kind, name, makes, range } of placesOfLine(source, line, settled)) {
      if (kind !== 'block' || makes) continue;
      const target = targetOf(program, line, Number(name), tokens);
      if (target === 'ambiguous')
        return {
          refused: `Line ${line + 1}: N${name} is there more than once, and what calls decides which is meant.`,
        };
      const fresh_target = target === undefined ? undefined : fresh.get(target);
      if (fresh_target === undefined) return { refused: `Line ${line + 1}: there is no block N${name}.` };
      const letter = source.slice(range.start.character, range.end.character).match(/^[A-Za-z]/)?.[0] ?? '';
      edits.push({ range, newText: `${letter}${fresh_target}` });
    }
    if (number !== undefined) edits.push(numberEdit(tokens, line, number, source));
  }
  return {
    edits: edits.filter(
      ({ range, newText }) =>
        program.lineText(range.start.line).slice(range.start.character, range.end.character) !== newText,
    ),
  };
}

/** Tells blocks that take a number: those with words, not flow control of O-words, not program numbers. */
function numberTaker({ settled }: Reading, program: FlowProgram): (line: number) => boolean {
  const reader = new BlockReader({
    semicolon_ends_block: settled.semicolon_ends_block.value,
    report_rules: settled.dialect.value === 'ngc',
  });
  return line => {
    const statement = program.statements.get(line);
    if (statement !== undefined) return statement.label === '' && statement.computed < 0;
    reader.problems = [];
    const block = reader.read(program.bytes(line), program.start(line), program.end(line), line);
    return Number.isNaN(block.o) && reader.problems.length === 0 && (block.count > 0 || block.needs_flow);
  };
}

function numberEdit(tokens: readonly LineToken[], line: number, number: number, source: string): TextEdit {
  const old = tokens.find(({ kind, letter }) => kind === 'word' && letter === 'N');
  if (old !== undefined) {
    return {
      range: { start: { line, character: old.start }, end: { line, character: old.end } },
      newText: `${source[old.start]}${number}`,
    };
  }
  const deleted = tokens[0]?.kind === 'block-delete' ? tokens[0].end : (tokens[0]?.start ?? 0);
  return {
    range: { start: { line, character: deleted }, end: { line, character: deleted } },
    newText: `N${number} `,
  };
}

/** The word whose target is worked out, if one is. */
function computedTarget(tokens: readonly LineToken[]): string | undefined {
  for (let at = 0; at < tokens.length; at += 1) {
    const next = tokens[at + 1];
    if (tokens[at].letter === 'Q' && tokens.some(({ letter, value }) => letter === 'M' && value === 98))
      return 'Q';
    if (tokens[at].name === 'GOTO' && next?.kind !== 'number') return 'GOTO';
    const points = tokens.some(
      ({ letter, value }) =>
        (letter === 'M' && (value === 97 || value === 99)) || (letter === 'G' && value >= 70 && value <= 73),
    );
    if (points && tokens[at].letter === 'P' && Number.isNaN(tokens[at].value)) return 'P';
  }
  return undefined;
}

/** Line of the block that a reference means: as the run would search for it. */
function targetOf(
  program: FlowProgram,
  line: number,
  n: number,
  tokens: readonly LineToken[],
): number | undefined | 'ambiguous' {
  const part = program.partOf(line);
  const returns = tokens.some(({ letter, value }) => letter === 'M' && value === 99);
  if (returns) {
    const numbers = program.blockNumbers();
    const all = [...numbers.keys()].filter(at => numbers[at] === n);
    return all.length > 1 ? 'ambiguous' : all[0];
  }
  const local = tokens.some(({ letter, value }) => letter === 'M' && value === 97);
  const found = program.lineNumbered(n, part, local ? part.first : line + 1);
  return found < 0 ? undefined : found;
}
