import { StepCursor } from '../../rs274/index.ts';
import { KIND, STEP_FLAG } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';

/** A dwell this long is hardly meant, s. */
const LONG_S = 30;
const PROGRAM = (dwell: string) =>
  `G21 G18 G40 G99\nT0505\nG97 S800 M3\nG0 X32. Z-10.\nG1 X26. F0.08\n${dwell}G0 X32.\nX80. Z50.\nM30\n`;
const LATHE = { dialect: 'lathe-a', kind: 'lathe' } as const;

/** A dwell outside cycles that is too long to be meant. */
export const dwellLong: Rule = {
  code: 'dwell-long',
  title: 'Dwell is too long',
  family: 'numbers',
  severity: 'warning',
  means:
    'The tool stands for longer than half a minute: likely milliseconds were meant and seconds are read, or a digit is too many. It rubs in the cut, and the machine seems to hang.',
  cure: 'Write the dwell in the unit of the control; at the bottom of a groove one or two turns are enough.',
  fine_when: 'The wait is meant, as for a bar feeder or a spindle that warms up.',
  source: 'NISTIR 6556 section 3.5.4 (G4), from memory; half a minute: common practice, no source',
  needs: [],
  program(program, report) {
    if (!program.parts.some(part => part.cut_steps > 0)) return;
    if (!program.parts.some(part => part.dwell_min * 60 > LONG_S)) return;
    const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
    let fed = false;
    while (cursor.next()) {
      if (cursor.kind === KIND.feed || cursor.kind === KIND.arc) fed = true;
      else if (cursor.kind === KIND.rapid || cursor.kind === KIND.toolchange) fed = false;
      if (cursor.kind !== KIND.dwell || (cursor.flags & STEP_FLAG.cycle) !== 0) continue;
      if (!fed || !(cursor.seconds > LONG_S) || cursor.file !== undefined) continue;
      report({
        assumed: program.reading.settled.dwell.how === 'likely' && cursor.seconds < 10 * LONG_S,
        at: program.blockPlace(cursor.line),
        message: `Stands in the cut for ${Math.round(cursor.seconds)} s: the number is likely in another unit, or has a digit too many. Check it.`,
      });
      return;
    }
  },
  flagged: [{ name: 'milliseconds twice', program: PROGRAM('G4 P200000\n^^^^^^^^^^\n'), options: LATHE }],
  silent: [
    { name: 'a fifth of a second', program: PROGRAM('G4 P200\n'), options: LATHE },
    { name: 'ten seconds', program: PROGRAM('G4 X10.\n'), options: LATHE },
    {
      name: 'waiting clear of the work',
      program: PROGRAM('').replace('X80. Z50.\n', 'X80. Z50.\nG4 X60.\n'),
      options: LATHE,
    },
  ],
};
