import { editAndCompare, subjects } from '../unit/review/random-edits.ts';

const EDITS = 10_000;

/** Ten thousand random edits, shared by all programs of the fixtures, compared after every fifth. */
describe('review of a program edited ten thousand times', () => {
  const all = subjects();
  const runs = 10;
  const each = Math.ceil(EDITS / (all.length * runs));
  for (const [index, subject] of all.entries()) {
    it(subject.name, () => {
      for (let run = 0; run < runs; run++) editAndCompare(subject, each, 5, 1000 * index + run);
    });
  }
});
