import { formatQuantity } from '../../cutting/format.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import { isConfirmed } from '../../setup/known.ts';
import type { Fix } from '../finding.ts';
import { cuttingUses, lineOfLetter } from '../lookup.ts';
import type { Part } from '../part.ts';
import type { Rule } from '../rule.ts';
import { tapped, tapSheet } from './tap-sheets.ts';
import { toolName } from './words.ts';

const TAP = 1 << KIND.tap;
/** Share of the pitch that rigid tapping forgives. */
const RIGID = 0.005;

/** Feed of a tapping cycle that is not pitch times speed. */
export const tapFeedMismatch: Rule = {
  code: 'tap-feed-mismatch',
  title: 'Tapping feed does not follow the pitch',
  family: 'cutting',
  severity: 'error',
  means: 'A tap goes one pitch a turn. At another feed it strips the thread, or breaks in the hole.',
  cure: 'Write F = pitch x S in feed per minute, F = pitch in feed per revolution.',
  fine_when: 'A tapping head with its own lead does the following.',
  source: 'pitch x speed (definition); half a percent for rigid tapping: common practice, no source',
  needs: [],
  program(program, report) {
    for (const use of cuttingUses(program)) {
      const pitch = use.tool?.pitch_mm;
      if (!pitch || use.tool?.kind?.value !== 'tap') continue;
      const part = use.parts.find(p => p.kinds & TAP && isOff(p, pitch.value));
      if (!part) continue;
      const lead = part.run[RUN.lead];
      const line = lineOfLetter(program, 'F', use.change_line, part.first_cut_line);
      const at = program.wordPlace(line >= 0 ? line : part.first_cut_line, 'F');
      const length = (value: number) =>
        formatQuantity('feed_per_rev_mm', value, program.shown).replace('/rev', '');
      const far = Math.abs(lead / pitch.value - 1) > 0.05;
      const word = feedFor(part, pitch.value);
      const fixes: Fix[] =
        line >= 0
          ? [{ title: `${word}, which is pitch x speed`, grade: 'asks', edits: [{ ...at, text: word }] }]
          : [];
      report({
        at,
        severity: isConfirmed(pitch.origin) && far ? 'error' : 'warning',
        message: `${far ? 'Breaks the tap' : 'Pulls on the thread'}: ${toolName(use)} goes ${length(lead)} a turn, its pitch is ${length(pitch.value)}. Write ${word}.`,
        fixes,
      });
    }
  },
  flagged: [
    {
      name: 'feed of another speed',
      program: tapped('-20.', 'G84 Z-14. R5. F400.\n              ^^^^^\n').replace(
        /\n {14}\^/,
        '\n              ^',
      ),
      sheet: tapSheet(6.8),
    },
  ],
  silent: [
    { name: 'pitch times speed', program: tapped('-20.', 'G84 Z-14. R5. F500.\n'), sheet: tapSheet(6.8) },
    {
      name: 'feed per revolution',
      program: tapped('-20.', 'G95 G84 Z-14. R5. F1.25\n'),
      sheet: tapSheet(6.8),
    },
  ],
};

function isOff(part: Part, pitch: number): boolean {
  const lead = part.run[RUN.lead];
  return lead > 0 && Math.abs(lead / pitch - 1) > RIGID;
}

function feedFor(part: Part, pitch: number): string {
  const unit = part.run[RUN.inch] === 1 ? 25.4 : 1;
  const perRev = part.run[RUN.feed_mode] === 95;
  const value = ((perRev ? 1 : part.run[RUN.spindle]) * pitch) / unit;
  const digits = value.toFixed(4).replace(/0+$/, '');
  return `F${digits}`;
}
