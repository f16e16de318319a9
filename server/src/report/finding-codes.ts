import type { Severity } from '../review/finding.ts';
import { rules } from '../review/rules/index.ts';
import { sheetProblems } from '../setup/index.ts';

/** What a finding's code means, whoever gives it: a rule, the sheet's reader, or the silences. */
export interface FindingCode {
  code: string;
  title: string;
  severity: Severity;
  means: string;
  cure: string;
  fine_when: string;
  source: string;
}

const SILENCE_CODES: readonly FindingCode[] = [
  {
    code: 'silence-without-reason',
    title: 'Silence without a reason',
    severity: 'information',
    means:
      'A comment (OK code) gives no reason after its code. It silences nothing, so that nobody has to guess later.',
    cure: 'Write why after the code: (OK chip-load-low: light finishing pass, proven).',
    fine_when: 'Never; write the reason or take the comment out.',
    source: 'definition of this review',
  },
  {
    code: 'silence-unused',
    title: 'Silence that silences nothing',
    severity: 'information',
    means: 'A comment (OK code: reason) stands where there is no such finding, or no longer one.',
    cure: 'Take the comment out, or put it on the block, or on the line above the tool change for the whole tool.',
    fine_when: 'The finding comes and goes with the machine that the program is checked for.',
    source: 'definition of this review',
  },
];

const SHEET_CODES: readonly FindingCode[] = Object.entries(sheetProblems).map(([code, row]) => ({
  code,
  title: row.title,
  severity: row.severity,
  means: `${row.title}. What is right beside it still counts; this value does not.`,
  cure: 'Correct the sheet or crib at that place; completion and hover in the editor show what may stand there.',
  fine_when: 'Never; what the sheet says there is not used.',
  source: 'the keys of setup sheet and crib',
}));

/** Every code that a finding can carry: the rules first, in the order of their table. */
export const findingCodes: readonly FindingCode[] = [
  ...rules.map(({ code, title, severity, means, cure, fine_when, source }) => ({
    code,
    title,
    severity,
    means,
    cure,
    fine_when,
    source,
  })),
  ...SILENCE_CODES,
  ...SHEET_CODES,
];
