import { KIND, RUN } from '../../rs274/steps.ts';
import { runsStraight } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

const CHANGE = 1 << KIND.toolchange;

/** M6 that brings the tool already in the spindle, with no T. */
export const toolChangeSameTool: Rule = {
  code: 'tool-change-same-tool',
  title: 'Tool change brings the same tool again',
  family: 'state',
  severity: 'warning',
  means:
    'M6 comes with no T since the last change: the same tool stays in the spindle and does the work of the next one.',
  cure: 'Write T with the tool that is meant.',
  fine_when: 'The machine counts on with M6, or the change is only a stop.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind === 'lathe') return;
    let before = Number.NaN;
    let line = -1;
    for (const part of program.parts) {
      if (!(part.kinds & CHANGE)) continue;
      const tool = part.run[RUN.tool];
      const at = part.last_line;
      if (tool >= 0 && tool === before && !hasToolWord(line + 1, at) && runsStraight(program, line + 1, at)) {
        report({
          at: program.wordPlace(at, 'M', 6),
          message: `Cuts the next operation with T${tool} still in the spindle: this M6 has no T. Write the tool that is meant.`,
        });
      }
      before = tool;
      line = at;
    }

    function hasToolWord(from: number, to: number): boolean {
      for (let at = to; at >= from && at > to - 400; at--)
        if (program.words(at).some(word => word.letter === 'T')) return true;
      return to - from >= 400;
    }
  },
  flagged: [
    {
      name: 'T lost',
      program: `${MILL_MM}${milled(1)}M6\n^^\nS2000 M3\nG0 X0 Y0\nG43 H2 Z2.\nG1 Z-1. F100.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'another tool', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'each operation calls its tool, also the same',
      program: `${MILL_MM}${milled(1)}${milled(1)}M30\n`,
      options: ISO,
    },
  ],
};
