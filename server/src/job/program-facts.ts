import type { Review } from '../review/review.ts';
import { known, type ProgramFacts } from '../setup/index.ts';

/** What a program itself says about its setup, for a new sheet. */
export function programFacts(review: Review, program: string): ProgramFacts {
  const { settled } = review.program.reading;
  const read = <T>(item: { value: T; why: string; how: string }) =>
    item.how === 'unknown' || item.how === 'likely'
      ? undefined
      : known(item.value, { from: 'program', where: item.why });
  return {
    program,
    units: read(settled.units),
    kind: read(settled.kind),
    dialect: read(settled.dialect),
    tools: review.tools
      .filter(tool => tool.number >= 0)
      .map(tool => ({ number: tool.number, reading: tool.tool?.reading })),
  };
}
