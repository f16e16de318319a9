import { bareComment } from './comment-text.ts';
import type { Program } from './program.ts';
import { commentsOf } from './program-comments.ts';
import { readSilence } from './silence.ts';

const COMMENTS_READ = 20_000;

/** One piece of the program between two tool changes. */
export interface Operation {
  tool?: number;
  first_line: number;
  last_line: number;
  name?: string;
  time_s?: number;
  cut_length_mm: number;
}

/** Operations of a program with the comment that names them; lines from 1, as surfaces show them. */
export function operationsOf(program: Program): Operation[] {
  const named = commentsOf(program.reading, COMMENTS_READ)
    .map(comment => ({ line: comment.line, text: bareComment(comment.text).trim() }))
    .filter(comment => !readSilence(comment.text));
  return program.uses
    .filter(use => use.number >= 0 || use.cuts)
    .map(use => {
      const name = named.filter(c => c.line <= use.change_line && c.line >= use.change_line - 2).at(-1)?.text;
      return {
        ...(use.number >= 0 ? { tool: use.number } : {}),
        first_line: use.change_line + 1,
        last_line: use.last_line + 1,
        ...(name ? { name } : {}),
        ...(use.untimed === 0 ? { time_s: 60 * (use.cut_min + use.dwell_min) } : {}),
        cut_length_mm: use.cut_length_mm,
      };
    });
}
