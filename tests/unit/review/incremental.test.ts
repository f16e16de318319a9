import { editAndCompare, subjects } from './random-edits.ts';

/** After edits a review says what a fresh one says. A long run of the same is in tests/long. */
describe('review of an edited program', () => {
  for (const [index, subject] of subjects().entries()) {
    it(`is that of the same text read anew: ${subject.name}`, () =>
      editAndCompare(subject, 40, 10, 7 + index));
  }
});
