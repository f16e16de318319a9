import type { Rule } from '../rule.ts';
import { LATHE_A } from './sample-programs.ts';

/** Lines searched above the cycle for the X that it starts from. */
const REACH = 12;
const PROGRAM = (start: string, first: string, allowance: string) =>
  `G21 G18 G40 G99\nG50 S2500\nT0101\nG96 S200 M3\nG0 X${start} Z2.\nG71 U2. R0.5\nG71 P10 Q20 ${allowance} F0.3\nN10 G0 X${first}\nG1 Z-20. F0.1\nX40. Z-22.\nN20 X${start}\nM30\n`;

/** The finishing allowance of a roughing cycle points into the part. */
export const allowanceWrongWay: Rule = {
  code: 'allowance-wrong-way',
  title: 'Finishing allowance into the part',
  family: 'numbers',
  severity: 'error',
  machine: 'lathe',
  means:
    'The allowance U of the roughing cycle points into the part: roughing cuts past the finished size, and the part is scrap.',
  cure: 'Outside U is positive, in a bore it is negative.',
  fine_when: 'The profile is written larger than the part on purpose.',
  source: 'common practice of lathe cycles, no source',
  needs: [],
  program(program, report) {
    const code = program.dialect === 'lathe-c' ? [73, 74] : program.dialect === 'ngc' ? [] : [71, 72];
    if (code.length === 0 || program.lineCount > 100_000) return;
    for (let line = 0; line < program.lineCount; line++) {
      const words = program.words(line);
      if (!words.some(w => w.letter === 'G' && code.includes(w.value))) continue;
      const value = (letter: string) => words.find(w => w.letter === letter)?.value;
      const allowance = value('U');
      const from = value('P');
      if (allowance === undefined || allowance === 0 || from === undefined || value('Q') === undefined)
        continue;
      const start = lastX(line);
      const first = profileX(line, from);
      if (start === undefined || first === undefined || start === first) continue;
      if (start > first === allowance > 0) continue;
      report({
        at: program.wordPlace(line, 'U'),
        message: `Roughs past the finished size: the cycle works ${start > first ? 'outside, from X larger than the profile' : 'in a bore, from X smaller than the profile'}, and U points the other way. Turn its sign.`,
      });
    }

    function lastX(line: number): number | undefined {
      for (let at = line - 1; at >= 0 && at > line - REACH; at--) {
        const x = program.words(at).find(w => w.letter === 'X')?.value;
        if (x !== undefined) return x;
      }
      return undefined;
    }

    function profileX(line: number, block: number): number | undefined {
      for (let at = line + 1; at < program.lineCount && at < line + REACH; at++) {
        const words = program.words(at);
        const numbered = new RegExp(`^\\s*N0*${block}(?!\\d)`, 'i').test(program.reading.text.lineText(at));
        if (numbered) return words.find(w => w.letter === 'X')?.value;
      }
      return undefined;
    }
  },
  flagged: [
    {
      name: 'outside with minus',
      program: PROGRAM('52.', '30.', 'U-0.5 W0.1').replace('W0.1 F0.3\n', 'W0.1 F0.3\n            ^^^^^\n'),
      options: LATHE_A,
    },
  ],
  silent: [
    { name: 'outside', program: PROGRAM('52.', '30.', 'U0.5 W0.1'), options: LATHE_A },
    { name: 'in a bore', program: PROGRAM('23.', '45.', 'U-0.4 W0.05'), options: LATHE_A },
  ],
};
