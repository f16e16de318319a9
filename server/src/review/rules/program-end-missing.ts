import { KIND, RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { isReport } from './problem-words.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

const END = 1 << KIND.end;

/** No M2, M30 or M99 at the end. */
export const programEndMissing: Rule = {
  code: 'program-end-missing',
  title: 'Program has no end',
  family: 'language',
  severity: 'information',
  means:
    'No M30, M2 or M99 comes: the control stops with an alarm at the end of the file, spindle and coolant still on, or runs into the next program.',
  cure: 'Write M30 as the last block.',
  fine_when: 'The file is a piece that another program takes in.',
  source: 'NISTIR 6556 section 3.2 (program end), from memory',
  needs: [],
  program(program, report) {
    if (program.parts.length === 0 || program.reading.needs_flow || !program.reading.complete) return;
    if (program.parts.some(part => part.kinds & END)) return;
    let first = 0;
    const { text } = program.reading;
    while (first < program.lineCount - 1 && first < 50 && text.lineText(first).trim() === '') first++;
    const taped = text.lineText(first).trim().startsWith('%');
    let last = program.lineCount - 1;
    while (last > 0 && program.words(last).length === 0) last--;
    const closed = taped && hasPercent(text.lineText, program.lineCount);
    if (isReport(program) && closed) return;
    const cuts = program.parts.some(part => part.cut_steps > 0);
    const wanted =
      cuts && program.parts.some(part => part.run[RUN.direction] === 1 || part.run[RUN.direction] === -1);
    const whole = program.sheet !== undefined || taped;
    report({
      at: program.blockPlace(last),
      severity: whole && wanted ? (isReport(program) && taped ? 'error' : 'warning') : 'information',
      message:
        'Stops with an alarm, or runs into the next program: no M30, M2 or M99 ends this one. Write M30 here.',
      fixes: [
        {
          title: 'Write M30 after this block',
          grade: 'safe',
          edits: [
            {
              ...program.blockPlace(last),
              column: text.lineText(last).length,
              end_column: text.lineText(last).length,
              text: '\nM30',
            },
          ],
        },
      ],
    });

    function hasPercent(lineText: (line: number) => string, count: number): boolean {
      for (let line = count - 1; line > first && line > count - 10; line--)
        if (lineText.call(text, line).trim().startsWith('%')) return true;
      return false;
    }
  },
  flagged: [
    { name: 'the tape ends', program: `%\nO10\n${MILL_MM}${milled(1).trimEnd()}\n^^\n%\n`, options: ISO },
    { name: 'a fragment: information only', program: 'G21 G90 G94\nS100 M3\nG1 X10. F100.\n^^^^^^^^^^^^^\n' },
  ],
  silent: [
    { name: 'M30', program: `%\nO10\n${MILL_MM}${milled(1)}M30\n%\n`, options: ISO },
    {
      name: 'the strict dialect may end with %',
      program: `%\n${MILL_MM}${milled(1)}%\n`,
      options: { dialect: 'ngc', kind: 'mill' },
    },
    { name: 'a subprogram', program: `O10\n${MILL_MM}${milled(1)}M99\n`, options: ISO },
  ],
};
