import { RUN } from '../../rs274/steps.ts';
import { lineOfCode, lineOfLetter } from '../lookup.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';

/** A cutting move while the spindle stands still. */
export const spindleStopped: Rule = {
  code: 'spindle-stopped',
  title: 'Spindle stands still in a cut',
  family: 'state',
  severity: 'error',
  means:
    'A feed move runs with the spindle stopped or at zero speed: the tool is pushed into the work and breaks, or throws the part.',
  cure: 'Start the spindle (S with M3 or M4) before the first cut, after each tool change and after each M5.',
  fine_when: 'The move only positions at feed, as when a bar is pulled or a broach runs.',
  source: 'common practice, no source',
  needs: [],
  explains: ['chip-load-low', 'chip-load-high', 'surface-speed-low', 'surface-speed-high'],
  tool(use, program, report) {
    for (const part of use.parts) {
      if (part.cut_steps === 0) continue;
      const direction = part.run[RUN.direction];
      const zero = part.run[RUN.spindle] === 0 && direction !== 0;
      if (direction !== 0 && !zero) continue;
      // S without M3 after the tool change is where the start was forgotten
      const speed = lineOfLetter(program, 'S', use.change_line, part.first_cut_line);
      const cause = !zero && speed >= 0 && !stopsBetween(program, speed, part.first_cut_line);
      report({
        at: cause ? program.wordPlace(speed, 'S') : program.blockPlace(part.first_cut_line),
        ...(cause ? { related: [{ line: part.first_cut_line, message: 'the first cut' }] } : {}),
        message: zero
          ? 'Pushes a standing tool into the work: the spindle is on with S0. Give a speed.'
          : 'Pushes a standing tool into the work: the spindle was stopped by M5 and not started again. Write M3 or M4 with its speed before this cut.',
      });
      return;
    }
  },
  flagged: [
    { name: 'M5 and on', program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0 Z1\nM5\nG1 X10 F100\n^^^^^^^^^^^\n' },
    { name: 'S0', program: 'G21 G90 G94\nS0 M3\nG0 X0 Y0 Z1\nG1 X10 F100\n^^^^^^^^^^^\n' },
  ],
  silent: [
    { name: 'started again', program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0 Z1\nM5\nM3\nG1 X10 F100\n' },
    {
      name: 'a fragment that never speaks of the spindle',
      program: 'G21 G90 G94\nG0 X0 Y0 Z1\nG1 X10 F100\n',
    },
  ],
};

/** A stop of the spindle, or a start, stands behind the speed. */
function stopsBetween(program: Program, from: number, to: number): boolean {
  return lineOfCode(program, 'M', [3, 4, 5, 13, 14], from, to) >= 0;
}
