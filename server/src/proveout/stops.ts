import { bareComment } from '../review/comment-text.ts';
import type { Review } from '../review/review.ts';
import { blockAt, KIND } from '../rs274/index.ts';

/** A place where the program stops, to measure or to turn the part. */
export interface Stop {
  /** 0-based. */
  line: number;
  /** M0, M1, M60. */
  code: string;
  /** The comment of the block, or of the one before it. */
  why: string;
  tool: number | undefined;
}

const MOST_STOPS = 40;
const MOST_STEPS = 2_000_000;

/** The stops of a program in the order they are met, each line once. */
export function stopsOf({ program }: Review): { stops: Stop[]; more: boolean } {
  const stops: Stop[] = [];
  const seen = new Set<number>();
  let steps = 0;
  for (const part of program.parts) {
    if ((part.kinds & (1 << KIND.stop)) === 0) continue;
    const cursor = program.reading.cursor(part.first_line, part.last_line + 1);
    while (cursor.next()) {
      if (++steps > MOST_STEPS) return { stops, more: true };
      if (cursor.kind !== KIND.stop || cursor.file !== undefined || seen.has(cursor.line)) continue;
      if (stops.length >= MOST_STOPS) return { stops, more: true };
      seen.add(cursor.line);
      const tool = cursor.run('tool');
      stops.push({
        line: cursor.line,
        code: stopCode(program, cursor.line),
        why: commentNear(program, cursor.line),
        tool: tool >= 0 ? tool : undefined,
      });
    }
  }
  return { stops, more: false };
}

function stopCode(program: Review['program'], line: number): string {
  const word = program.words(line).find(({ letter, value }) => letter === 'M' && [0, 1, 60].includes(value));
  return word ? `M${word.value}` : 'stop';
}

function commentNear({ reading }: Review['program'], line: number): string {
  for (const at of [line, line - 1]) {
    if (at < 0) continue;
    const block = blockAt(reading.text, at, reading.settled);
    if (at !== line && block.words.length > 0) continue;
    const [comment] = block.comments;
    if (comment) return bareComment(comment.text).trim().slice(0, 80);
  }
  return '';
}
