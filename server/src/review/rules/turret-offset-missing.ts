import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, errorWithSheet, lineOfLetter } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { LATHE_A } from './sample-programs.ts';

const PROGRAM = (word: string) =>
  `G21 G18 G40 G99\n${word}G97 S900 M3\nG0 X62. Z2.\nG1 Z-20. F0.2\nG0 X100. Z50.\n`;

/** A lathe tool that cuts with no offset, or another tool's. */
export const turretOffsetMissing: Rule = {
  code: 'turret-offset-missing',
  title: 'Lathe tool without its offset',
  family: 'state',
  severity: 'warning',
  means:
    "The last digits of T are the offset: with 00, or with another tool's number, the tool stands somewhere else than the program thinks.",
  cure: 'Write the offset that belongs to the tool, as in T0101.',
  fine_when: 'The tool sets the zero, or the shop uses a second offset for it.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'lathe' || program.dialect === 'ngc') return;
    const uses = cuttingUses(program);
    const usual =
      program.sheet !== undefined ||
      uses.some(use => use.parts.some(p => p.cut_steps > 0 && p.run[RUN.length_offset] > 0));
    if (!usual) return;
    const numbers = new Set(uses.map(use => use.number));
    for (const use of uses) {
      const stated = use.tool?.length_offset?.value;
      const part = use.parts.find(p => {
        const offset = p.run[RUN.length_offset];
        if (p.cut_steps === 0 || Number.isNaN(offset) || offset === stated) return false;
        return (
          offset === 0 ||
          (stated !== undefined ? offset !== stated : offset !== use.number && numbers.has(offset))
        );
      });
      if (!part) continue;
      const offset = part.run[RUN.length_offset];
      const line = lineOfLetter(program, 'T', use.change_line, part.first_cut_line);
      report({
        at: program.wordPlace(line >= 0 ? line : part.first_cut_line, 'T'),
        severity: errorWithSheet(program),
        message:
          offset === 0
            ? `Stands somewhere else: T${use.number} cuts with offset 00, which is none. Write the offset that belongs to it.`
            : `Stands somewhere else: T${use.number} cuts with offset ${offset}${numbers.has(offset) ? `, the number of T${offset}` : ''}. Write its own.`,
      });
    }
  },
  flagged: [
    {
      name: 'offset 00',
      program: `${PROGRAM('T0101\n')}${PROGRAM('T0300\n^^^^^\n').slice(16)}M30\n`,
      options: LATHE_A,
    },
    {
      name: 'offset of the other tool',
      program: `${PROGRAM('T0101\n')}${PROGRAM('T0301\n^^^^^\n').slice(16)}M30\n`.replace('T0301', 'T0301'),
      options: LATHE_A,
      sheet:
        '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "tools": { "3": { "length_offset": 3 } } }',
    },
  ],
  silent: [
    { name: 'its own', program: `${PROGRAM('T0101\n')}M30\n`, options: LATHE_A },
    { name: 'cancelled on the way out', program: `${PROGRAM('T0101\n')}T0100\nM30\n`, options: LATHE_A },
    { name: 'a second offset of its own', program: `${PROGRAM('T0111\n')}M30\n`, options: LATHE_A },
  ],
};
