import { blockIn, type Chunk, type LinePlace, type Reading, type Settled } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import type { WordAt } from './program.ts';

/** Words of so many lines are kept with a chunk. */
const MOST_LINES = 32;

const held = new Slot<Chunk, { settled: Settled; lines: Map<number, readonly WordAt[]> }>();

/** Words of a line of the program. They are kept with the text: at every key the same lines are asked for. */
export function wordsOfLine({ text, settled }: Reading, line: number): readonly WordAt[] {
  return line >= 0 && line < text.lineCount ? wordsAt(text.linePlace(line), settled) : [];
}

/** Words of the line at a place. */
export function wordsAt(place: LinePlace, settled: Settled): readonly WordAt[] {
  const { chunk, start } = place;
  let kept = held.get(chunk);
  if (kept?.settled !== settled || kept.lines.size >= MOST_LINES) {
    kept = { settled, lines: new Map() };
    held.set(chunk, kept);
  }
  let words = kept.lines.get(start);
  if (words === undefined) {
    words = blockIn(place, settled).words;
    kept.lines.set(start, words);
  }
  return words;
}
