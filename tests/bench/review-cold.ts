import { makeReview, type Review } from '../../server/src/review/review.ts';
import { sumWhileReading } from '../../server/src/review/witness.ts';
import { ProgramText, readProgram } from '../../server/src/rs274/index.ts';

/** From bytes to a whole review without a setup sheet: text, words, moves, facts by tool, findings. */
export function coldReview(bytes: Uint8Array): Review {
  const review = makeReview(readProgram(ProgramText.fromBytes(bytes), { witness: sumWhileReading }), {});
  if (review.tools.length + review.findings.length < 0) throw new Error('never');
  return review;
}
