import type { Rule } from '../rule.ts';
import { scanOf } from '../scan-program.ts';
import { ISO, MILL_MM } from './sample-programs.ts';

const PROGRAM = (arc: string) =>
  `${MILL_MM}T1 M6\nS3000 M3\nG54 G0 X-10. Y5.\nG43 H1 Z5.\nG1 Z-2. F100.\nX0. F300.\nY40.\n${arc}G1 X60.\nG0 Z50.\nM30\n`;

/** G2 and G3 mixed up. */
export const arcTurnsBack: Rule = {
  code: 'arc-turns-back',
  title: 'Arc turns the wrong way',
  family: 'geometry',
  severity: 'warning',
  means:
    'The arc leaves the line before it with a corner and meets the next one with a corner; the other way round it would run on smoothly at both ends. It cuts through the corner of the part, or all round the wrong side.',
  cure: 'Write G3 for G2, or G2 for G3.',
  fine_when: 'The corner is meant.',
  source: 'geometry of the path',
  needs: [],
  program(program, report) {
    const { turnedArcs } = scanOf(program);
    if (turnedArcs.length === 0 || turnedArcs.length > 6) return;
    for (const arc of turnedArcs) {
      const word = program.words(arc.line).find(w => w.letter === 'G' && (w.value === 2 || w.value === 3));
      const at = word ? program.wordPlace(arc.line, 'G', word.value) : program.blockPlace(arc.line);
      const other = word?.value === 2 ? 'G3' : 'G2';
      report({
        at,
        message: `Cuts into the corner: this arc turns back at both ends, and with ${other} it would run on smoothly. Check G2 and G3.`,
        ...(word
          ? { fixes: [{ title: `Write ${other}`, grade: 'asks', edits: [{ ...at, text: other }] }] }
          : {}),
      });
    }
  },
  flagged: [
    { name: 'about its centre', program: PROGRAM('G3 X10. Y50. I10. J0.\n^^\n'), options: ISO },
    { name: 'with a radius', program: PROGRAM('G3 X10. Y50. R10.\n^^\n'), options: ISO },
  ],
  silent: [
    { name: 'about its centre', program: PROGRAM('G2 X10. Y50. I10. J0.\n'), options: ISO },
    { name: 'with a radius', program: PROGRAM('G2 X10. Y50. R10.\n'), options: ISO },
    { name: 'a corner at one end only', program: PROGRAM('G3 X10. Y40. R5.\n'), options: ISO },
  ],
};
