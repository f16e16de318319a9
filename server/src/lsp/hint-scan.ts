import type { Program } from '../review/program.ts';
import { KIND } from '../rs274/index.ts';

/** Whether a line may hold an F or S word: only such lines are cut into words for a hint. */
export function hasFeedOrSpeed(program: Program, line: number): boolean {
  const { chunk, start, end } = program.reading.text.linePlace(line);
  for (let at = start; at < end; at++) {
    const letter = chunk.bytes[at] & 0xdf;
    if (letter === F || letter === S) return true;
  }
  return false;
}

const F = 70;
const S = 83;

/**
 * Lines whose one move is a plain cut of a mill, by a number that is equal for lines with the same state: their hints are
 * equal too. Without stock only: with it every move has its own figures.
 */
export function alikeLines(program: Program, from: number, to: number): Map<number, number> {
  const alike = new Map<number, number>();
  if (program.kind === 'lathe' || program.cutFacts || !program.reading.ordered) return alike;
  const cursor = program.reading.cursor(from, to + 1);
  let last = -1;
  while (cursor.next()) {
    const { line } = cursor;
    if (line === last) alike.delete(line);
    else if (cursor.kind === KIND.feed && cursor.run('css') !== 1)
      alike.set(line, cursor.stretch * RUNS_A_STRETCH + cursor.runRow);
    last = line;
  }
  return alike;
}

/** More runs than any stretch has. */
const RUNS_A_STRETCH = 65_536;
