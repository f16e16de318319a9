import type { PlacedComment } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import { bareComment } from './comment-text.ts';
import type { Program } from './program.ts';
import { commentsOf } from './program-comments.ts';
import { readSilence, type Silence } from './silence.ts';

/**
 * The silences that hold for a program: comments `(OK code: reason)` on a block, or alone on a line right
 * above a tool change for the whole use of that tool, and the sheet's list.
 */
export function silencesOf(program: Program): Silence[] {
  const found: Silence[] = [];
  for (const comment of commentsOf(program.reading)) {
    const read = readOf(comment);
    if (!read) continue;
    found.push({
      ...read,
      ...scope(program, comment.line),
      line: comment.line,
      column: comment.start,
      end_column: comment.end,
    });
  }
  for (const entry of program.sheet?.silence ?? []) {
    found.push({
      code: entry.code,
      reason: entry.reason,
      ...(entry.tool !== undefined ? { tool: entry.tool } : {}),
    });
  }
  return found;
}

const read_before = new Slot<PlacedComment, { read: ReturnType<typeof readSilence> }>();

/** What a comment silences; each is read once. */
function readOf(comment: PlacedComment): ReturnType<typeof readSilence> {
  let found = read_before.get(comment);
  if (found === undefined) {
    found = { read: readSilence(bareComment(comment.text)) };
    read_before.set(comment, found);
  }
  return found.read;
}

function scope(program: Program, line: number): Pick<Silence, 'from_line' | 'to_line'> {
  const alone = program.words(line).length === 0;
  if (!alone) return { from_line: line, to_line: line };
  let next = line + 1;
  while (next < program.lineCount && next < line + 20 && program.words(next).length === 0) next++;
  const use = program.uses.find(u => u.change_line === next);
  return use ? { from_line: line, to_line: use.last_line } : { from_line: line, to_line: next };
}
