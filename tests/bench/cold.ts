import { byteLoop, splitAndMatch, splitMatchAndKeep } from './anchors.ts';
import { type Figure, figure, inTurn, ms, ratios } from './figures.ts';
import { makeProgram, type ProgramKind } from './programs.ts';
import { coldReview } from './review-cold.ts';

const LINES = 1_000_000;

/** The whole review of a million lines against reading every byte once. */
export function cold(kind: ProgramKind, target: number): Figure[] {
  const bytes = makeProgram(kind, LINES);
  const took = inTurn(11, { loop: () => byteLoop(bytes), review: () => coldReview(bytes) });
  const size = `${(bytes.length / LINES).toFixed(1)} bytes a line`;
  return [
    figure(
      {
        name: `cold review, ${kind}, 1,000,000 lines`,
        against: 'byte loop',
        target,
        plain: `${ms(took.review)} to ${ms(took.loop)}, ${size}`,
      },
      ratios(took.review, took.loop),
    ),
  ];
}

/** How many times faster than a usual script. */
export function againstScripts(): Figure[] {
  const bytes = makeProgram('finishing', LINES);
  const took = inTurn(7, {
    review: () => coldReview(bytes),
    dropped: () => splitAndMatch(bytes),
    reviewAgain: () => coldReview(bytes),
    kept: () => splitMatchAndKeep(bytes),
  });
  return [
    figure(
      {
        name: 'split and match, words dropped, finishing',
        against: 'cold review',
        target: 7,
        over: true,
        plain: ms(took.dropped),
      },
      ratios(took.dropped, took.review),
    ),
    figure(
      {
        name: 'split and match, words kept, finishing',
        against: 'cold review',
        target: 15,
        over: true,
        plain: ms(took.kept),
      },
      ratios(took.kept, took.reviewAgain),
    ),
  ];
}
