import type { ProgramText } from '../rs274/index.ts';

const LINE_END = /\r\n|\r|\n/;

/** The lines of a text in order, read a chunk at a time. Chunks that `worth` turns down are passed over whole. */
export function* linesOf(
  text: ProgramText,
  worth: (chunk: string) => boolean = () => true,
): Generator<{ line: number; source: string }> {
  for (let index = 0; index < text.chunks.length; index += 1) {
    const whole = text.chunks[index].text();
    if (!worth(whole)) continue;
    const first = text.firstLineOfChunk(index);
    const lines = whole.split(LINE_END);
    // What follows the last line end belongs to the next chunk, but for the last chunk of all.
    const count = index + 1 < text.chunks.length ? lines.length - 1 : lines.length;
    for (let at = 0; at < count; at += 1) yield { line: first + at, source: lines[at] };
  }
}

/** The lines before `from`, nearest first, at most `most`. */
export function* linesAbove(
  text: ProgramText,
  from: number,
  most: number,
): Generator<{ line: number; source: string }> {
  let left = most;
  for (let index = text.chunkOfLine(Math.max(0, from - 1)); index >= 0 && left > 0; index -= 1) {
    const first = text.firstLineOfChunk(index);
    const lines = text.chunks[index].text().split(LINE_END);
    for (let at = Math.min(lines.length - 1, from - 1 - first); at >= 0 && left > 0; at -= 1) {
      if (at === lines.length - 1 && index + 1 < text.chunks.length) continue;
      left -= 1;
      yield { line: first + at, source: lines[at] };
    }
  }
}
