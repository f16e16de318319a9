import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { ISO, milled } from './sample-programs.ts';

/** Neither G20 nor G21. */
export const unitsNotStated: Rule = {
  code: 'units-not-stated',
  title: 'Unit of length is not stated',
  family: 'state',
  severity: 'information',
  means:
    'The program says neither G20 nor G21: it runs in whatever unit the last job left, 25.4 times too large or too small.',
  cure: 'Write G20 or G21 in the first block.',
  fine_when: 'The control is set to one unit for good and every program of the shop relies on it.',
  source: 'NISTIR 6556 section 3.5.7 (G20, G21), from memory',
  needs: [],
  program(program, report) {
    const { units } = program.reading.settled;
    if (units.how !== 'unknown' && units.how !== 'given') return;
    const part = program.parts.find(p => p.cut_steps > 0);
    if (!part || isStated(program)) return;
    const moves =
      program.parts.find(p => p.rapid_steps > 0 || p.cut_steps > 0)?.first_line ?? part.first_line;
    const line = headLine(program, moves);
    const known = units.how === 'given';
    const code = units.value === 'inch' ? 'G20' : 'G21';
    report({
      at: program.blockPlace(line),
      severity: known && program.kind === 'mill' ? 'warning' : 'information',
      message: known
        ? `Runs 25.4 times off if the last job left the other unit: the program never says ${code}. Write it in the first block.`
        : 'Inch or mm is not said, so lengths and feeds were read as mm: write G20 or G21, or say it in the setup sheet.',
    });
  },
  flagged: [
    { name: 'not said', program: 'G90 G94\nS1000 M3\nG0 X0 Y0\n^^^^^^^^\nG1 X10. F100.\nM30\n' },
    {
      name: 'only the sheet knows',
      program: `G17 G40 G49 G80 G90 G94\n^^^^^^^^^^^^^^^^^^^^^^^\n${milled(1)}M30\n`,
      sheet: '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" } }',
    },
  ],
  silent: [
    { name: 'stated', program: 'G21 G90 G94\nS1000 M3\nG0 X0 Y0\nG1 X10. F100.\nM30\n', options: ISO },
    { name: 'a fragment that cuts nothing', program: 'G90 G94\nG0 X0 Y0\n' },
  ],
};

/** The line of modes at the head, where the unit belongs (G17, G40, G90, G94 ...), else the first move. */
function headLine(program: Program, moves: number): number {
  for (let line = 0; line < moves && line < 200; line++) {
    const words = program.words(line).filter(w => w.letter !== 'N');
    if (words.length >= 3 && words.every(w => w.letter === 'G')) return line;
  }
  return moves;
}

const LINES_SEEN = 2000;

/** G20 or G21 stands somewhere after all, as behind subprograms at the top. */
function isStated(program: Program): boolean {
  const most = Math.min(program.lineCount, LINES_SEEN);
  for (let line = 0; line < most; line++)
    if (program.words(line).some(w => w.letter === 'G' && (w.value === 20 || w.value === 21))) return true;
  return false;
}
