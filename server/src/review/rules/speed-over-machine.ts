import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, isTurning, lineOfLetter } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

const SHEET =
  '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "spindle": { "max_rpm": 8000, "min_rpm": 100 } } }';

/** More, or less, than the spindle turns. */
export const speedOverMachine: Rule = {
  code: 'speed-over-machine',
  title: 'Spindle speed outside the machine',
  family: 'cutting',
  severity: 'error',
  means:
    'S is over what the spindle turns: the control stops, or holds the top speed while the feed stays, and every tooth takes more.',
  cure: 'Write a speed that the machine has, and lower F alike.',
  fine_when: 'The machine named in the setup sheet is not the one it runs on.',
  source: "the machine's limits in the setup sheet",
  needs: ['machine.max_rpm'],
  program(program, report) {
    const top = program.machine?.spindle?.max_rpm?.value;
    const least = program.machine?.spindle?.min_rpm?.value ?? 0;
    if (top === undefined) return;
    for (const use of cuttingUses(program)) {
      const part = use.parts.find(
        p =>
          p.cut_steps > 0 &&
          isTurning(p) &&
          p.run[RUN.css] !== 1 &&
          (p.run[RUN.spindle] > top || p.run[RUN.spindle] < least),
      );
      if (!part || part.run[RUN.spindle] === 0) continue;
      const speed = part.run[RUN.spindle];
      const line = lineOfLetter(program, 'S', use.change_line - 3, part.first_cut_line);
      const at = program.wordPlace(line >= 0 ? line : part.first_cut_line, 'S');
      const over = speed > top;
      const right = over ? Math.floor(top) : Math.ceil(least);
      report({
        at,
        severity: over ? 'error' : 'warning',
        message: over
          ? `The control stops, or holds ${top} rev/min and leaves the feed: ${toolName(use)} asks for ${speed}. Write S${right} and lower F alike.`
          : `The spindle turns no slower than ${least} rev/min: ${toolName(use)} asks for ${speed}. Write S${right} and raise F alike.`,
        ...(line >= 0 && over
          ? {
              fixes: [
                {
                  title: `S${right}, the top of this spindle; lower F alike`,
                  grade: 'asks',
                  edits: [{ ...at, text: `S${right}` }],
                },
              ],
            }
          : {}),
      });
    }
  },
  flagged: [
    {
      name: 'a digit too many',
      program: `${MILL_MM}${milled(1).replace('S3000 M3\n', 'S30000 M3\n^^^^^^\n')}M30\n`,
      sheet: SHEET,
    },
    {
      name: 'slower than it turns',
      program: `${MILL_MM}${milled(1).replace('S3000 M3\n', 'S30 M3\n^^^\n')}M30\n`,
      sheet: SHEET,
    },
  ],
  silent: [
    { name: 'inside', program: `${MILL_MM}${milled(1)}M30\n`, sheet: SHEET },
    {
      name: 'the top itself',
      program: `${MILL_MM}${milled(1).replace('S3000', 'S8000')}M30\n`,
      sheet: SHEET,
    },
    {
      name: 'the machine is not known',
      program: `${MILL_MM}${milled(1).replace('S3000', 'S30000')}M30\n`,
      options: ISO,
    },
  ],
};
