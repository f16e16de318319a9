import type { Rule } from '../rule.ts';
import { scanOf } from '../scan-program.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { FOLLOW_FROM_WRONG_Z } from './wrong-z.ts';

/** Feed up after a rapid down, and a cut above zero: the sign of Z. */
export const zSignFlipped: Rule = {
  code: 'z-sign-flipped',
  title: 'Minus sign of Z is missing',
  family: 'numbers',
  severity: 'warning',
  means:
    'After coming down at rapid the tool feeds up and cuts above zero, where all other cuts are below: the minus of Z is missing, and this pass cuts air.',
  cure: 'Write the minus sign.',
  fine_when: 'The pass really lies above zero, as on a boss.',
  source: 'common practice, no source',
  needs: [],
  explains: FOLLOW_FROM_WRONG_Z,
  program(program, report) {
    if (program.kind === 'lathe') return;
    const below = program.parts.some(part => part.cut_steps > 0 && part.low(2) < 0);
    if (!below) return;
    for (const up of scanOf(program).feedsUp) {
      if (!(up.z > 0 && up.from_z >= 0)) continue;
      const word = program.words(up.line).find(w => w.letter === 'Z');
      if (!word) continue;
      const at = program.wordPlace(up.line, 'Z');
      const text = `Z-${word.text.slice(1).trim().replace('+', '')}`;
      report({
        at,
        message: `Cuts air: the tool comes down at rapid and then feeds up to ${word.text}. The minus is likely missing. Write ${text}.`,
        fixes: [{ title: `Write ${text}`, grade: 'asks', edits: [{ ...at, text }] }],
      });
    }
  },
  flagged: [
    {
      name: 'the minus lost',
      program: `${MILL_MM}${milled(1)}T2 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H2 Z25.\nZ2.\nG1 Z3. F100.\n   ^^^\nX50.\nG0 Z25.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'down as it should be', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'feeding up out of the cut',
      program: `${MILL_MM}${milled(1)}T2 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H2 Z25.\nZ2.\nG1 Z-3. F100.\nX50.\nZ3.\nX0\nG0 Z25.\nM30\n`,
      options: ISO,
    },
  ],
};
