import { KIND } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

const END = 1 << KIND.end;

/** Moves that stand after M30. */
export const blocksAfterEnd: Rule = {
  code: 'blocks-after-end',
  title: 'Moves stand after the end of the program',
  family: 'language',
  severity: 'warning',
  means: 'The program ends before these blocks: they are never run, and the part is not finished.',
  cure: 'Move M30 (or M2) to the end.',
  fine_when: 'The blocks are called from elsewhere, or kept for later.',
  source: 'NISTIR 6556 section 3.6.1 (M2, M30), from memory',
  needs: [],
  program(program, report) {
    if (program.reading.needs_flow) return;
    const end = program.parts.find(part => part.kinds & END);
    if (!end) return;
    const text = program.reading.text;
    for (let line = end.last_line + 1; line < program.lineCount && line < end.last_line + 60; line++) {
      const words = program.words(line);
      if (/^\s*(?:[O:]|%)/i.test(text.lineText(line))) return;
      const moves = words.some(w => 'XYZ'.includes(w.letter));
      if (!moves) continue;
      const place = [end.last_line, end.last_line - 1].find(at =>
        program.words(at).some(w => w.letter === 'M' && (w.value === 2 || w.value === 30)),
      );
      report({
        at: program.blockPlace(place ?? end.last_line),
        message: `The part is not finished: the program ends here, and moves stand after it (line ${line + 1}). Move the end behind them.`,
      });
      return;
    }
  },
  flagged: [
    {
      name: 'M30 in the middle',
      program: `%\n${MILL_MM}${milled(1)}M30\n^^^\n${milled(2)}M30\n%\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'at the end', program: `%\n${MILL_MM}${milled(1)}${milled(2)}M30\n%\n`, options: ISO },
    {
      name: 'another program after it',
      program: `%\nO1\n${MILL_MM}${milled(1)}M30\nO2\n${milled(2)}M30\n%\n`,
      options: ISO,
    },
  ],
};
