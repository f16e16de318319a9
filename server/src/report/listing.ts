import type { Finding } from '../review/finding.ts';
import type { Review } from '../review/review.ts';

/** Programs up to this many lines are listed whole. */
const WHOLE_LINES = 600;
/** Lines shown before and after a place of interest. */
const AROUND = 4;
/** Most lines that a listing shows. */
const MOST_LINES = 5000;

/** One stretch of the listing: lines shown, or how many are left out. Lines are 0-based, `end` excluded. */
export type ListingPiece = { from: number; end: number } | { left_out: number; from: number };

/**
 * Which lines of a program a page lists: all of a short one; of a long one those around findings, tool changes and the
 * first lines, with what is left out counted.
 */
export function listingPieces(review: Review): ListingPiece[] {
  const { lineCount } = review.program;
  if (lineCount <= WHOLE_LINES) return [{ from: 0, end: lineCount }];
  const wanted = new Set<number>();
  const around = (line: number) => {
    for (let at = line - AROUND; at <= line + AROUND; at++)
      if (at >= 0 && at < lineCount && wanted.size < MOST_LINES) wanted.add(at);
  };
  around(0);
  for (const use of review.program.uses) around(use.change_line);
  for (const finding of [...review.findings, ...review.silenced])
    if (finding.file === undefined) around(finding.line);
  around(lineCount - 1);
  return piecesOf(
    [...wanted].sort((a, b) => a - b),
    lineCount,
  );
}

function piecesOf(lines: readonly number[], lineCount: number): ListingPiece[] {
  const pieces: ListingPiece[] = [];
  let at = 0;
  for (let i = 0; i < lines.length; ) {
    let last = i;
    while (last + 1 < lines.length && lines[last + 1] === lines[last] + 1) last++;
    if (lines[i] > at) pieces.push({ left_out: lines[i] - at, from: at });
    at = lines[last] + 1;
    pieces.push({ from: lines[i], end: at });
    i = last + 1;
  }
  if (at < lineCount) pieces.push({ left_out: lineCount - at, from: at });
  return pieces;
}

/** Findings of the program itself by their line. */
export function byLine<F extends Finding>(findings: readonly F[]): Map<number, F[]> {
  const lines = new Map<number, F[]>();
  for (const finding of findings) {
    if (finding.file !== undefined) continue;
    const there = lines.get(finding.line);
    if (there) there.push(finding);
    else lines.set(finding.line, [finding]);
  }
  return lines;
}
